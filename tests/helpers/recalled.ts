import { writeCopy } from '../../src/exchange/saved-copy.ts';
import { toLine } from '../../src/log/line.ts';
import { fold } from '../../src/memory/fold.ts';
import { recallChance } from '../../src/memory/fsrs.ts';
import { OWN_MEMORY } from '../../src/memory/own-weights.ts';
import type { Deck } from '../../src/model/deck.ts';
import type { Entry } from '../../src/model/entry.ts';
import type { Item, ItemKey } from '../../src/model/item.ts';
import { factsOf, joinFacts } from '../../src/ui/models/facts.ts';
import { entriesIn, factsIn } from '../../src/workers/log-input.ts';

export interface BroughtAnswers {
  /** Of the revision: `<deck id>@<16 hex of content id>`. */
  readonly deck: string;
  /** Of the entries; another one for each copy. */
  readonly writer: string;
  readonly items: readonly Item[];
  /** UTC ms: at each of them every item is answered once. */
  readonly times: readonly number[];
  readonly isRight: (item: Item) => boolean;
}

/**
 * A saved copy of answers, as another device of the learner would bring them. With the usual weights of memory: own ones
 * are found by the side, whenever the device comes to it.
 */
export const answersCopy = ({ deck, writer, items, times, isRight }: BroughtAnswers): string => {
  const answers = times.flatMap((time) => items.map((item) => ({ item, time })));
  const line = (i: number, at: number, said: object) =>
    toLine({ v: 1, id: `${writer}.${i + 1}`, at, off: 0, app: 'test', ...said } as Entry);
  const lines = answers.map(({ item, time }, i) =>
    line(i, time + (i % items.length), {
      k: 'answer',
      deck,
      form: 'limit',
      about: { thing: item.thing },
      variant: '',
      shown: {},
      given: null,
      sure: true,
      ms: 6000,
      marks: { [item.key]: isRight(item) ? 'right' : 'wrong' },
      g: 0,
      mv: 1,
    }),
  );
  const last = times.at(-1) ?? 0;
  lines.push(line(lines.length, last + items.length, { k: 'set', key: OWN_MEMORY, value: false }));
  return writeCopy({ decks: [], lines }, { app: 'test', at: last });
};

/**
 * Recall on a study day if nothing more is practised, by the fold of a log; null for what was never asked.
 * @param revisions of decks that are on the device
 */
export const recallBy = (
  lines: readonly string[],
  revisions: readonly { readonly deck: Deck; readonly hash: string }[],
  day: number,
): ((key: ItemKey) => number | null) => {
  const input = { lines, ...joinFacts(revisions.map(({ deck, hash }) => factsOf(deck, hash))) };
  const memory = fold(entriesIn(input), factsIn(input));
  return (key) => {
    const known = memory.items.get(key);
    return known === undefined ? null : recallChance(known, day, memory.model);
  };
};

/** How far items are below 90 %, critical ones below 97 % and counted three times: the mean, 0..1. */
export const shortfall = (items: readonly { readonly critical: boolean; readonly recall: number }[]): number => {
  const parts = items.map(({ critical, recall }) => {
    const [target, weight] = critical ? [0.97, 3] : [0.9, 1];
    return { weight, gap: (weight * Math.max(0, target - recall)) / target };
  });
  return parts.reduce((sum, { gap }) => sum + gap, 0) / parts.reduce((sum, { weight }) => sum + weight, 0);
};
