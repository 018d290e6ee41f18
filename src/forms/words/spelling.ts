/**
 * One spelling for British and American words. Sources: the pairs of Oxford's "New Hart's Rules" and "The Chicago Manual
 * of Style", from memory. Both sides are folded, so a form that no dictionary knows does no harm as long as no two words
 * of different meaning become one: "four" and "for" stay apart by length, "filling" and "filing" by a list of stems.
 */

const STEMS = ['travel', 'level', 'cancel', 'signal', 'label', 'fuel', 'model', 'channel', 'total', 'dial', 'panel'];
const RE = ['cent', 'met', 'lit', 'fib', 'theat', 'calib', 'kilomet', 'millimet', 'centimet', 'kilolit'];

const RULES: readonly (readonly [RegExp, string])[] = [
  // colour, favoured: six letters and more, so that four, hour, tour and your stay.
  [/^(?=.{6})(.{3,})our(s|ed|ing|able|ite|al)?$/, '$1or$2'],
  [/^odour(s?)$/, 'odor$1'],
  // stabilise, stabilisation, analyse
  [/^(.{3,})is(e|es|ed|er|ers|ing|ation|ations)$/, '$1iz$2'],
  [/^(.{3,})ys(e|es|ed|er|ers|ing)$/, '$1yz$2'],
  [new RegExp(`^(${RE.join('|')})re(s?)$`), '$1er$2'],
  [new RegExp(`^(${RE.join('|')})red$`), '$1ered'],
  [/^(cent)ring$/, '$1ering'],
  [/^(def|off|lic|pret)ence(s?)$/, '$1ense$2'],
  [/^practic(e|es|ed|ing)$/, 'practis$1'],
  [new RegExp(`^(${STEMS.join('|')})l(ed|ing|er|ers)$`), '$1$2'],
  [/^(.{2,})logue(s?)$/, '$1log$2'],
  [/^manoeuv(?:re|er)(s|d|ed)?$/, 'maneuver$1'],
  [/^manoeuv(?:r|er)ing$/, 'maneuvering'],
  [/^maneuverd$/, 'maneuvered'],
  [/^aeroplane(s?)$/, 'airplane$1'],
  [/^aluminium$/, 'aluminum'],
  [/^grey(s?)$/, 'gray$1'],
  [/^tyre(s?)$/, 'tire$1'],
  [/^kerb(s?)$/, 'curb$1'],
  [/^programme(s?)$/, 'program$1'],
  [/^(judg|acknowledg)ement(s?)$/, '$1ment$2'],
];

export const oneSpelling = (word: string): string =>
  RULES.reduce((said, [pattern, by]) => said.replace(pattern, by), word);

/**
 * Are two words one letter apart: one put in, left out, another one, or two neighbours exchanged? Damerau-Levenshtein
 * distance 1: F. J. Damerau, "A technique for computer detection and correction of spelling errors", Communications of
 * the ACM 7(3), 1964. Letters are code points.
 */
export function isOneApart(a: string, b: string): boolean {
  // A code point is one unit or two.
  if (Math.abs(a.length - b.length) > 2) return false;
  const [short, long] = [[...a], [...b]].sort((x, y) => x.length - y.length) as [string[], string[]];
  if (a === b || long.length - short.length > 1) return false;
  let i = 0;
  while (i < short.length && short[i] === long[i]) i += 1;
  const same = (from: number, to: number): boolean => short.slice(from).join('') === long.slice(to).join('');
  if (long.length > short.length) return same(i, i + 1);
  return same(i + 1, i + 1) || (short[i] === long[i + 1] && short[i + 1] === long[i] && same(i + 2, i + 2));
}

/**
 * Is one word the other with a letter amiss? Not where it begins, but for two letters that changed places: there a letter
 * makes another word of it ("locked" and "blocked", "symmetric" and "asymmetric", «включено» and «выключено»), and hardly
 * anybody misspells it (from memory).
 */
export function isMisspelt(a: string, b: string): boolean {
  const [[a0, a1], [b0, b1]] = [[...a], [...b]];
  const beginsAlike = a0 === b0 ? a1 === b1 || a.length === b.length : a0 === b1 && a1 === b0;
  return beginsAlike && isOneApart(a, b);
}
