/** @param a folded, as `b` @returns are they the same, each of their words but for a letter more, less or other? */
export const isTwin = (a: string, b: string): boolean => areTwins(a.split(' '), b.split(' '));

/** The same of their words. */
export const areTwins = (a: readonly string[], b: readonly string[]): boolean =>
  a.length === b.length && a.every((word, i) => isNearly(word, b[i] as string));

/** Short words and numbers are others by one letter: "off", "of"; "flaps 1", "flaps 0". */
const LONG = 4;
function isNearly(a: string, b: string): boolean {
  if (a === b) return true;
  const [short, long] = a.length < b.length ? [a, b] : [b, a];
  if (short.length < LONG || long.length - short.length > 1 || /\p{N}/u.test(a + b)) return false;
  let i = 0;
  while (i < short.length && short[i] === long[i]) i++;
  return long.slice(i + 1) === short.slice(short.length === long.length ? i + 1 : i);
}
