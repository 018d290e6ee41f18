import { type Random, shuffled } from '../../lib/random.ts';
import type { Choice } from '../../model/form.ts';
import { tellsCall } from '../../subjects/procedure/words.ts';
import { foldWords } from './fold.ts';
import { areAlike } from './match.ts';
import { numberWords } from './numbers.ts';

/** Wrong choices beside the right words, at most and at least. */
const MOST = 4;
export const LEAST_MISSES = 2;
/** Of callouts that share words, and of altered ones, at most so many. */
const SHARING = 3;
const ALTERED = 2;

/**
 * What may stand beside the right words: other texts, those that share words with it first, then itself with one
 * word exchanged, then the rest. None would be taken for the right words, nor for another one of them.
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
  for (const [n, text] of altered(random, [right, ...pool.map(({ text }) => text), ...taken], right).entries()) {
    if (found.length >= most) break;
    if (!taken.some((other) => areAlike(text, other))) add({ id: `altered-${n}`, text }, most);
  }
  for (const { one } of near) add(one, MOST);
  return found;
}

/**
 * The words with one of them exchanged for another that is said in its place: one by which two texts of the deck alone
 * differ ("flaps one", "flaps zero"), a number near the one at the end, another word of the trade for a state. Never
 * parts of two texts joined, which nobody would say. "List" for "checklist" is no other word.
 */
function altered(random: Random, said: readonly string[], right: string): string[] {
  const own = wordsOf(right);
  const swaps = exchangedIn(said);
  const made = own.flatMap((word, at) => {
    const isLast = at === own.length - 1;
    const place = swaps.get(beside(own, at));
    const others = [
      ...(place?.has(bare(word)) ? place : []),
      ...(isLast && own.length > 1 ? statesFor(bare(word)) : []),
      ...(isLast ? numbersNear(bare(word)) : []),
    ];
    return others
      .filter((other) => other !== bare(word))
      .map((other) => own.map((one, i) => (i === at ? dressed(other, word) : one)).join(' '));
  });
  return shuffled(
    random,
    [...new Set(made)].filter((text) => !(tellsCall(text, right) && tellsCall(right, text))),
  );
}

/** What a word is said beside: the one before it, of the first word the one behind it. "V" is not followed by "zero". */
const beside = (words: readonly string[], at: number): string =>
  at === 0 ? `before ${bare(words[1] ?? '')}` : `after ${bare(words[at - 1] ?? '')}`;

/** Words that stand in one place of two texts that are alike otherwise, of two words at least, by what they stand beside. */
function exchangedIn(said: readonly string[]): ReadonlyMap<string, ReadonlySet<string>> {
  const places = new Map<string, { readonly beside: string; readonly words: Set<string> }>();
  for (const words of said.map(wordsOf))
    for (const at of words.length < 2 ? [] : words.keys()) {
      const around = JSON.stringify([at, words.filter((_, i) => i !== at).map(bare)]);
      const place = places.get(around) ?? { beside: beside(words, at), words: new Set() };
      places.set(around, place);
      place.words.add(bare(words[at] as string));
    }
  const found = new Map<string, Set<string>>();
  for (const place of places.values())
    if (place.words.size > 1) found.set(place.beside, new Set([...(found.get(place.beside) ?? []), ...place.words]));
  return found;
}

/** States that are reported in place of one another; common practice, no source. */
const STATES: readonly (readonly string[])[] = [
  ['set', 'checked', 'confirmed'],
  ['compared', 'checked'],
  ['secured', 'checked', 'ready'],
  ['up', 'down'],
  ['on', 'off'],
  ['open', 'closed'],
  ['left', 'right'],
];

const statesFor = (word: string): string[] =>
  STATES.flatMap((states) => (states[0] === word || (states.length === 2 && states[1] === word) ? states : [])).filter(
    (state) => state !== word,
  );

/** The next number and the one before, in the place that counts: 85 → 95 and 75, 1 → 2. As it was written, in words or in digits. */
function numbersNear(word: string): string[] {
  const { whole } = foldWords(word);
  if (!/^[1-9]\d{0,4}$/.test(whole)) return [];
  const [n, step] = [Number(whole), 10 ** (whole.length - 1)];
  return [n + step, n - step]
    .filter((other) => other > 0)
    .map((other) => (/\d/.test(word) ? String(other) : numberWords(String(other)).join('-')));
}

/** In small letters, without the marks at its end. */
const bare = (word: string): string => word.toLowerCase().replace(/[^\p{L}\p{N}]+$/u, '');

/** As the word was written that it stands for: its capitals, its comma. */
const dressed = (other: string, word: string): string => {
  const mark = /[^\p{L}\p{N}]+$/u.exec(word)?.[0] ?? '';
  if (/^\p{Lu}{2}/u.test(word)) return `${other.toUpperCase()}${mark}`;
  const isCapital = /^\p{Lu}/u.test(word);
  return `${isCapital ? `${other.slice(0, 1).toUpperCase()}${other.slice(1)}` : other}${mark}`;
};

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
