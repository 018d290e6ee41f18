import { describe, expect, test } from 'vitest';
import { dayOrder, horizonOf, TARGET, TARGET_CRITICAL, whyDue } from '../../../src/memory/day-order.ts';
import { chanceAfter, DEFAULT_MODEL, nextState, recallChance } from '../../../src/memory/fsrs.ts';
import type { Item } from '../../../src/model/item.ts';
import { DAY, itemAt, known, memoryOf } from './memories.ts';

const ranks = (items: readonly Item[]) => items.map(({ rank }) => rank);

describe('what is due', () => {
  test('is below its target: 0.9, and 0.97 where it must never be wrong', () => {
    // Stability is the time after which recall is 0.9: ten days after ten days it is at the target, a day later below.
    const at = known(10, 10);
    const below = known(10, 11);
    expect(recallChance(at, DAY, DEFAULT_MODEL)).toBeCloseTo(TARGET, 9);
    expect(whyDue({ critical: false }, at, DAY, DEFAULT_MODEL)).toBe(null);
    expect(whyDue({ critical: false }, below, DAY, DEFAULT_MODEL)).toBe('faded');
    const early = known(10, 4);
    expect(recallChance(early, DAY, DEFAULT_MODEL)).toBeLessThan(TARGET_CRITICAL);
    expect(whyDue({ critical: false }, early, DAY, DEFAULT_MODEL)).toBe(null);
    expect(whyDue({ critical: true }, early, DAY, DEFAULT_MODEL)).toBe('faded');
  });

  test('what was missed is due whatever its chance, also later on the same day', () => {
    expect(whyDue({ critical: false }, known(50, 1, { verdict: 'missed' }), DAY, DEFAULT_MODEL)).toBe('missed');
    expect(whyDue({ critical: false }, known(50, 0, { verdict: 'missed' }), DAY, DEFAULT_MODEL)).toBe('missed');
    expect(whyDue({ critical: false }, known(0.2, 0), DAY, DEFAULT_MODEL)).toBe(null);
  });

  test('sure and wrong stays due until it was right on that day', () => {
    const alert = { alert: 1, verdict: 'sound' } as const;
    expect(whyDue({ critical: true }, known(500, 1, alert), DAY, DEFAULT_MODEL)).toBe('alert');
    expect(whyDue({ critical: true }, known(500, 0, alert), DAY, DEFAULT_MODEL)).toBe(null);
    expect(whyDue({ critical: true }, known(500, 0, { ...alert, lastRightDay: DAY - 3 }), DAY, DEFAULT_MODEL)).toBe(
      'alert',
    );
  });

  test('comes in the order sure and wrong, missed, then the least certain', () => {
    const items = [0, 1, 2, 3, 4].map((rank) => itemAt(rank));
    const [a, b, c, d, e] = items as [Item, Item, Item, Item, Item];
    const memory = memoryOf([
      [a, known(5, 8)],
      [b, known(5, 30)],
      [c, known(5, 2, { verdict: 'missed' })],
      [d, known(90, 1, { alert: 0 })],
      [e, known(50, 2)],
    ]);
    const order = dayOrder(items, memory, DAY, null);
    expect(ranks(order.due)).toEqual([3, 2, 1, 0]);
    expect(ranks(order.rest)).toEqual([4]);
  });
});

test('new items come in authored order, deck after deck, whatever of a step they are', () => {
  const items = [
    itemAt(2),
    itemAt(0, { deck: 'calder/second' }),
    itemAt(1),
    itemAt(3, { facet: 'cue' }),
    itemAt(4, { facet: 'words' }),
  ];
  const { fresh, due, rest } = dayOrder(items, memoryOf([]), DAY, null);
  expect(fresh.map(({ deck, rank }) => [deck, rank])).toEqual([
    ['calder/second', 0],
    ['calder/small', 1],
    ['calder/small', 2],
    ['calder/small', 3],
    ['calder/small', 4],
  ]);
  expect([due, rest]).toEqual([[], []]);
});

describe('gain', () => {
  test('counts on the day of the check; in 30 days without one, and after it', () => {
    expect(horizonOf(DAY, DAY + 12)).toBe(DAY + 12);
    expect(horizonOf(DAY, null)).toBe(DAY + 30);
    expect(horizonOf(DAY, DAY)).toBe(DAY + 30);
    expect(horizonOf(DAY, DAY - 1)).toBe(DAY + 30);
  });

  test('is expected recall if asked now, less recall if left alone', () => {
    // Worked out here by hand from the two outcomes of asking.
    const item = itemAt(0);
    const memory = known(20, 10);
    const { gain } = dayOrder([item], memoryOf([[item, memory]]), DAY, DAY + 12);
    const r = chanceAfter(20, 10);
    const right = chanceAfter(nextState(memory, 10, 'sound').s, 12);
    const wrong = chanceAfter(nextState(memory, 10, 'missed').s, 12);
    expect(gain.get(item.key)).toBeCloseTo(r * right + (1 - r) * wrong - chanceAfter(20, 22), 12);
  });

  test('weighs more where it must never be wrong, and puts the rest in order', () => {
    const items = [itemAt(0), itemAt(1, { critical: true }), itemAt(2)];
    const [a, b, c] = items as [Item, Item, Item];
    const order = dayOrder(
      items,
      memoryOf([
        [a, known(40, 1)],
        [b, known(40, 1)],
        [c, known(12, 5)],
      ]),
      DAY,
      DAY + 20,
    );
    expect(order.gain.get(b.key)).toBeCloseTo(3 * (order.gain.get(a.key) ?? 0), 12);
    const inOrder = order.rest.map(({ key }) => order.gain.get(key) ?? 0);
    expect(order.rest).toHaveLength(3);
    expect(inOrder).toEqual([...inOrder].sort((x, y) => y - x));
  });
});
