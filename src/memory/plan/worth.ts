import { type MemoryModel, memoryModel } from '../fsrs.ts';
import { type Grid, locate, makeGrid } from './grid.ts';
import { bendOf, rewardOf, weightOf } from './reward.ts';
import { emptyAnswers, expected, putAnswer, putFirst, type Transitions, transitionsOf } from './transitions.ts';
import type { Plan, PlanClass, Shares } from './types.ts';

/** What of a plan its worths are made from. */
type Tables = Pick<Plan, 'kind' | 'day' | 'checkDay' | 'weights' | 'shares' | 'prices' | 'classes' | 'values'>;

/** Days since the last answer for which gains are tabled; between, interpolated in their logarithm. */
const GAPS = [1, 2, 3, 4, 5, 6, 8, 10, 13, 17, 22, 29, 38, 50, 65, 85, 110, 150, 200, 300, 450, 700, 1000] as const;
const LOG_GAPS = GAPS.map(Math.log);

interface AllGaps {
  readonly model: MemoryModel;
  readonly grid: Grid;
  /** Row gap index × nodes + node; the last row is the first answer. */
  readonly asked: Transitions;
}

/** It depends on these alone, and they stay the same objects while a plan is in use. */
const tables = new WeakMap<readonly number[], { readonly shares: Shares; readonly table: AllGaps }>();

const gapTable = ({ weights, shares }: Tables): AllGaps => {
  const before = tables.get(weights);
  if (before?.shares === shares) return before.table;
  const table = makeGapTable(weights, shares);
  tables.set(weights, { shares, table });
  return table;
};

const makeGapTable = (weights: readonly number[], shares: Shares): AllGaps => {
  const model = memoryModel(weights);
  const grid = makeGrid();
  const size = grid.s.length;
  const answers = emptyAnswers(GAPS.length * size + 1);
  for (const [g, gap] of GAPS.entries())
    for (let node = 0; node < size; node++)
      putAnswer(model, answers, g * size + node, { s: grid.s[node] as number, d: grid.d[node] as number }, gap);
  const asked = transitionsOf(answers, grid, shares);
  putFirst(model, grid, shares, asked, GAPS.length * size);
  return { model, grid, asked };
};

/** Index of the tabled gap at or below, and how far on towards the next one, 0..1. */
const place = (gap: number): { readonly g: number; readonly f: number } => {
  let g = 0;
  while (g < GAPS.length - 2 && (GAPS[g + 1] as number) <= gap) g += 1;
  const from = LOG_GAPS[g] as number;
  const f = (Math.log(gap) - from) / ((LOG_GAPS[g + 1] as number) - from);
  return { g, f: Math.min(1, Math.max(0, f)) };
};

/**
 * What asking on a day gains over waiting, at the prices of the days after it, for each class: reward for one unit of
 * weight, gap index × nodes + node. At the end, for an item never met, the value of first asking it on each day.
 */
export const gainsOn = (plan: Tables, day: number): Float32Array[] => {
  const { model, grid, asked } = gapTable(plan);
  const size = grid.s.length;
  const t = day - plan.day;
  const rows = GAPS.length * size + 1;
  return plan.classes.map(({ cost, bend, checkDay }, c) => {
    const days = checkDay - plan.day;
    // After their check nothing is asked.
    if (t >= days) return new Float32Array(0);
    const values = plan.values[c] as Float32Array;
    // Value of asking on day u, by gap and node.
    const askedOn = Array.from({ length: days }, (_, u) => {
      const list = new Float64Array(rows);
      for (let row = 0; u >= t && row < rows; row++) list[row] = expected(asked, row, grid.columns, values, u * size);
      return list;
    });
    const gains = new Float32Array(rows - 1 + days);
    const now = askedOn[t] as Float64Array;
    for (const [g, gap] of GAPS.entries()) {
      const later = Array.from({ length: days }, (_, u) => place(gap + Math.max(0, u - t)));
      for (let node = 0; node < size; node++) {
        let wait = rewardOf(model.chance(grid.s[node] as number, gap + days - t), bend);
        for (let u = t + 1; u < days; u++) {
          const list = askedOn[u] as Float64Array;
          const at = later[u] as { g: number; f: number };
          const low = list[at.g * size + node] as number;
          const high = list[(at.g + 1) * size + node] as number;
          wait = Math.max(wait, low + at.f * (high - low) - cost * (plan.prices[u] as number));
        }
        gains[g * size + node] = (now[g * size + node] as number) - wait;
      }
    }
    for (let u = t; u < days; u++) gains[rows - 1 + u] = (askedOn[u] as Float64Array)[rows - 1] as number;
    return gains;
  });
};

