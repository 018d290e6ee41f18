import { solvePlan } from '../../../../src/memory/plan/solve.ts';
import type { Plan, PlanInput } from '../../../../src/memory/plan/types.ts';

export interface Row {
  /** Memory and days since the last answer; absent = never met. */
  readonly s?: number;
  readonly d?: number;
  readonly gap?: number;
  readonly critical?: boolean;
  readonly seconds?: number;
}

/** A plan's input, ten days of ten minutes from day 100 where nothing else is said. */
export const inputOf = (rows: readonly Row[], more: Partial<PlanInput> = {}): PlanInput => ({
  items: {
    s: rows.map(({ s }) => s ?? 0),
    d: rows.map(({ s, d }) => (s === undefined ? 0 : (d ?? 5))),
    gap: rows.map(({ s, gap }) => (s === undefined ? -1 : (gap ?? 1))),
    critical: rows.map(({ critical }) => (critical ? 1 : 0)),
    seconds: rows.map(({ seconds }) => seconds ?? 12),
  },
  day: 100,
  checkDay: 110,
  minutes: 10,
  ...more,
});

export const planOf = (rows: readonly Row[], more: Partial<PlanInput> = {}): Plan => {
  const plan = solvePlan(inputOf(rows, more));
  if (plan === null) throw new Error('The plan was stopped.');
  return plan;
};

export const times = <T>(n: number, one: T): T[] => Array.from({ length: n }, () => one);
