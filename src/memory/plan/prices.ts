import { minimize } from '../../lib/bfgs.ts';
import type { Solver } from './descent.ts';

export interface Priced {
  /** Reward per second, for each day; Infinity on closed ones. */
  readonly prices: Float64Array;
  /** The last blur: at it use comes closest to the minutes. */
  readonly blur: number;
  /** Times that the item problems were solved. */
  readonly rounds: number;
}

export interface Effort {
  /** Blurs, one after the other: the coarse ones show the way, the last one the prices. */
  readonly blurs: readonly number[];
  /** Steps at each of them, at most. */
  readonly steps: number;
  /** Share of the minutes that use may be off by; three times as much before the last blur. */
  readonly near: number;
}

export interface Scale {
  /** s of a question, about. */
  readonly cost: number;
  /** Sum of weights of all items. */
  readonly weight: number;
}

/** A price below this is none: an hour is worth less than a two-hundredth of an item. */
const NOTHING = 1e-6;
/** Share of the minutes that use may be off by, for known prices to need no detour. */
const GOOD = 0.3;
/** Share by which use must not be off in the end. */
const TOO_FAR = 0.1;
/** Share of the minutes that are left over on a day on which a second has no price. */
const SLACK = 0.03;
/**
 * Blur for each unit of what a question costs at the price of the day: where prices are high a finer choice makes use
 * jump, and nothing better.
 */
const FINEST = 0.002;

/**
 * Prices at which the minutes are just used up: the minimum of the Lagrangian dual, convex in the prices, sought over
 * their logarithms. The maximum over days is softened, or use would jump from day to day, as all items never met are
 * alike.
 * @param budget s for each day; 0 closes it
 * @param from first prices
 * @param isKnown they are from another plan, and may be nearly right
 * @param progress told the share done, 0..1; false stops
 * @returns null where it was stopped
 */
export const findPrices = (
  solver: Solver,
  budget: Float64Array,
  from: Float64Array,
  isKnown: boolean,
  { blurs, steps, near }: Effort,
  { cost, weight }: Scale,
  progress: (share: number) => boolean = () => true,
): Priced | null => {
  const open = [...budget.keys()].filter((day) => (budget[day] as number) > 0);
  const prices = Float64Array.from(budget, (b) => (b > 0 ? 0 : Number.POSITIVE_INFINITY));
  const whole = open.reduce((sum, day) => sum + (budget[day] as number), 0);
  let rounds = 0;
  /** Share of the minutes by which use was off at the last call. */
  let off = Number.POSITIVE_INFINITY;
  /** Where it was least, at this blur. */
  let closest: { readonly off: number; readonly logs: Float64Array } = { off, logs: from };

  const dual = (logs: Float64Array, blur: number, slope: Float64Array): number => {
    for (const [i, day] of open.entries()) prices[day] = Math.exp(Math.max(LOG_NOTHING, logs[i] as number));
    let value = solver.descend(prices, blur);
    const used = solver.flow();
    rounds += 1;
    off = 0;
    for (const [i, day] of open.entries()) {
      const price = prices[day] as number;
      const left = (budget[day] as number) - (used[day] as number);
      value += price * (budget[day] as number);
      slope[i] = (left * price * SCALE) / weight;
      // Minutes left over at no price are no fault.
      off += price > NOTHING * 10 ? Math.abs(left) / whole : Math.max(0, -left) / whole;
    }
    if (off < closest.off) closest = { off, logs };
    return (value * SCALE) / weight;
  };

  let logs: Float64Array = Float64Array.from(open, (day) => Math.log(Math.max(NOTHING, from[day] as number)));
  const finest = () => FINEST * cost * middle(open.map((day) => prices[day] as number));
  let first = 0;
  if (isKnown && open.length > 0) {
    // As those of yesterday: the finest blur at which they do, if there is one.
    const slope = new Float64Array(open.length);
    for (first = blurs.length - 1; first > 0; first--) {
      dual(logs, blurs[first] as number, slope);
      if (off < GOOD && (blurs[first] as number) >= finest()) break;
    }
  }
  let isStopped = false;
  /** From `logs` down at one blur, until use is near enough: where that is, and how far off. */
  const seek = (logs: Float64Array, blur: number, most: number, share: number, enough: () => number) => {
    let tries = 0;
    closest = { off: Number.POSITIVE_INFINITY, logs };
    const stopped = () => {
      isStopped = !progress(share + (Math.min(1, tries / most) * (1 - share)) / 2);
      tries += 1;
      return isStopped || closest.off < enough();
    };
    const found = minimize((x, slope) => dual(x, blur, slope), logs, { steps: most, flat: 0, least: 0, stopped });
    if (closest.off >= enough()) {
      dual(found.x, blur, new Float64Array(open.length));
      closest = { off, logs: found.x };
    }
    return { blur, off: closest.off, logs: closest.logs.map((x) => Math.max(LOG_NOTHING, x)) };
  };

  let kept = { logs, blur: blurs[first] ?? 0, off: Number.POSITIVE_INFINITY };
  for (let stage = first; stage < blurs.length && open.length > 0; stage++) {
    const next = blurs[stage + 1];
    const isLast = () => next === undefined || next < finest();
    const found = seek(logs, blurs[stage] as number, steps, (stage - first) / (blurs.length - first), () =>
      isLast() ? near : 3 * near,
    );
    if (isStopped) return null;
    logs = found.logs;
    // A choice so fine that use jumps serves less than the one before it.
    if (found.off < Math.max(TOO_FAR, kept.off)) kept = found;
    if (isLast()) break;
  }
  if (open.length > 0 && kept.off > near) {
    const again = seek(kept.logs, kept.blur, 2 * steps, 1, () => near);
    if (isStopped) return null;
    if (again.off < kept.off) kept = again;
  }
  if (isKnown && open.length > 0 && kept.off > TOO_FAR)
    return findPrices(solver, budget, from, false, { blurs, steps, near }, { cost, weight }, progress);
  for (const [i, day] of open.entries()) prices[day] = Math.exp(kept.logs[i] as number);
  freeSlack(solver, budget, prices, kept.blur);
  return { prices, blur: kept.blur, rounds };
};

const LOG_NOTHING = Math.log(NOTHING);
/** Makes the slope longer than one, so that the first step of the search is of length one. */
const SCALE = 1e5;

/** Of days with minutes to spare the price is none (complementary slackness), if the others can bear that. */
const freeSlack = (solver: Solver, budget: Float64Array, prices: Float64Array, blur: number): void => {
  const slack = (used: Float64Array) =>
    [...budget.keys()].filter((day) => (used[day] as number) < (1 - SLACK) * (budget[day] as number));
  solver.descend(prices, blur);
  const days = slack(solver.flow());
  if (days.length === 0) return;
  const freed = Float64Array.from(prices);
  for (const day of days) freed[day] = 0;
  solver.descend(freed, blur);
  const used = solver.flow();
  if (budget.every((seconds, day) => (used[day] as number) <= seconds * (1 + SLACK))) prices.set(freed);
};

const middle = (list: readonly number[]): number => [...list].sort((a, b) => a - b)[list.length >> 1] ?? 0;
