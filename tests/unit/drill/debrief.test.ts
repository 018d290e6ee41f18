import { expect, test } from 'vitest';
import { debrief } from '../../../src/drill/debrief.ts';
import type { Answered } from '../../../src/drill/types.ts';
import { dayOrder } from '../../../src/memory/day-order.ts';
import { chanceAfter } from '../../../src/memory/fsrs.ts';
import type { Item, ItemKey } from '../../../src/model/item.ts';
import { DAY, itemAt, known, memoryOf } from '../memory/memories.ts';

const ITEMS = [0, 1, 2, 3, 4, 5].map((rank) => itemAt(rank, { critical: rank === 3 }));
const [a, b, c, d, e, f] = ITEMS.map(({ key }) => key) as [ItemKey, ItemKey, ItemKey, ItemKey, ItemKey, ItemKey];
const items = new Map(ITEMS.map((item) => [item.key, item]));
const none = memoryOf([]);

const answer = (more: Partial<Answered>): Answered => ({
  entry: 't.1',
  deck: 'calder/small@cccccccccccccccc',
  form: 'limit',
  about: { thing: 'thing-0' },
  sure: true,
  ms: 1000,
  g: 0,
  items: Object.keys(more.verdicts ?? {}),
  verdicts: {},
  predicted: {},
  ...more,
});
const keys = (list: readonly { readonly key: ItemKey }[]) => list.map(({ key }) => key);

test('sure and wrong stands apart from missed; what was missed is not also unsure; critical first', () => {
  const told = debrief(
    [
      answer({ verdicts: { [a]: 'missed', [b]: 'sound' } }),
      answer({ sure: true, verdicts: { [d]: 'missed' } }),
      answer({ sure: null, verdicts: { [c]: 'missed', [a]: 'missed' } }),
      answer({ sure: false, verdicts: { [e]: 'unsure', [c]: 'unsure' } }),
      // Of a run some steps were named as not sure: this one was not.
      answer({ sure: false, verdicts: { [f]: 'sound' } }),
    ],
    items,
    none,
    DAY,
  );
  expect(keys(told.sureButWrong)).toEqual([d, a]);
  expect(keys(told.missed)).toEqual([c]);
  expect(keys(told.unsure)).toEqual([e]);
  expect(told.questions).toBe(5);
  expect(told.sure).toMatchObject({ right: 1, of: 3 });
  expect(told.sureButWrong[0]).toMatchObject({ label: 'Thing 3', critical: true });
});

test('voided answers do not count', () => {
  const told = debrief(
    [
      answer({ verdicts: { [a]: 'missed' }, predicted: { [a]: 0.9 }, voided: 'mis-tap' }),
      answer({ verdicts: { [b]: 'missed' }, voided: 'query' }),
    ],
    items,
    none,
    DAY,
  );
  expect(told).toMatchObject({
    questions: 0,
    sureButWrong: [],
    missed: [],
    sure: { right: 0, of: 0 },
    predicted: { of: 0, predicted: null },
    times: [],
  });
});

test('predictions are held against what was recalled, lucky guesses counted in, the same day left out', () => {
  const told = debrief(
    [
      answer({ g: 0.25, verdicts: { [a]: 'sound' }, predicted: { [a]: 0.8 } }),
      answer({ verdicts: { [b]: 'missed' }, predicted: { [b]: 0.6 } }),
      // Asked again on the same day: nothing is predicted.
      answer({ verdicts: { [b]: 'sound' } }),
      answer({ verdicts: { [c]: 'sound' } }),
    ],
    items,
    none,
    DAY,
  );
  expect(told.predicted.of).toBe(2);
  // 0.25 + 0.75 × 0.8 = 0.85, and 0.6.
  expect(told.predicted.predicted).toBeCloseTo((0.85 + 0.6) / 2, 12);
  expect(told.predicted.share).toBe(0.5);
});

test('the median time of each way to ask; who does not know takes no time to answer', () => {
  const { times } = debrief(
    [
      answer({ ms: 4000 }),
      answer({ ms: 9000 }),
      answer({ ms: 5000 }),
      answer({ ms: 100, sure: null }),
      answer({ form: 'run', ms: 20_000 }),
      answer({ form: 'run', ms: 30_000, sure: false }),
      answer({ form: 'run', ms: 1, voided: 'mis-tap' }),
    ],
    items,
    none,
    DAY,
  );
  expect(times).toEqual([
    { form: 'limit', seconds: 5, of: 3 },
    { form: 'run', seconds: 25, of: 2 },
  ]);
});

test('the weakest are those least likely to be there on the day that counts', () => {
  const memory = memoryOf([
    [ITEMS[0] as Item, known(50, 0)],
    [ITEMS[1] as Item, known(2, 0)],
    [ITEMS[2] as Item, known(9, 0)],
  ]);
  const told = debrief([], items, memory, DAY, DAY + 7);
  expect(keys(told.weakest)).toEqual([b, c, a]);
  expect(told.weakest[0]?.chance).toBeCloseTo(chanceAfter(2, 7), 12);
  expect(debrief([], items, memory, DAY, null).weakest[0]?.chance).toBeCloseTo(chanceAfter(2, 30), 12);
});

test('what comes next agrees with the order of the day then', () => {
  const memory = memoryOf([
    [ITEMS[0] as Item, known(4.5, 0)],
    [ITEMS[1] as Item, known(60, 0, { verdict: 'missed' })],
    [ITEMS[2] as Item, known(3, 40)],
    [ITEMS[3] as Item, known(4.5, 0)],
    [ITEMS[4] as Item, known(60, 0)],
  ]);
  const { next } = debrief([], items, memory, DAY);
  expect(next.reduce((sum, one) => sum + one.items, 0)).toBe(5);
  let before = 0;
  for (const { day, items: count } of next) {
    // Nothing is answered meanwhile: what was due stays due.
    expect(dayOrder(ITEMS, memory, day, null).due).toHaveLength(before + count);
    if (day - 1 > DAY) expect(dayOrder(ITEMS, memory, day - 1, null).due).toHaveLength(before);
    before += count;
  }
  // The missed and the overdue one.
  expect(next[0]).toEqual({ day: DAY + 1, items: 2 });
  expect(next.find(({ day }) => day === DAY + 5)?.items).toBe(1);
});

test('days with an answer are counted over four weeks, today among them', () => {
  const days = new Set([DAY, DAY - 27, DAY - 28, DAY - 100]);
  expect(debrief([], items, { ...none, days }, DAY).daysPractised).toBe(2);
});

test('an item that no deck holds any more is named by its key', () => {
  const gone = 'calder/gone#x.value.standard~0';
  expect(debrief([answer({ verdicts: { [gone]: 'missed' } })], items, none, DAY).sureButWrong[0]?.label).toBe(gone);
});
