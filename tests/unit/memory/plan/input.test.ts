import { expect, test } from 'vitest';
import { itemSeconds, planRows } from '../../../../src/memory/plan/input.ts';
import { solvePlan } from '../../../../src/memory/plan/solve.ts';
import { DAY, itemAt, known, memoryOf } from '../memories.ts';

test('an item takes its share of the quickest question about it', () => {
  const offers = [
    { proves: ['a', 'b', 'c', 'd'], seconds: 20 },
    { proves: ['a'], seconds: 8 },
    { proves: ['b'], seconds: 4 },
  ];
  expect([...itemSeconds(offers)]).toEqual([
    ['a', 5],
    ['b', 4],
    ['c', 5],
    ['d', 5],
  ]);
});

test('rows of a plan: what is asked, with its memory; what nothing asks has none', () => {
  const items = [itemAt(0, { critical: true }), itemAt(1), itemAt(2, { facet: 'cue' }), itemAt(3), itemAt(4)];
  const [a, b, c, d] = items.map(({ key }) => key) as [string, string, string, string];
  const memory = memoryOf([
    [itemAt(0), known(7, 3)],
    [itemAt(3), known(2, -1)],
  ]);
  const seconds = new Map([a, b, c, d].map((key) => [key, 9]));
  const rows = planRows(items, memory, seconds, DAY);
  expect(rows.keys).toEqual([a, b, c, d]);
  expect({ ...rows.items, s: Array.from(rows.items.s) }).toEqual({
    s: [7, 0, 0, 2],
    d: Float64Array.of(5, 0, 0, 5),
    gap: Int32Array.of(3, -1, -1, 0),
    critical: Uint8Array.of(1, 0, 0, 0),
    // In a drill half as much again goes by.
    seconds: Float64Array.of(13.5, 13.5, 13.5, 13.5),
  });
  const own = planRows(items, memory, seconds, DAY, ({ rank }) => DAY + 9 - rank);
  expect(own.items).toEqual({ ...rows.items, checkDay: Int32Array.of(DAY + 9, DAY + 8, DAY + 7, DAY + 6) });
  const plan = solvePlan({ items: structuredClone(rows.items), day: DAY, checkDay: DAY + 5, minutes: 3 });
  expect(plan?.itemRecall).toHaveLength(4);
});
