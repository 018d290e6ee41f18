import { expect, test } from 'vitest';
import { effective } from '../../../src/log/effective.ts';
import type { AnyEntry } from '../../../src/model/ports.ts';

const entry = (id: string, at: number, more: object = { k: 'set', key: 'x', value: 1 }): AnyEntry =>
  ({ v: 1, app: 't', id, at, off: 0, ...more }) as AnyEntry;
const clock = (id: string, at: number, from: number, to: number, shift: number | null) =>
  entry(id, at, { k: 'clock', writer: 'w', from, to, shift });
const told = (...entries: AnyEntry[]) =>
  [...effective(entries)].map(({ entry: { id }, order, timeless }) => [id, order[0], timeless]);

test('without a known time an entry stands right after the one before', () => {
  expect(told(entry('w.1', 100), entry('w.2', 9000), entry('w.3', 9001), clock('w.4', 200, 2, 3, null))).toEqual([
    ['w.1', 100, false],
    ['w.2', 100, true],
    ['w.3', 100, true],
    ['w.4', 200, false],
  ]);
});

test('the first ones, with none before, go with the first whose time is known; with none at all as their device said', () => {
  const early = [entry('w.1', 5), entry('w.2', 6), clock('w.3', 7, 1, 3, null)];
  expect(told(...early)).toEqual([
    ['w.1', 5, true],
    ['w.2', 6, true],
    ['w.3', 7, true],
  ]);
  expect(told(...early, entry('w.4', 9000))).toEqual([
    ['w.1', 9000, true],
    ['w.2', 9000, true],
    ['w.3', 9000, true],
    ['w.4', 9000, false],
  ]);
});

test('of several clocks the one written last counts, though it is dated before and comes before', () => {
  const log = [entry('w.1', 100), entry('w.2', 9000), clock('w.3', 9001, 2, 2, null), clock('w.4', 50, 2, 3, -8000)];
  const right = [
    ['w.4', 50, false],
    ['w.1', 100, false],
    ['w.2', 1000, false],
    ['w.3', 1001, false],
  ];
  expect(told(...log)).toEqual(right);
  expect(told(...log.toReversed())).toEqual(right);
  // Numbers, not texts, are compared.
  expect(told(entry('w.1', 100), clock('w.10', 3, 1, 1, 7), clock('w.9', 4, 1, 1, null))).toContainEqual([
    'w.1',
    107,
    false,
  ]);
});

test('a clock speaks of its own range and writer alone', () => {
  expect(told(entry('a.2', 1), entry('w.1', 2), entry('w.2', 3), entry('w.3', 4), clock('w.4', 5, 2, 2, 100))).toEqual([
    ['a.2', 1, false],
    ['w.1', 2, false],
    ['w.3', 4, false],
    ['w.4', 5, false],
    ['w.2', 103, false],
  ]);
});
