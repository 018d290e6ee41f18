import type { MemoryModel } from '../fsrs.ts';
import type { Grid } from './grid.ts';
import { bendOf, weightOf } from './reward.ts';
import { type Answers, emptyAnswers, putAnswer, putFirst, type Transitions, transitionsOf } from './transitions.ts';
import type { PlanClass, PlanInput, PlanItems, Shares } from './types.ts';

/** Items in the same state today. */
export interface Starts {
  /** Of each item (row) its start. */
  readonly of: Int32Array;
  readonly count: number;
  /** Class, s of the next question (with reading, if it is the first) for each unit of weight. */
  readonly kind: Int32Array;
  readonly cost: Float64Array;
  /** Whole days since the last answer (−1 never met), stability, difficulty, sum of weights, number of items. */
  readonly gap: Float64Array;
  readonly s: Float64Array;
  readonly d: Float64Array;
  readonly weight: Float64Array;
  readonly items: Float64Array;
}

/** More starts than this are put together, so that a large deck costs no more than a middling one. */
const MOST = 700;
/** Costs that differ by less than this factor are taken as one; more where there would be too many classes. */
const SAME_COST = 1.2;
const MOST_CLASSES = 6;

/** Study day of the check of each item. @throws RangeError where one is after the last */
export const checkDaysOf = ({ items, day, checkDay }: Pick<PlanInput, 'items' | 'day' | 'checkDay'>): Int32Array =>
  Int32Array.from({ length: items.gap.length }, (_, i) => {
    const own = items.checkDay === undefined ? checkDay : (items.checkDay[i] as number);
    if (!Number.isInteger(own) || own > checkDay)
      throw new RangeError(`Item ${i} of a plan: its check day must be a study day, none after the last check.`);
    return Math.max(day, own);
  });

/**
 * Seconds for each unit of weight, the reward and the check day decide how an item is best treated. Costs that are
 * nearly the same are put together, at their mean.
 * @param checkDays of `checkDaysOf`
 * @param isWeighted false: every item counts once, what counts is recall alone, and a class costs its least, so that a
 * bound stays one
 * @returns the classes, and of each item its class
 */
export const classesOf = (
  items: PlanItems,
  checkDays: Int32Array,
  isWeighted: boolean,
): { classes: PlanClass[]; of: Int32Array } => {
  const { length } = items.gap;
  const weightIn = (i: number) => (isWeighted ? weightOf(items.critical[i] as number) : 1);
  const bendIn = (i: number) => (isWeighted ? bendOf(items.critical[i] as number) : 0);
  const cost = (i: number) => (items.seconds[i] as number) / weightIn(i);
  const dayOf = (i: number) => checkDays[i] as number;
  const order = Array.from({ length }, (_, i) => i).sort(
    (a, b) => dayOf(a) - dayOf(b) || bendIn(a) - bendIn(b) || cost(a) - cost(b),
  );
  const kinds = new Set(order.map((i) => `${dayOf(i)} ${bendIn(i)}`)).size;
  for (let same = SAME_COST; ; same *= SAME_COST) {
    const of = new Int32Array(length);
    const classes: PlanClass[] = [];
    for (let from = 0; from < length; ) {
      const first = order[from] as number;
      const [least, bend, checkDay] = [cost(first), bendIn(first), dayOf(first)];
      let seconds = 0;
      let weights = 0;
      for (; from < length; from++) {
        const i = order[from] as number;
        if (cost(i) > least * same || bendIn(i) !== bend || dayOf(i) !== checkDay) break;
        seconds += items.seconds[i] as number;
        weights += weightIn(i);
        of[i] = classes.length;
      }
      classes.push({ cost: isWeighted ? seconds / weights : least, bend, checkDay });
    }
    // Rewards and check days are never put together.
    if (classes.length <= Math.max(MOST_CLASSES, kinds)) return { classes, of };
  }
};

/**
 * Items in equal states put together; where these are very many, in nearly equal ones.
 * @param reading s that reading takes before the first question
 */
