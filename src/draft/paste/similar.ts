import { foldText } from '../../lib/fold-text.ts';

/** Pairs of neighbouring letters of folded words, those at the ends of words too, with how often each is there. */
const pairsOf = (folded: string): Map<string, number> => {
  const pairs = new Map<string, number>();
  const text = ` ${folded} `;
  for (let i = 0; i + 1 < text.length; i++) {
    const pair = text.slice(i, i + 2);
    pairs.set(pair, (pairs.get(pair) ?? 0) + 1);
  }
  return pairs;
};

export interface Words {
  readonly folded: string;
  readonly pairs: ReadonlyMap<string, number>;
  readonly size: number;
}

export const wordsFor = (text: string): Words => {
  const folded = foldText(text);
  return { folded, pairs: pairsOf(folded), size: folded.length + 1 };
};

/**
 * How alike two texts are, 0..1: Dice's coefficient (Dice 1945) of their pairs of neighbouring letters, whatever the order
 * of the words; 1 where they are the same but for case, spaces and punctuation.
 * @param least less than that is told as 0
 */
export const likeness = (a: Words, b: Words, least = 0): number => {
  if (a.folded === b.folded) return 1;
  const most = (2 * Math.min(a.size, b.size)) / (a.size + b.size);
  if (most < least) return 0;
  const [few, many] = a.pairs.size < b.pairs.size ? [a.pairs, b.pairs] : [b.pairs, a.pairs];
  let shared = 0;
  for (const [pair, n] of few) shared += Math.min(n, many.get(pair) ?? 0);
  const dice = (2 * shared) / (a.size + b.size);
  return dice < least ? 0 : dice;
};
