import { bestPairs, type Pair } from '../../lib/assignment.ts';
import type { Id, Step } from '../../model/deck.ts';
import { plain } from './clean.ts';
import { likeness, type Words, wordsFor } from './similar.ts';
import type { Fields } from './types.ts';

/** Below this likeness two texts are two steps. Found by trying it on the decks: most rewordings lie above 0.6. */
const LEAST = 0.55;
/** What the same crew and the same place in the list are worth beside the words. */
const CREW = 0.04;
const PLACE = 0.02;

export interface Match {
  readonly id: Id;
  /** 0..1; 1: the same words. */
  readonly likeness: number;
}

/**
 * Which step of before each row is: first by the id that a row brings along, then by the same words, then by words that
 * are alike, each as the best assignment of all that are left (equal words by crew and place).
 * @param rows in order; null: is matched with nothing
 * @returns for each row its step; null: a new one
 */
export const matched = (rows: readonly (Fields | null)[], steps: readonly Step[]): (Match | null)[] => {
  const found = rows.map((): Match | null => null);
  const rowWords = rows.map((row) => (row === null ? null : wordsFor(said(row))));
  const stepWords = steps.map((step) => wordsFor(said(step)));
  const free = new Set(steps.keys());
  const take = (pairs: readonly Pair[], like: (pair: Pair) => number) => {
    for (const pair of bestPairs(pairs)) {
      found[pair.left] = { id: (steps[pair.right] as Step).id, likeness: like(pair) };
      free.delete(pair.right);
    }
  };
  const pairs = (worth: (row: number, step: number) => number): Pair[] =>
    rows.flatMap((row, left) =>
      row === null || found[left] !== null
        ? []
        : [...free].flatMap((right) => {
            const base = worth(left, right);
            return base > 0 ? [{ left, right, worth: base + extras(left, right) }] : [];
          }),
    );
  const extras = (left: number, right: number): number => {
    const apart = (left + 0.5) / rows.length - (right + 0.5) / steps.length;
    // Squared, so that equal steps are never crossed.
    return ((rows[left] as Fields).by === steps[right]?.by ? CREW : 0) + PLACE * (1 - apart * apart);
  };
  const like = (left: number, right: number): number =>
    likeness(rowWords[left] as Words, stepWords[right] as Words, LEAST);
  take(
    pairs((left, right) => (rows[left]?.id !== undefined && rows[left]?.id === steps[right]?.id ? 1 : 0)),
    ({ left, right }) => like(left, right),
  );
  take(
    pairs((left, right) => (rowWords[left]?.folded === stepWords[right]?.folded ? 1 : 0)),
    () => 1,
  );
  take(pairs(like), ({ left, right }) => like(left, right));
  return found;
};

const said = (of: { readonly do?: string; readonly say?: string }): string =>
  [of.do, of.say]
    .filter((one) => typeof one === 'string')
    .map(plain)
    .join(' ');