export const startsOf = (items: PlanItems, classOf: Int32Array, reading: number, isWeighted: boolean): Starts => {
  for (let step = 0; ; step = step === 0 ? 0.02 : step * 2) {
    const starts = gather(items, classOf, reading, isWeighted, step);
    if (starts.count <= MOST || step > 2) return starts;
  }
};

interface Gathered {
  readonly kind: number;
  readonly gap: number;
  readonly s: number;
  readonly d: number;
  seconds: number;
  weight: number;
  items: number;
}

const near = (x: number, by: number): number => (by === 0 ? x : Math.round(x / by) * by);

const gather = (items: PlanItems, classOf: Int32Array, reading: number, isWeighted: boolean, step: number): Starts => {
  const { length } = items.gap;
  const of = new Int32Array(length);
  const known = new Map<string, number>();
  const list: Gathered[] = [];
  for (let i = 0; i < length; i++) {
    const weight = isWeighted ? weightOf(items.critical[i] as number) : 1;
    const gap = items.gap[i] as number;
    const isMet = gap >= 0;
    const seconds = (items.seconds[i] as number) + (isMet ? 0 : reading);
    const s = isMet ? Math.exp(near(Math.log(items.s[i] as number), step)) : 0;
    const d = isMet ? Math.min(10, Math.max(1, near(items.d[i] as number, step * 4))) : 0;
    // Nought and one day are no days to be rounded: of what was asked today nothing more is asked.
    const days = gap <= 2 ? gap : Math.round(Math.exp(near(Math.log(gap), step)));
    const kind = classOf[i] as number;
    // Whether and when something new is begun depends on what it costs, and much: there only equal costs are put together.
    const name = isMet ? `${kind} ${days} ${s} ${d}` : `${kind} new ${near(Math.log(seconds), step)} ${weight}`;
    const start = known.get(name) ?? list.length;
    if (start === list.length) {
      known.set(name, start);
      list.push({ kind, gap: days, s, d, seconds: 0, weight: 0, items: 0 });
    }
    const one = list[start] as Gathered;
    one.seconds += seconds;
    one.weight += weight;
    one.items += 1;
    of[i] = start;
  }
  return {
    of,
    count: list.length,
    kind: Int32Array.from(list, (x) => x.kind),
    cost: Float64Array.from(list, (x) => x.seconds / x.weight),
    gap: Float64Array.from(list, (x) => x.gap),
    s: Float64Array.from(list, (x) => x.s),
    d: Float64Array.from(list, (x) => x.d),
    weight: Float64Array.from(list, (x) => x.weight),
    items: Float64Array.from(list, (x) => x.items),
  };
};

/** What is known of every start, whatever the prices. */
export interface StartTable {
  readonly starts: Starts;
  /** Asked on day `u` (0 = today): row start × days + u. */
  readonly asked: Transitions;
  /** Recall chance on day `u`, 0 .. days: start × (days + 1) + u. */
  readonly recall: Float64Array;
}

/** What follows on an answer to each start, day by day; of those never met nothing. */
export const startAnswers = (model: MemoryModel, days: number, starts: Starts): Answers => {
  const answers = emptyAnswers(starts.count * days);
  for (let start = 0; start < starts.count; start++) {
    const gap = starts.gap[start] as number;
    if (gap < 0) continue;
    const state = { s: starts.s[start] as number, d: starts.d[start] as number };
    for (let u = gap === 0 ? 1 : 0; u < days; u++) putAnswer(model, answers, start * days + u, state, gap + u);
  }
  return answers;
};

/** @param answers of `startAnswers` */
export const startTable = (
  model: MemoryModel,
  grid: Grid,
  shares: Shares,
  days: number,
  starts: Starts,
  answers: Answers,
): StartTable => {
  const asked = transitionsOf(answers, grid, shares);
  const recall = new Float64Array(starts.count * (days + 1));
  for (let start = 0; start < starts.count; start++) {
    const gap = starts.gap[start] as number;
    for (let u = 0; u <= days; u++) {
      if (gap >= 0) recall[start * (days + 1) + u] = model.chance(starts.s[start] as number, gap + u);
      else if (u < days) putFirst(model, grid, shares, asked, start * days + u);
    }
  }
  return { starts, asked, recall };
};
