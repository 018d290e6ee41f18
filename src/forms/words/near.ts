import { type Random, shuffled } from '../../lib/random.ts';
import type { Choice } from '../../model/form.ts';
import { foldWords } from './fold.ts';
import { areAlike } from './match.ts';

/** Wrong choices beside the right words, at most and at least. */
const MOST = 4;
export const LEAST_MISSES = 2;
/** Of callouts that share words, and of altered ones, at most so many. */
const SHARING = 3;
const ALTERED = 2;

/**
 * What may stand beside the right words: other texts, those that share words with it first, then itself with a word
 * of another one, then the rest. None would be taken for the right words, nor for another one of them.
 * @param also other right wordings
 * @param pool other texts that are said; those with the right words are left out
 * @param taken texts that may not come about by altering: whatever is said anywhere in the deck
 */
export function nearMisses(
  random: Random,
  right: string,
  also: readonly string[],
  pool: readonly Choice[],
  taken: readonly string[],
): Choice[] {
  const accepted = [right, ...also];
  const found: Choice[] = [];
  const add = (one: Choice, most: number): void => {
    if (found.length >= most || foldWords(one.text).whole === '') return;
    if ([...accepted, ...found.map(({ text }) => text)].some((text) => areAlike(one.text, text))) return;
    found.push(one);
  };
  const own = new Set(foldWords(right).words.map(({ key }) => key));
  const near = shuffled(random, pool)
    .map((one) => ({ one, shared: foldWords(one.text).words.filter(({ key }) => own.has(key)).length }))
    .sort((a, b) => b.shared - a.shared);
  for (const { one, shared } of near) if (shared > 0) add(one, SHARING);
  const most = Math.min(MOST, found.length + ALTERED);
  const texts = pool.map(({ text }) => text);
  shuffled(random, altered(right, texts)).forEach((text, n) => {
    if (!taken.some((other) => areAlike(text, other))) add({ id: `altered-${n}`, text }, most);
  });
  for (const { one } of near) add(one, MOST);
  return found;
}

/** The words with the first or the last one taken from another text that has more than one. */
function altered(right: string, pool: readonly string[]): string[] {
  const split = (text: string): string[] => text.trim().split(/\s+/);
  const own = split(right);
  if (own.length < 2) return [];
  const others = pool.map(split).filter(({ length }) => length >= 2);
  const first = others.map((words) => [words[0], ...own.slice(1)].join(' '));
  const last = others.map((words) => [...own.slice(0, -1), words.at(-1)].join(' '));
  return [...new Set([...last, ...first])];
}

/**
 * Choices with the values of the day put in, the right one first.
 * @returns null where two have come to be taken for one another
 */
export function filledChoices(
  choices: readonly Choice[],
  also: readonly string[],
  fill: (text: string) => string,
): Choice[] | null {
  const filled = choices.map(({ id, text }) => ({ id, text: fill(text) }));
  const accepted = also.map(fill);
  const isTwice = filled.some(
    ({ text }, i) =>
      filled.slice(0, i).some((other) => areAlike(text, other.text)) ||
      (i > 0 && accepted.some((other) => areAlike(text, other))),
  );
  return isTwice ? null : filled;
}
