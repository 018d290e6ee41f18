import { describe, expect, test } from 'vitest';
import { memoryModel } from '../../../../src/memory/fsrs.ts';
import { FARTHEST, solvePlan } from '../../../../src/memory/plan/solve.ts';
import type { PlanInput } from '../../../../src/memory/plan/types.ts';
import { worthOf } from '../../../../src/memory/plan/worth.ts';
import { inputOf, planOf, type Row, times } from './problems.ts';

const sum = (list: ArrayLike<number>) => Array.from(list).reduce((a, b) => a + b, 0);

/** Known for a week, known well, and new. */
const MIXED: readonly Row[] = [
  ...times(20, { s: 3, d: 6, gap: 4 }),
  ...times(20, { s: 40, d: 4, gap: 2 }),
  ...times(20, { s: 0.3, d: 7, gap: 1, critical: true }),
  ...times(40, {}),
];

const mixed = planOf(MIXED);

describe('the plan', () => {
  test('uses the minutes of each day, and no more', () => {
    const { used, budget, prices } = mixed;
    expect(budget).toEqual(times(10, 600));
    for (const [u, seconds] of used.entries()) expect(seconds, `day ${u}`).toBeLessThan(600 * 1.1);
    expect(sum(used)).toBeGreaterThan(6000 * 0.95);
    for (const price of prices) expect(price).toBeGreaterThan(0);
  });

  test('recall grows to the day, from what there is now to what is expected', () => {
    const rows = MIXED;
    const plan = mixed;
    const model = memoryModel();
    const now = rows.map((r) => (r.s === undefined ? 0 : model.chance(r.s, r.gap ?? 0)));
    expect(plan.curve).toHaveLength(11);
    expect(plan.curve[0]).toBeCloseTo(sum(now) / rows.length, 6);
    expect(plan.curve[10]).toBeCloseTo(plan.recall ?? 0, 4);
    expect(plan.recall ?? 0).toBeGreaterThan((plan.idle ?? 1) + 0.3);
    expect(sum(plan.itemRecall) / rows.length).toBeCloseTo(plan.recall ?? 0, 6);
  });

  test('critical items are brought higher than others in the same state', () => {
    const rows = [...times(50, { critical: true }), ...times(50, {})];
    const { itemRecall, critical, recall } = planOf(rows, { minutes: 8 });
    const others = sum(itemRecall.slice(50)) / 50;
    expect(critical ?? 0).toBeGreaterThan(others + 0.02);
    expect(recall).toBeCloseTo(((critical ?? 0) + others) / 2, 6);
  });

  test('what the minutes do not suffice for is told: of new items the last ones', () => {
    const { givenUp, itemRecall, itemAsks } = planOf(times(100, {}), { minutes: 2 });
    expect(givenUp.length).toBeGreaterThan(20);
    expect(givenUp.length).toBeLessThan(95);
    expect(givenUp).toEqual(Array.from({ length: givenUp.length }, (_, i) => 100 - givenUp.length + i));
    for (const i of givenUp.slice(1)) expect([itemRecall[i], itemAsks[i]]).toEqual([0, 0]);
    expect(planOf(times(100, {}), { minutes: 15 }).givenUp).toEqual([]);
  });

  test('with ample minutes a second has no price', () => {
    const { prices, used } = planOf(times(20, { s: 5, gap: 3 }), { minutes: 600 });
    for (const price of prices) expect(price).toBe(0);
    for (const seconds of used) expect(seconds).toBeLessThan(20 * 12 + 1e-6);
  });

  test('days without minutes are closed', () => {
    const minutes = [10, 10, 0, 10, 10, 0, 0, 10, 10, 10];
    const { used, prices } = planOf(MIXED, { minutes });
    for (const [u, m] of minutes.entries()) {
      if (m === 0) expect([used[u], prices[u]]).toEqual([0, Number.POSITIVE_INFINITY]);
      else expect(used[u]).toBeGreaterThan(100);
    }
  });

  test('prices of the day before are taken up, and lead to the same plan', () => {
    expect(planOf(MIXED, { from: mixed }).recall ?? 0).toBeCloseTo(mixed.recall ?? 0, 2);
    const other = planOf(MIXED, { minutes: 5, from: mixed });
    expect(other.recall ?? 0).toBeCloseTo(planOf(MIXED, { minutes: 5 }).recall ?? 0, 2);
  });

  test('can be cloned into another thread and gives the same worth there', () => {
    const plan = mixed;
    const copy = structuredClone(plan);
    const item = { memory: { s: 2, d: 5, day: 97 }, critical: false, seconds: 12 };
    for (const day of [100, 104]) expect(worthOf(copy, item, day)).toBe(worthOf(plan, item, day));
  });

  test('thousands of items are put together, and the figures stay', () => {
    const state = (i: number) => ({ s: 0.5 + (i % 97) * 0.7, d: 1 + (i % 89) / 10, gap: 1 + (i % 23) });
    const few = Array.from({ length: 300 }, (_, i) => state(i * 7));
    const many = Array.from({ length: 6_000 }, (_, i) => state(i * 7));
    const plan = planOf(many, { minutes: 100 });
    expect(plan.itemRecall).toHaveLength(6_000);
    expect(plan.recall ?? 0).toBeCloseTo(planOf(few, { minutes: 5 }).recall ?? 0, 2);
  });

  test('tells how far it is, and stops when it is told', () => {
    const told: number[] = [];
    expect(solvePlan(inputOf(MIXED), (share) => told.push(share))).not.toBe(null);
    expect(told.at(-1)).toBe(1);
    expect(told).toEqual([...told].sort((a, b) => a - b));
    let asked = 0;
    expect(solvePlan(inputOf(MIXED), undefined, () => ++asked > 3)).toBe(null);
    expect(asked).toBe(4);
  });
});

