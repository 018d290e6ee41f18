import { describe, expect, test } from 'vitest';
import { seeded } from '../../../../src/lib/random.ts';
import { boundOf } from '../../../../src/memory/plan/bound.ts';
import { solvePlan } from '../../../../src/memory/plan/solve.ts';
import type { PlanInput } from '../../../../src/memory/plan/types.ts';
import { worthOf } from '../../../../src/memory/plan/worth.ts';
import { best, costOf, follow, type Now, type Tiny } from './brute-force.ts';
import { inputOf, times } from './problems.ts';

/** Two items, four days; memories, costs and minutes as the seed has it, some never met. */
const tinyOf = (seed: number, reward: (recall: number) => number): Tiny => {
  const random = seeded(seed);
  const one = () =>
    random() < 0.3
      ? null
      : ([{ s: Math.exp(random() * 4.5 - 1.5), d: 1 + 9 * random() }, 1 + Math.floor(random() * 9)] as const);
  const seconds = [8 + Math.floor(random() * 20), 8 + Math.floor(random() * 20)];
  return {
    days: 4,
    budget: 10 + Math.floor(random() * 50),
    seconds,
    items: [one(), one()],
    reading: 5,
    right: { unsure: 0.2, sound: 0.8 },
    first: { missed: 0.25, unsure: 0.25, sound: 0.5 },
    reward,
  };
};

const inputFor = (tiny: Tiny): PlanInput => ({
  items: {
    s: tiny.items.map((one) => one?.[0].s ?? 0),
    d: tiny.items.map((one) => one?.[0].d ?? 0),
    gap: tiny.items.map((one) => one?.[1] ?? -1),
    critical: [0, 0],
    seconds: tiny.seconds,
    ...(tiny.ends && { checkDay: tiny.ends }),
  },
  day: 0,
  checkDay: tiny.days,
  minutes: tiny.budget / 60,
  reading: tiny.reading,
  shares: { right: tiny.right, first: tiny.first },
});

const SEEDS = Array.from({ length: 10 }, (_, seed) => seed);
const evenHanded = (r: number) => r - 3 * (1 - r) ** 2;

describe('against every policy there is, tried out with an independent memory model', () => {
  test('none expects more than the bound', () => {
    let apart = 0;
    for (const seed of SEEDS) {
      const tiny = tinyOf(seed, (r) => r);
      const most = best(tiny) / 2;
      const bound = boundOf(inputFor(tiny)) ?? Number.NaN;
      expect(bound, `seed ${seed}`).toBeGreaterThanOrEqual(most);
      apart += (bound - most) / SEEDS.length;
    }
    // Two items cannot share a minute as two hundred can: the bound lies higher, but not just anywhere.
    expect(apart).toBeLessThan(0.15);
  });

  test('where the minutes suffice for all the bound is what the best policy reaches', () => {
    for (const seed of SEEDS.slice(0, 4)) {
      const tiny = { ...tinyOf(seed, (r) => r), budget: 200 };
      const most = best(tiny) / 2;
      const bound = boundOf(inputFor(tiny)) ?? Number.NaN;
      expect(bound, `seed ${seed}`).toBeGreaterThanOrEqual(most);
      expect(bound - most, `seed ${seed}`).toBeLessThan(0.008);
    }
  });

  test('the plan comes close to the best of them, and far from doing nothing', () => {
    let lost = 0;
    let could = 0;
    for (const seed of SEEDS.slice(0, 6)) {
      const tiny = tinyOf(seed, evenHanded);
      const most = best(tiny);
      const got = follow(tiny, byPlan(tiny));
      expect(got, `seed ${seed}`).toBeLessThanOrEqual(most + 1e-9);
      lost += most - got;
      could += most - follow(tiny, () => []);
    }
    expect(could).toBeGreaterThan(2);
    expect(lost / could).toBeLessThan(0.02);
  });

  test('the same where each of the two has a check day of its own', () => {
    let lost = 0;
    let could = 0;
    for (const seed of SEEDS.slice(0, 6)) {
      const ends = [4, 1 + (seed % 3)];
      const plain = { ...tinyOf(seed, (r) => r), ends };
      expect(boundOf(inputFor(plain)), `seed ${seed}`).toBeGreaterThanOrEqual(best(plain) / 2);
      const tiny = { ...tinyOf(seed, evenHanded), ends };
      const most = best(tiny);
      const got = follow(tiny, byPlan(tiny));
      expect(got, `seed ${seed}`).toBeLessThanOrEqual(most + 1e-9);
      lost += most - got;
      could += most - follow(tiny, () => []);
    }
    expect(could).toBeGreaterThan(2);
    expect(lost / could).toBeLessThan(0.02);
  });
});

/** What the plan asks: whatever is worth most a second, if it is worth anything. */
const byPlan = (tiny: Tiny) => {
  const plan = solvePlan(inputFor(tiny));
  if (plan === null) throw new Error('stopped');
  return (all: readonly Now[], day: number): number[] => {
    const worth = all.map((now, i) => {
      if (costOf(tiny, now, i) > tiny.budget) return -1;
      const memory = now && { ...now[0], day: now[1] };
      const checkDay = tiny.ends?.[i] ?? tiny.days;
      return worthOf(plan, { memory, critical: false, seconds: tiny.seconds[i] as number, checkDay }, day);
    });
    return [0, 1].filter((i) => (worth[i] as number) > 0).sort((a, b) => (worth[b] as number) - (worth[a] as number));
  };
};

test('more minutes or more days raise the bound; none, or nothing to plan, is told apart', () => {
  const rows = times(60, {});
  const bounds = [1, 3, 10].map((minutes) => boundOf(inputOf(rows, { minutes })) ?? 0);
  for (let i = 1; i < bounds.length; i++) expect(bounds[i] as number).toBeGreaterThan(bounds[i - 1] as number);
  expect(boundOf(inputOf(rows, { minutes: 0 }))).toBe(0);
  expect(boundOf(inputOf(rows, { checkDay: 100 }))).toBe(null);
  expect(boundOf(inputOf([]))).toBe(null);
});
