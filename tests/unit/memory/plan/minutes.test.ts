import { describe, expect, test } from 'vitest';
import { minutesFor, whatIf } from '../../../../src/memory/plan/minutes.ts';
import { inputOf, planOf, times } from './problems.ts';

const rows = times(40, {});
const input = inputOf(rows, { checkDay: 106, minutes: 5 });

describe('minutes that would reach a target', () => {
  test('reach it, and one less does not', () => {
    const minutes = minutesFor(input, 0.9) ?? Number.NaN;
    const at = (m: number) => planOf(rows, { checkDay: 106, minutes: m }).recall ?? Number.NaN;
    expect(at(minutes)).toBeGreaterThan(0.9 - 0.003);
    expect(at(minutes - 1)).toBeLessThan(0.9 + 0.003);
  });

  test('are none where all is known, and unknown where four hours are too few, or nothing is planned', () => {
    expect(minutesFor(inputOf(times(5, { s: 900 })), 0.9)).toBe(0);
    expect(minutesFor(inputOf(times(30, {}), { checkDay: 101 }), 0.999)).toBe(null);
    expect(minutesFor(inputOf([]), 0.9)).toBe(null);
    expect(minutesFor(inputOf(rows, { checkDay: 100 }), 0.9)).toBe(null);
    expect(minutesFor(input, 0.9, () => true)).toBe(null);
  });
});

test('what other minutes would bring: more of them save more', () => {
  const list = whatIf(input, [2, 4, 8]) ?? [];
  expect(list.map(({ minutes }) => minutes)).toEqual([2, 4, 8]);
  for (let i = 1; i < list.length; i++) {
    expect(list[i]?.recall).toBeGreaterThan(list[i - 1]?.recall ?? 1);
    expect(list[i]?.givenUp).toBeLessThanOrEqual(list[i - 1]?.givenUp ?? 0);
  }
  expect(list[0]?.givenUp).toBeGreaterThan(0);
  expect(list[2]?.recall).toBeCloseTo(planOf(rows, { checkDay: 106, minutes: 8 }).recall ?? 0, 2);
  expect(whatIf(inputOf([]), [5])).toBe(null);
});