describe('worth', () => {
  const plan = mixed;
  const worth = (s: number, day: number, critical = false, on = 100) =>
    worthOf(plan, { memory: { s, d: 5, day }, critical, seconds: 12 }, on);

  test('what was asked today waits; what fades is worth more than what stays', () => {
    expect(worth(2, 100)).toBe(Number.NEGATIVE_INFINITY);
    expect(worth(300, 99)).toBeLessThan(worth(3, 94));
    expect(worth(3, 94)).toBeGreaterThan(plan.prices[0] ?? Number.NaN);
    expect(worth(3, 99)).toBeLessThan(worth(3, 94));
  });

  test('on the last day everything that fades by tomorrow is worth asking', () => {
    for (const s of [0.2, 2, 20, 100]) expect(worth(s, 99, false, 109)).toBeGreaterThan(0);
  });

  test('is the gain of asking once more, where there is no later day', () => {
    // Worked out by hand: on the eve of the check nothing comes after.
    const model = memoryModel();
    const before = { s: 7, d: 5 };
    const r = model.chance(7, 9);
    const reward = (x: number) => x - 3 * (1 - x) ** 2;
    const then = (v: 'missed' | 'unsure' | 'sound') => reward(model.chance(model.next(before, 9, v).s, 1));
    const asked = (1 - r) * then('missed') + r * (0.15 * then('unsure') + 0.85 * then('sound'));
    expect(worth(7, 100, false, 109) * 12).toBeCloseTo(asked - reward(model.chance(7, 10)), 2);
  });

  test('of an item never met is spread over reading and question', () => {
    const fresh = worthOf(plan, { memory: null, critical: false, seconds: 12 }, 100);
    expect(fresh).toBeGreaterThan(0);
    expect(worthOf(plan, { memory: null, critical: true, seconds: 12 }, 100)).toBeGreaterThan(fresh);
  });

  test('outside its days the plan has none', () => {
    expect(() => worth(2, 90, false, 110)).toThrow(RangeError);
    expect(() => worth(2, 90, false, 99)).toThrow(RangeError);
  });
});

