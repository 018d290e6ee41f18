import { DEFAULT_WEIGHTS } from '../fsrs.ts';
import { makeSolver } from './descent.ts';
import { criticalOf, figures, idleOf, mean } from './figures.ts';
import { makeGrid } from './grid.ts';
import { type Effort, findPrices, type Scale } from './prices.ts';
import { type Problem, problemsOf } from './problem.ts';
import { READING, SHARES } from './shares.ts';
import { checkDaysOf } from './starts.ts';
import type { Plan, PlanInput, PlanKind } from './types.ts';
import { gainsOn } from './worth.ts';

/** A check farther off has no prices yet: the order of the day does without (day-order.ts). */
export const FARTHEST = 45;

/** Blurs in rewards of one item: at a tenth the way is found however scarce the minutes are. */
export const EFFORT: Effort = { blurs: [0.1, 0.03, 0.01, 0.004, 0.0015, 0.0006], steps: 25, near: 0.03 };
/** The way there. */
const ROUGH_EFFORT: Effort = { blurs: [0.05, 0.01, 0.002], steps: 25, near: 0.06 };

/** A coarse grid: log stabilities × difficulties. */
const ROUGH = [16, 3] as const;
/** Of the whole work. */
const ROUGH_SHARE = 0.6;

export const kindOf = (input: PlanInput): PlanKind => {
  const { items, day, checkDay } = input;
  if (items.gap.length === 0) return 'empty';
  if (checkDay <= day || checkDaysOf(input).every((own) => own <= day)) return 'past';
  return checkDay - day > FARTHEST ? 'far' : 'planned';
};

/** @throws where a column has another length, or a figure makes no sense */
export const checkInput = (input: PlanInput): void => {
  const { items, minutes, day, checkDay } = input;
  const { length } = items.gap;
  for (const name of ['s', 'd', 'critical', 'seconds', 'checkDay'] as const) {
    const column = items[name];
    if (column !== undefined && column.length !== length)
      throw new RangeError(`Items of a plan: ${column.length} values of ${name}, but ${length} of gap.`);
  }
  for (let i = 0; i < length; i++) {
    if (!((items.seconds[i] as number) > 0)) throw new RangeError(`Item ${i} of a plan: its seconds must be above 0.`);
    if ((items.gap[i] as number) >= 0 && !((items.s[i] as number) > 0 && (items.d[i] as number) >= 1))
      throw new RangeError(`Item ${i} of a plan was met, but has no stability or difficulty.`);
  }
  const list = typeof minutes === 'number' ? [minutes] : minutes;
  if (list.length === 0 || !list.every((m) => m >= 0 && m < 1e6))
    throw new RangeError('Minutes a day of a plan must be 0 or more.');
  if (!Number.isInteger(day) || !Number.isInteger(checkDay)) throw new RangeError('Days of a plan must be study days.');
  checkDaysOf(input);
};

/** s for each day that can be used: none after the last check. */
export const usableOf = (input: PlanInput): Float64Array => {
  const last = checkDaysOf(input).reduce((most, own) => Math.max(most, own), input.day) - input.day;
  return budgetOf(input.minutes, input.checkDay - input.day).map((seconds, u) => (u < last ? seconds : 0));
};

/** s for each day. */
export const budgetOf = (minutes: number | readonly number[], days: number): Float64Array =>
  Float64Array.from({ length: days }, (_, u) => {
    const list = typeof minutes === 'number' ? [minutes] : minutes;
    return 60 * (list[Math.min(u, list.length - 1)] as number);
  });

/** Prices to begin with, from a plan of another day if there is one. */
export const beginning = (days: number, day: number, from: PlanInput['from']): Float64Array => {
  const known = from?.prices.filter(Number.isFinite) ?? [];
  const mean = known.length === 0 ? 0.001 : known.reduce((sum, p) => sum + p, 0) / known.length;
  return Float64Array.from({ length: days }, (_, u) => {
    const price = from?.prices[day + u - from.day];
    return price !== undefined && Number.isFinite(price) ? price : mean;
  });
};

