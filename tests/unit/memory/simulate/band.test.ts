import { describe, expect, test } from 'vitest';
import { memoryModel } from '../../../../src/memory/fsrs.ts';
import { bandsOf } from '../../../../src/memory/simulate/band.ts';
import { SAME, VARIED } from '../../../../src/memory/simulate/learner.ts';
import { inputOf, planOf, type Row, times } from '../plan/problems.ts';

const options = { variety: VARIED, learners: 40, seed: 1 };

describe('bands', () => {
  const rows: Row[] = [
    ...times(30, { s: 6, gap: 3 }),
    ...times(30, {}),
    ...times(20, { s: 2, gap: 1, critical: true }),
  ];
  const input = inputOf(rows, { minutes: 6 });
  const plan = planOf(rows, { minutes: 6 });

  test('lie around what is expected, wider where memories differ', () => {
    const varied = bandsOf(input, plan, options)?.all;
    const same = bandsOf(input, plan, { ...options, variety: SAME })?.all;
    if (varied === undefined || same === undefined) throw new Error('no band');
    for (const { low, mean, high } of [varied, same]) {
      expect(low).toBeLessThan(mean);
      expect(mean).toBeLessThan(high);
    }
    expect(Math.abs(same.mean - (plan.recall ?? 0))).toBeLessThan(0.02);
    expect(varied.high - varied.low).toBeGreaterThan(same.high - same.low);
  });

  test('also where most was missed time after time', () => {
    const missed = [
      ...times(40, { s: 0.001, d: 9.8, gap: 2 }),
      ...times(40, { s: 12, d: 2, gap: 2 }),
      ...times(40, {}),
    ];
    const days = { minutes: 6, checkDay: 106 };
    const same = bandsOf(inputOf(missed, days), planOf(missed, days), { ...options, variety: SAME })?.all;
    expect(Math.abs((same?.mean ?? 0) - (planOf(missed, days).recall ?? 0))).toBeLessThan(0.02);
  });

  test('if nothing more is practised: the forgetting curve, and the luck of so many items', () => {
    const known = times(50, { s: 10, gap: 0 });
    const bands = bandsOf(inputOf(known), null, { ...options, variety: SAME, learners: 400 });
    // 0.9 at ten days of stability; a binomial of 50.
    expect(memoryModel().chance(10, 10)).toBeCloseTo(0.9, 6);
    const sd = Math.sqrt((0.9 * 0.1) / 50);
    expect(Math.abs((bands?.all.mean ?? 0) - 0.9)).toBeLessThan(0.01);
    // A tenth of a normal lies below −1.2816 standard deviations.
    expect((bands?.all.high ?? 0) - (bands?.all.low ?? 0)).toBeGreaterThan(1.6 * 1.2816 * sd);
    expect((bands?.all.high ?? 0) - (bands?.all.low ?? 0)).toBeLessThan(2.4 * 1.2816 * sd);
  });

  test('of critical items and of groups', () => {
    const groupOf = rows.map((_, i) => (i < 30 ? 0 : i < 60 ? 1 : -1));
    const bands = bandsOf(input, plan, { ...options, learners: 10, groupOf, groups: 3 });
    expect(bands?.critical?.mean).toBeGreaterThan(bands?.groups[1]?.mean ?? 1);
    expect(bands?.groups[2]).toBe(null);
    const { all, critical, groups } = bands ?? {};
    const whole = 30 * (groups?.[0]?.mean ?? 0) + 30 * (groups?.[1]?.mean ?? 0) + 20 * (critical?.mean ?? 0);
    expect(whole / 80).toBeCloseTo(all?.mean ?? 0, 9);
    expect(bandsOf(inputOf(times(3, {})), null, options)).toMatchObject({ all: { low: 0, high: 0 }, critical: null });
    expect(bandsOf(inputOf([]), null, options)).toBe(null);
  });

  test('of each item on its own check day', () => {
    const known = times(40, { s: 10, gap: 0 });
    const { items, ...rest } = inputOf(known);
    const checkDay = known.map((_, i) => (i < 20 ? 101 : 110));
    const groupOf = checkDay.map((day) => (day === 101 ? 0 : 1));
    const alike = { ...options, variety: SAME, learners: 200, groupOf, groups: 2 };
    const bands = bandsOf({ ...rest, items: { ...items, checkDay } }, null, alike);
    const { chance } = memoryModel();
    for (const [g, days] of [1, 10].entries())
      expect(Math.abs((bands?.groups[g]?.mean ?? 0) - chance(10, days))).toBeLessThan(0.01 * days);
  });
});