describe('input at the edges', () => {
  test('a check today or in the past is no plan: recall is that of today', () => {
    const rows = [{ s: 10, gap: 10 }, {}];
    for (const checkDay of [100, 90]) {
      const plan = planOf(rows, { checkDay });
      expect(plan.kind).toBe('past');
      expect(plan.recall).toBeCloseTo(0.45, 6);
      expect(plan.prices).toEqual([]);
    }
  });

  test('a check in five years has no prices yet', () => {
    const plan = planOf(MIXED, { checkDay: 100 + 5 * 365 });
    expect(plan.kind).toBe('far');
    expect(plan.recall).toBe(plan.idle);
    expect(planOf(times(5, {}), { checkDay: 100 + FARTHEST + 1 }).kind).toBe('far');
  });

  test('a check tomorrow has one day', () => {
    const plan = planOf(times(30, {}), { checkDay: 101 });
    expect(plan.prices).toHaveLength(1);
    // 600 s, 24 s each: 25 of 30, all of them asked once.
    expect(Math.abs(plan.givenUp.length - 5)).toBeLessThanOrEqual(1);
    expect(Math.abs(sum(plan.itemAsks) - 25)).toBeLessThan(1);
  });

  test('nought minutes: nothing is asked, all that would have to be is given up', () => {
    const plan = planOf(MIXED, { minutes: 0 });
    expect(plan.kind).toBe('planned');
    expect(plan.recall).toBeCloseTo(plan.idle ?? 0, 6);
    expect(plan.used).toEqual(times(10, 0));
    expect(plan.prices).toEqual(times(10, Number.POSITIVE_INFINITY));
    // All but those of 40 days' stability.
    expect(plan.givenUp).toHaveLength(80);
  });

  test('six hundred minutes: as much as can be remembered', () => {
    const plan = planOf(MIXED, { minutes: 600 });
    expect(plan.recall ?? 0).toBeGreaterThan(0.97);
    expect(plan.givenUp).toEqual([]);
  });

  test('no items', () => {
    expect(planOf([])).toMatchObject({ kind: 'empty', recall: null, critical: null, idle: null, givenUp: [] });
  });

  test('everything known for years: next to nothing is gained', () => {
    const plan = planOf(times(50, { s: 3000, d: 3, gap: 5 }), { minutes: 3 });
    expect(plan.recall ?? 0).toBeGreaterThan(0.999);
    expect((plan.recall ?? 0) - (plan.idle ?? 0)).toBeLessThan(0.001);
    expect(plan.givenUp).toEqual([]);
  });

  test('what makes no sense is refused, and told', () => {
    expect(() => planOf([{ seconds: 0 }])).toThrow(/Item 0.*seconds/);
    expect(() => planOf([{ s: -1 }])).toThrow(/Item 0.*stability/);
    expect(() => planOf(MIXED, { minutes: -1 })).toThrow(/Minutes/);
    expect(() => planOf(MIXED, { minutes: [] })).toThrow(/Minutes/);
    expect(() => planOf(MIXED, { checkDay: 101.5 })).toThrow(/study days/);
    expect(() => planOf(MIXED, { weights: [1, 2, 3] })).toThrow(/21 weights/);
    const input = inputOf(MIXED);
    expect(() => solvePlan({ ...input, items: { ...input.items, s: [1] } })).toThrow(/1 values of s/);
  });
});

