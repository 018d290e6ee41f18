/** Letters with marks lose them; of each word what an id may hold. */
const wordsOf = (text: string): string[] =>
  text
    .normalize('NFKD')
    .replaceAll(/\p{Mark}/gu, '')
    .toLowerCase()
    .split(/[^a-z0-9]+/)
    .filter((word) => word !== '');

/** Say little about what a thing is. */
const SMALL = new Set(['the', 'a', 'an', 'to', 'of', 'and', 'or', 'at', 'in', 'on', 'for', 'is', 'with']);

const MOST_WORDS = 4;
const MOST_LETTERS = 32;

/**
 * An id from words: a few of them joined by hyphens, with a number behind where that is taken.
 * @param plain used where the words give nothing (another script): "step"
 */
export const mint = (words: string, taken: ReadonlySet<string>, plain = 'item'): string => {
  const all = wordsOf(words);
  const telling = all.filter((word) => !SMALL.has(word));
  const base =
    (telling.length > 0 ? telling : all).slice(0, MOST_WORDS).join('-').slice(0, MOST_LETTERS).replace(/-+$/, '') ||
    plain;
  if (!taken.has(base)) return base;
  for (let n = 2; ; n++) if (!taken.has(`${base}-${n}`)) return `${base}-${n}`;
};
