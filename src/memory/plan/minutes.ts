import { solvePlan } from './solve.ts';
import type { Plan, PlanInput } from './types.ts';

/** More minutes a day than this are no advice. */
const MOST = 240;

export interface WhatIf {
  readonly minutes: number;
  /** Expected mean recall on the check day. */
  readonly recall: number;
  readonly critical: number | null;
  /** Items that would be given up. */
  readonly givenUp: number;
}

/**
 * What other minutes a day would bring.
 * @param minutes minutes a day, the same on each day
 * @returns one for each; null where nothing is planned (see PlanKind), or it was stopped
 * @throws RangeError where the input makes no sense
 */
export const whatIf = (input: PlanInput, minutes: readonly number[], stopped?: () => boolean): WhatIf[] | null => {
  let from = input.from;
  const out: WhatIf[] = [];
  for (const m of minutes) {
    const plan = planFor(input, m, from, stopped);
    if (plan?.kind !== 'planned') return null;
    from = plan;
    out.push({ minutes: m, recall: plan.recall ?? 0, critical: plan.critical, givenUp: plan.givenUp.length });
  }
  return out;
};

const planFor = (
  { from: _, ...input }: PlanInput,
  minutes: number,
  from: PlanInput['from'],
  stopped?: () => boolean,
): Plan | null => solvePlan({ ...input, minutes, ...(from !== undefined && { from }) }, undefined, stopped);

/**
 * The least whole minutes a day, the same on each day, that reach a target.
 * @param target expected mean recall on the check day, 0..1
 * @returns null where even four hours do not reach it, where nothing is planned, or it was stopped
 * @throws RangeError where the input makes no sense
 */
export const minutesFor = (input: PlanInput, target: number, stopped?: () => boolean): number | null => {
  let from = input.from;
  const reaches = (minutes: number): boolean | null => {
    const plan = planFor(input, minutes, from, stopped);
    if (plan?.kind !== 'planned') return null;
    if (plan.prices.some((price) => Number.isFinite(price) && price > 0)) from = plan;
    return (plan.recall ?? 0) >= target;
  };
  const usual = typeof input.minutes === 'number' ? input.minutes : (input.minutes[0] ?? 0);
  // From the minutes there are, outwards until the target lies between; then halving.
  let low = 0;
  let high = Math.min(MOST, Math.max(1, Math.round(usual)));
  for (;;) {
    const there = reaches(high);
    if (there === null) return null;
    if (there) break;
    if (high === MOST) return null;
    low = high;
    high = Math.min(MOST, high * 2);
  }
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    // Nought minutes are worth a look of their own: everything may be known.
    const there = reaches(middle);
    if (there === null) return null;
    if (there) high = middle;
    else low = middle;
  }
  if (high === 1 && reaches(0) === true) return 0;
  return high;
};