/** Prices known from a plan with other minutes are a beginning, but not nearly right. */
const hasSameMinutes = ({ from, day }: PlanInput, budget: Float64Array): boolean =>
  from !== undefined &&
  budget.every((seconds, u) => Math.abs(seconds - (from.budget[day + u - from.day] ?? seconds)) < 60);

/**
 * The plan for a check date: a price for each day's seconds at which the minutes are just used up, and what an item is
 * worth at them. Highest even-handed recall, critical items weighted.
 * @param onProgress told the share done, 0..1
 * @param stopped asked now and then
 * @returns null where it was stopped
 * @throws RangeError where the input makes no sense
 */
export const solvePlan = (
  input: PlanInput,
  onProgress?: (share: number) => void,
  stopped?: () => boolean,
): Plan | null => {
  checkInput(input);
  const kind = kindOf(input);
  if (kind !== 'planned') return unplanned(input, kind);
  const { day, checkDay, shares = SHARES, reading = READING, weights = DEFAULT_WEIGHTS } = input;
  const days = checkDay - day;
  const budget = usableOf(input);
  let most = 0;
  const told = (from: number, to: number) => (share: number) => {
    most = Math.max(most, from + (to - from) * share);
    onProgress?.(most);
    return stopped?.() !== true;
  };
  const problemOn = problemsOf(input, true);
  let begin = beginning(days, day, input.from);
  const isNear = hasSameMinutes(input, budgetOf(input.minutes, days));
  if (!isNear) {
    // The way there on a coarse grid; the last steps on the usual one.
    const rough = problemOn(makeGrid(...ROUGH));
    const isKnown = input.from !== undefined;
    const tell = told(0, ROUGH_SHARE);
    const found = findPrices(makeSolver(rough), budget, begin, isKnown, ROUGH_EFFORT, scaleOf(rough), tell);
    if (found === null) return null;
    begin = found.prices;
  }
  const problem = problemOn();
  const solver = makeSolver(problem);
  const rest = told(isNear ? 0 : ROUGH_SHARE, 1);
  const prices = findPrices(solver, budget, begin, true, EFFORT, scaleOf(problem), rest);
  if (prices === null) return null;
  solver.descend(prices.prices, prices.blur);
  const used = [...solver.flow()];
  const outcome = solver.outcome();
  solver.descend(prices.prices, 0);
  const values = problem.classes.map((_, c) => solver.valueOf(c));
  const head = {
    kind,
    day,
    checkDay,
    weights,
    shares,
    reading,
    budget: [...budgetOf(input.minutes, days)],
    prices: [...prices.prices],
  };
  const tables = { ...head, classes: problem.classes, values };
  const plan = {
    ...tables,
    gains: gainsOn(tables, day),
    used,
    ...figures(input, problem, outcome, idleOf(input)),
  };
  onProgress?.(1);
  return plan;
};

export const scaleOf = ({ classes, weight }: Problem): Scale => ({
  cost: mean(classes.map(({ cost }) => cost)),
  weight,
});

/** Without prices: what becomes of recall if nothing is practised. */
const unplanned = (input: PlanInput, kind: PlanKind): Plan => {
  const { items, day, checkDay, shares = SHARES, reading = READING, weights = DEFAULT_WEIGHTS } = input;
  const itemRecall = idleOf(input);
  const recall = itemRecall.length === 0 ? null : mean(itemRecall);
  return {
    kind,
    day,
    checkDay,
    weights,
    shares,
    reading,
    budget: [],
    prices: [],
    classes: [],
    values: [],
    gains: [],
    recall,
    critical: criticalOf(items, itemRecall),
    idle: recall,
    itemRecall,
    itemAsks: new Float32Array(itemRecall.length),
    givenUp: [],
    used: [],
    curve: [],
  };
};
