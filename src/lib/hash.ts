/**
 * 32-bit FNV-1a over the UTF-8 bytes of a text (Fowler, Noll, Vo; IETF draft-eastlake-fnv).
 * Pure and synchronous: item stamps are made with it.
 */
export function fnv1a(text: string): number {
  let h = 0x811c9dc5;
  const byte = (b: number): void => {
    h = Math.imul(h ^ b, 0x01000193);
  };
  for (const ch of text) {
    const c = ch.codePointAt(0) as number;
    if (c < 0x80) byte(c);
    else if (c < 0x800) {
      byte(0xc0 | (c >> 6));
      byte(0x80 | (c & 63));
    } else if (c < 0x10000) {
      byte(0xe0 | (c >> 12));
      byte(0x80 | ((c >> 6) & 63));
      byte(0x80 | (c & 63));
    } else {
      byte(0xf0 | (c >> 18));
      byte(0x80 | ((c >> 12) & 63));
      byte(0x80 | ((c >> 6) & 63));
      byte(0x80 | (c & 63));
    }
  }
  return h >>> 0;
}

/** FNV-1a in base 36: up to seven characters of [0-9a-z]. */
export const fnv36 = (text: string): string => fnv1a(text).toString(36);
