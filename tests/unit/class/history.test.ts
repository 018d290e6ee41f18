import { expect, test } from 'vitest';
import { historyOf } from '../../../src/class/history.ts';
import { pack } from '../../../src/class/packed.ts';
import { deckOf, item, received, reportOf, unmet } from '../../helpers/plain-report.ts';

test('recall over the reports, the oldest first; never asked counts as not known', () => {
  const first = reportOf({
    made: '2026-11-20',
    checkDate: null,
    decks: [deckOf([item('a', { now: 0.5 }), unmet('b')])],
  });
  const second = reportOf({
    n: 2,
    decks: [deckOf([item('a', { now: 0.9, day: 0.6 }), item('b', { now: 0.7, day: 0.4 })]), deckOf([], { id: 'x/y' })],
  });
  const past = historyOf(
    [second, first].map((one) => pack(received(one), 0)),
    new Set(),
  );
  expect(past.map(({ n, now, onCheck, items }) => [n, now, onCheck, items])).toEqual([
    [1, 0.25, null, 2],
    [2, 0.8, 0.5, 2],
  ]);
});

test('only of the decks that are expected', () => {
  const report = reportOf({
    decks: [deckOf([item('a', { now: 1 })]), deckOf([item('b', { now: 0 })], { id: 'else/where' })],
  });
  expect(historyOf([pack(received(report), 0)], new Set(['calder/try']))[0]).toMatchObject({ items: 1, now: 1 });
});