describe('groups with check days of their own', () => {
  const rows = [...times(30, { s: 2, d: 6, gap: 2 }), ...times(30, {})];
  const ownDays = (days: readonly number[]): Partial<PlanInput> => ({
    minutes: 4,
    items: { ...inputOf(rows).items, checkDay: days },
  });
  const early = rows.map((_, i) => (i % 2 === 0 ? 104 : 110));

  test('one group is the plan as it was', () => {
    const { items } = inputOf(rows);
    expect(planOf(rows, ownDays(times(60, 110)))).toEqual(planOf(rows, { minutes: 4, items }));
  });

  test('share the minutes; what is checked first comes first, and is asked no more after it', () => {
    const plan = planOf(rows, ownDays(early));
    for (const seconds of plan.used) expect(seconds).toBeLessThan(240 * 1.15);
    expect(new Set(plan.classes.map(({ checkDay }) => checkDay))).toEqual(new Set([104, 110]));
    const item = { memory: { s: 2, d: 6, day: 98 }, critical: false, seconds: 12 };
    const at = (day: number, checkDay: number) => worthOf(plan, { ...item, checkDay }, day);
    expect(at(100, 104)).toBeGreaterThan(at(100, 110));
    expect(at(103, 104)).toBeGreaterThan(0);
    expect(at(104, 104)).toBe(Number.NEGATIVE_INFINITY);
    expect(at(104, 110)).toBeGreaterThan(0);
    // By the time of the second check nothing of the first is practised: more is left for the rest.
    expect(plan.itemRecall[1]).toBeGreaterThan(planOf(rows, { minutes: 4 }).itemRecall[1] ?? 1);
    expect(plan.curve.at(-1)).toBeCloseTo(plan.recall ?? 0, 4);
  });

  test('recall is that on the day of each; what was checked before today stays as it is', () => {
    const days = rows.map((_, i) => (i === 0 ? 95 : i === 1 ? 103 : 110));
    const plan = planOf(rows, { ...ownDays(days), minutes: 0 });
    const { chance } = memoryModel();
    expect(Array.from(plan.itemRecall.slice(0, 3))).toEqual([2, 5, 12].map((gap) => Math.fround(chance(2, gap))));
    expect(plan.givenUp).not.toContain(0);
    expect(planOf(rows, ownDays(times(60, 100))).kind).toBe('past');
    // No day is used after the last of them.
    const short = planOf(rows, ownDays(times(60, 104)));
    expect(short.used.slice(4)).toEqual(times(6, 0));
    expect(short.recall ?? 0).toBeCloseTo(planOf(rows, { minutes: 4, checkDay: 104 }).recall ?? 0, 2);
  });

  test('a check after the last one is refused', () => {
    expect(() => planOf(rows, ownDays(times(60, 111)))).toThrow(/Item 0.*check day/);
    expect(() => planOf(rows, ownDays([110]))).toThrow(/1 values of checkDay/);
  });
});

test('the best gap grows with the time to the check, but as a share of it falls', () => {
  // Cepeda, Vul, Rohrer, Wixted & Pashler 2008 (Psychological Science 19, 1095): first study, a second after a gap, a
  // test later; the best gap as a share of the time to the test fell from about 0.2 at a week to 0.05 at a year.
  const bestGap = (later: number): number => {
    let best = { gap: 0, recall: 0 };
    for (let gap = 1; gap <= 10; gap++) {
      const minutes = Array.from({ length: gap + later }, (_, u) => (u === 0 || u === gap ? 10 : 0));
      const { recall } = planOf([{}], { minutes, checkDay: 100 + gap + later });
      // It rises to the best and falls from there.
      if ((recall ?? 0) < best.recall) break;
      best = { gap, recall: recall ?? 0 };
    }
    return best.gap;
  };
  const times = [4, 12, 28];
  const gaps = times.map(bestGap);
  expect(gaps[0]).toBeLessThan(gaps[1] as number);
  expect(gaps[1]).toBeLessThan(gaps[2] as number);
  const ratios = gaps.map((gap, i) => gap / (times[i] as number));
  expect(ratios[0]).toBeGreaterThan(ratios[1] as number);
  expect(ratios[1]).toBeGreaterThan(ratios[2] as number);
});
