import { type Random, shuffled } from '../../lib/random.ts';
import type { Choice } from '../../model/form.ts';
import { tellsCall } from '../../subjects/procedure/words.ts';
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
  for (const [n, text] of altered(shuffled(random, texts), right).entries()) {
    if (found.length >= most) break;
    if (!taken.some((other) => areAlike(text, other))) add({ id: `altered-${n}`, text }, most);
  }
  for (const { one } of near) add(one, MOST);
  return found;
}

/**
 * The words with the last or the first one taken from another text, the likeliest first: a number for a number, then
 * from texts of as many words. "List" for "checklist" is no other word.
 */
function altered(pool: readonly string[], right: string): string[] {
  const own = wordsOf(right);
  if (own.length < 2) return [];
  const others = pool.map(wordsOf).filter(({ length }) => length >= 2);
  const made = [-1, 0].flatMap((at) =>
    others.flatMap((words) => {
      const [ours, theirs] = [own.at(at) as string, words.at(at) as string];
      const isNumber = [ours, theirs].map((word) => /^\d/.test(foldWords(word).whole));
      const text = (at === 0 ? [theirs, ...own.slice(1)] : [...own.slice(0, -1), theirs]).join(' ');
      const isWordless = tellsCall(text, right) && tellsCall(right, text);
      const rank = isNumber[0] === isNumber[1] ? (isNumber[0] ? 0 : words.length === own.length ? 1 : 2) : 3;
      return isWordless ? [] : [{ text, rank }];
    }),
  );
  return [...new Set(made.sort((a, b) => a.rank - b.rank).map(({ text }) => text))];
}

const wordsOf = (text: string): string[] => text.trim().split(/\s+/);

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
