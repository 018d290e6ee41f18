import { describe, expect, test } from 'vitest';
import { FORECAST_ANSWERS, forecast } from '../../../src/memory/forecast.ts';
import { chanceAfter } from '../../../src/memory/fsrs.ts';
import { DAY, itemAt, known, memoryOf } from './memories.ts';

const ENOUGH = { answers: 30, days: new Set([DAY - 1, DAY]) };

describe('no forecast before there is something to make it of', () => {
  const item = itemAt(0);
  const list = [[item, known(10, 0)]] as const;
  test.each([
    ['29 answers', { ...ENOUGH, answers: FORECAST_ANSWERS - 1 }],
    ['one day', { ...ENOUGH, days: new Set([DAY]) }],
  ])('%s', (_, more) => {
    expect(forecast([item], memoryOf(list, more), DAY + 5)).toBe(null);
  });
  test('nothing of these decks was met', () => {
    expect(forecast([itemAt(1)], memoryOf(list, ENOUGH), DAY + 5)).toBe(null);
  });
  test('30 answers on two days', () => {
    expect(forecast([item], memoryOf(list, ENOUGH), DAY + 5)).not.toBe(null);
  });
});

test('is the mean recall chance on the day if practice stops now, for all and for what is critical', () => {
  const items = [itemAt(0), itemAt(1, { critical: true }), itemAt(2)];
  const [a, b] = items as [(typeof items)[0], (typeof items)[0]];
  const memory = memoryOf(
    [
      [a, known(10, 2)],
      [b, known(30, 4)],
    ],
    ENOUGH,
  );
  const told = forecast(items, memory, DAY + 6, DAY);
  expect(told?.all).toBeCloseTo((chanceAfter(10, 8) + chanceAfter(30, 10)) / 2, 12);
  expect(told?.critical).toBeCloseTo(chanceAfter(30, 10), 12);
  // In its group what was never met counts as not known.
  expect(told?.groups).toHaveLength(1);
  expect(told?.groups[0]?.share).toBeCloseTo((chanceAfter(10, 8) + chanceAfter(30, 10)) / 3, 12);
  expect(told?.groups[0]?.now).toBeCloseTo((chanceAfter(10, 2) + chanceAfter(30, 4)) / 3, 12);
  expect(told?.groups[0]?.weakest).toEqual({ key: a.key, label: 'Thing 0', chance: chanceAfter(10, 8) });
});

test('a procedure is a group, limits and scenarios of a deck are one each; null where nothing was met', () => {
  const place = { facet: 'place', groupKind: 'procedure' } as const;
  const items = [
    itemAt(0, { ...place, group: 'line-up' }),
    itemAt(1, { ...place, group: 'rotation' }),
    itemAt(2),
    itemAt(3, { facet: 'rule', groupKind: 'scenario' }),
  ];
  const memory = memoryOf([[items[1] as (typeof items)[0], known(10, 1)]], ENOUGH);
  const groups = forecast(items, memory, DAY + 1)?.groups.map(({ kind, group, share }) => [
    kind,
    kind === 'procedure' ? group : '',
    share === null ? null : 'met',
  ]);
  expect(groups).toEqual([
    ['procedure', 'line-up', null],
    ['procedure', 'rotation', 'met'],
    ['limit', '', null],
    ['scenario', '', null],
  ]);
});

test("a step's chance is that of its weakest facet; what was never met of it does not count", () => {
  const place = { thing: 'step', facet: 'place', groupKind: 'procedure', group: 'flow' } as const;
  const strong = itemAt(0, { ...place, key: 'calder/small#step.place~a' });
  const weak = itemAt(1, { ...place, key: 'calder/small#step.place~b' });
  const cue = itemAt(2, { ...place, key: 'calder/small#step.cue~c', facet: 'cue' });
  const memory = memoryOf(
    [
      [strong, known(80, 1)],
      [weak, known(3, 6)],
      [cue, known(0.2, 20)],
    ],
    ENOUGH,
  );
  expect(forecast([strong, weak], memory, DAY)?.all).toBeCloseTo(chanceAfter(3, 6), 12);
  expect(forecast([strong, weak, cue], memory, DAY)?.all).toBeCloseTo(chanceAfter(0.2, 20), 12);
  const words = itemAt(3, { ...place, key: 'calder/small#step.words~d', facet: 'words' });
  expect(forecast([strong, weak, words], memory, DAY)?.all).toBeCloseTo(chanceAfter(3, 6), 12);
  expect(forecast([weak, strong], memory, DAY)?.groups[0]?.weakest?.key).toBe(weak.key);
});