/** Of each plan the gains of other days than its first, as they are asked for. */
const others = new WeakMap<Plan, Map<number, readonly Float32Array[]>>();

const gainsOf = (plan: Plan, day: number): readonly Float32Array[] => {
  if (day === plan.day) return plan.gains;
  const days = others.get(plan) ?? new Map<number, readonly Float32Array[]>();
  others.set(plan, days);
  const gains = days.get(day) ?? gainsOn(plan, day);
  days.set(day, gains);
  return gains;
};

/** What worth depends on, of an item. */
export interface Asked {
  /** Stability, days, and difficulty; null = never met. */
  readonly memory: { readonly s: number; readonly d: number; readonly day: number } | null;
  readonly critical: boolean;
  /** s of asking it. */
  readonly seconds: number;
  /** Study day of its check; default the last one of the plan. */
  readonly checkDay?: number;
}

const parts = new Float64Array(4);
const GRID = makeGrid();

/** Whether a plan has anything to say about a day. */
export const covers = (plan: Plan, day: number): boolean =>
  plan.kind === 'planned' && day >= plan.day && day < plan.checkDay;

/**
 * Worth of asking an item on a day, for each second: (value of asking − value of waiting) / seconds. Below nought:
 * better later, even if there is time. Where it is above the day's price it is one of those that the plan wants asked.
 * −Infinity: not today, or no more.
 * @throws RangeError where the plan does not cover the day
 */
export const worthOf = (plan: Plan, asked: Asked, day: number): number => {
  const { memory, critical, seconds, checkDay = plan.checkDay } = asked;
  if (!covers(plan, day))
    throw new RangeError(`A plan from day ${plan.day} to ${plan.checkDay} says nothing of day ${day}.`);
  const weight = weightOf(critical ? 1 : 0);
  const bend = bendOf(critical ? 1 : 0);
  const c = day < checkDay ? nearest(plan.classes, bend, seconds / weight, checkDay, day) : -1;
  if (c < 0) return Number.NEGATIVE_INFINITY;
  const gains = gainsOf(plan, day)[c] as Float32Array;
  if (memory === null)
    return (weight * gainOfFirst(plan, c, gains, day, (seconds + plan.reading) / weight)) / (seconds + plan.reading);
  const gap = day - memory.day;
  if (gap < 1) return Number.NEGATIVE_INFINITY;
  const { g, f } = place(gap);
  const node = locate(GRID, memory.s, memory.d, 1, parts, 0);
  const size = GRID.s.length;
  let gain = 0;
  for (let i = 0; i < 4; i++) {
    const at = g * size + node + (i & 1) + (i & 2 ? GRID.columns : 0);
    const low = gains[at] as number;
    gain += (parts[i] as number) * (low + f * ((gains[at + size] as number) - low));
  }
  return (weight * gain) / seconds;
};

/** @param cost s of reading and first question for each unit of weight */
const gainOfFirst = (plan: Plan, c: number, gains: Float32Array, day: number, cost: number): number => {
  const { checkDay, bend } = plan.classes[c] as PlanClass;
  const days = checkDay - plan.day;
  const first = gains.subarray(gains.length - days);
  let wait = rewardOf(0, bend);
  for (let u = day - plan.day + 1; u < days; u++)
    wait = Math.max(wait, (first[u] as number) - cost * (plan.prices[u] as number));
  return (first[day - plan.day] as number) - wait;
};

/** The class of the same check day and reward whose cost is nearest; if the plan has no such items, another; −1: none. */
const nearest = (classes: Plan['classes'], bend: number, cost: number, checkDay: number, day: number): number => {
  let best = -1;
  let least = Number.POSITIVE_INFINITY;
  for (const [c, one] of classes.entries()) {
    if (one.checkDay <= day) continue;
    const off =
      Math.abs(Math.log(one.cost / cost)) + (one.bend === bend ? 0 : 1e3) + 1e6 * Math.abs(one.checkDay - checkDay);
    if (off < least) {
      least = off;
      best = c;
    }
  }
  return best;
};
