import { minimize } from '../fit/bfgs.ts';
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
const GOOD = 0.4;
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
    return (value * SCALE) / weight;
  };

  let logs = Float64Array.from(open, (day) => Math.log(Math.max(NOTHING, from[day] as number)));
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
  let blur = blurs[first] ?? 0;
  for (let stage = first; stage < blurs.length && open.length > 0; stage++) {
    const next = blurs[stage + 1];
    blur = blurs[stage] as number;
    let tries = 0;
    let isStopped = false;
    off = Number.POSITIVE_INFINITY;
    const stopped = () => {
      const share = (stage - first + Math.min(1, tries / steps)) / (blurs.length - first);
      tries += 1;
      isStopped = !progress(share);
      const isLast = next === undefined || next < finest();
      return isStopped || off < (isLast ? near : 3 * near);
    };
    const found = minimize((x, slope) => dual(x, blur, slope), logs, { steps, flat: 0, least: 0, stopped });
    if (isStopped) return null;
    logs = Float64Array.from(found.x, (x) => Math.max(LOG_NOTHING, x));
    for (const [i, day] of open.entries()) prices[day] = Math.exp(logs[i] as number);
    if (next !== undefined && next < finest()) break;
  }
  freeSlack(solver, budget, prices, blur);
  return { prices, blur, rounds };
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
