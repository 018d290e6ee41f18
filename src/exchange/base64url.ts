/** RFC 4648, section 5, without padding, as RFC 7515 writes it. */
export const toBase64url = (bytes: Uint8Array): string => {
  let text = '';
  for (const byte of bytes) text += String.fromCharCode(byte);
  return btoa(text).replaceAll('+', '-').replaceAll('/', '_').replace(/=+$/, '');
};

/** @returns null where the text is none, or says its bytes in another way than `toBase64url` would */
export const fromBase64url = (text: string): Uint8Array<ArrayBuffer> | null => {
  if (!/^[A-Za-z0-9_-]*$/.test(text) || text.length % 4 === 1) return null;
  const bytes = Uint8Array.from(atob(text.replaceAll('-', '+').replaceAll('_', '/')), (one) => one.charCodeAt(0));
  return toBase64url(bytes) === text ? bytes : null;
};

export const utf8 = (text: string): Uint8Array<ArrayBuffer> => new TextEncoder().encode(text);

/** @returns null where the bytes are no UTF-8 */
export const fromUtf8 = (bytes: Uint8Array): string | null => {
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return null;
  }
};
