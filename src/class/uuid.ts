/** Namespace of names that are addresses, of URNs too (RFC 9562, section 6.6). */
export const NAMESPACE_URL = '6ba7b811-9dad-11d1-80b4-00c04fd430c8';

/**
 * UUID of version 5: the same for the same name (RFC 9562, section 5.5).
 * @param namespace a UUID
 */
export const uuidOf = async (namespace: string, name: string): Promise<string> => {
  const hex = namespace.replaceAll('-', '');
  const space = Uint8Array.from({ length: 16 }, (_, i) => Number.parseInt(hex.slice(2 * i, 2 * i + 2), 16));
  const digest = await crypto.subtle.digest('SHA-1', new Uint8Array([...space, ...new TextEncoder().encode(name)]));
  const bytes = new Uint8Array(digest).subarray(0, 16);
  bytes[6] = ((bytes[6] as number) & 0x0f) | 0x50;
  bytes[8] = ((bytes[8] as number) & 0x3f) | 0x80;
  const text = [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  return text.replace(/^(.{8})(.{4})(.{4})(.{4})/, '$1-$2-$3-$4-');
};
