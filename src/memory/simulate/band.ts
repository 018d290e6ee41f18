import { type Random, seeded } from '../../lib/random.ts';
import { memoryModel, type State } from '../fsrs.ts';
import { READING, SHARES } from '../plan/shares.ts';
import { budgetOf } from '../plan/solve.ts';
import { checkDaysOf } from '../plan/starts.ts';
import type { Plan, PlanInput } from '../plan/types.ts';
import { worthOf } from '../plan/worth.ts';
import { answerOf, type Learner, makeLearner, shifted, type Variety } from './learner.ts';

/** Shares right on the check day, 0..1: in one of ten cases less than `low`, in one of ten more than `high`. */
export interface Band {
  readonly low: number;
  readonly mean: number;
  readonly high: number;
}

export interface BandOptions {
  /** How far memories may differ from what is assumed: less, once weights were fitted to the learner. */
  readonly variety: Variety;
  /** Learners tried. */
  readonly learners: number;
  readonly seed: number;
  /** Of each item a group, 0 .. `groups` − 1, or −1 for none. */
  readonly groupOf?: ArrayLike<number>;
  readonly groups?: number;
}

export interface Bands {
  readonly all: Band;
  /** Null where there are none. */
  readonly critical: Band | null;
  /** As in the options; null for a group without items. */
  readonly groups: readonly (Band | null)[];
}

/** A tenth to either side. */
const TAIL = 0.1;

/**
 * What share of the items would be right, each on its check day: the plan is followed by learners who are where this one is,
 * but whose memory, days and luck differ. Prices stay as they are.
 * @param plan null: nothing more is practised
 * @returns null without items
 */
export const bandsOf = (input: PlanInput, plan: Plan | null, options: BandOptions): Bands | null => {
  const { critical, gap } = input.items;
  const { learners, seed, groupOf, groups = 0 } = options;
  if (gap.length === 0) return null;
  const rows = Array.from({ length: gap.length }, (_, i) => i);
  const sets = [
    rows,
    rows.filter((i) => critical[i] === 1),
    ...Array.from({ length: groups }, (_, g) => rows.filter((i) => groupOf?.[i] === g)),
  ];
  const shares = sets.map(() => new Float64Array(learners));
  for (let n = 0; n < learners; n++) {
    const right = rightOnTheDay(input, plan, options.variety, seeded(`band ${seed} ${n}`));
    for (const [k, set] of sets.entries())
      (shares[k] as Float64Array)[n] = set.reduce((sum, i) => sum + (right[i] as number), 0) / set.length;
  }
  const band = (k: number): Band | null =>
    (sets[k] as number[]).length === 0 ? null : bandOf(shares[k] as Float64Array);
  return {
    all: bandOf(shares[0] as Float64Array),
    critical: band(1),
    groups: sets.slice(2).map((_, g) => band(g + 2)),
  };
};

const bandOf = (shares: Float64Array): Band => {
  const sorted = shares.slice().sort();
  return {
    low: quantile(sorted, TAIL),
    mean: sorted.reduce((sum, x) => sum + x, 0) / sorted.length,
    high: quantile(sorted, 1 - TAIL),
  };
};

/** Between two values the one in proportion (Hyndman & Fan 1996, type 7). */
const quantile = (sorted: Float64Array, p: number): number => {
  const at = p * (sorted.length - 1);
  const low = sorted[Math.floor(at)] as number;
  return low + (at - Math.floor(at)) * ((sorted[Math.ceil(at)] as number) - low);
};

interface Item {
  belief: State;
  truth: State;
  /** Day of the last answer. */
  day: number;
}

/** One learner: 1 for each item that is right on the check day, else 0. */
const rightOnTheDay = (input: PlanInput, plan: Plan | null, variety: Variety, random: Random): Uint8Array => {
  const { items, day: today, weights, shares = SHARES, reading = READING } = input;
  const days = Math.max(0, input.checkDay - today);
  const model = memoryModel(weights);
  const learner = makeLearner(random, variety, days + 1, { ...(weights && { weights }), shares });
  const states = Array.from({ length: items.gap.length }, (_, i): Item | null => {
    const gap = items.gap[i] as number;
    if (gap < 0) return null;
    const belief = { s: items.s[i] as number, d: items.d[i] as number };
    return { belief, truth: { s: Math.max(0.001, belief.s * learner.factor), d: belief.d }, day: today - gap };
  });
  const budget = budgetOf(input.minutes, days);
  for (let u = 0; plan?.kind === 'planned' && u < days; u++) {
    const day = today + u;
    let left = budget[u] as number;
    for (const i of orderOf(plan, states, input, day)) {
      const state = states[i] ?? null;
      const takes = (items.seconds[i] as number) + (state === null ? reading : 0);
      if (takes > left) continue;
      left -= takes;
      const gap = state === null ? 0 : day - state.day;
      const verdict = answerOf(random, learner, state?.truth ?? null, gap, u);
      states[i] = {
        belief: model.next(state?.belief ?? null, gap, verdict),
        truth: learner.model.next(state?.truth ?? null, gap, verdict),
        day,
      };
    }
  }
  const checkDays = checkDaysOf(input);
  return Uint8Array.from(states, (state, i) =>
    isRight(random, learner, state, today, (checkDays[i] as number) - today) ? 1 : 0,
  );
};

/** @param days until its check */
const isRight = (random: Random, learner: Learner, state: Item | null, today: number, days: number): boolean => {
  const die = random();
  if (state === null) return false;
  return die < shifted(learner.model.chance(state.truth.s, today + days - state.day), learner.days[days] ?? 0);
};

const orderOf = (plan: Plan, states: readonly (Item | null)[], { items }: PlanInput, day: number): number[] => {
  const worths = states.map((state, i) =>
    worthOf(
      plan,
      {
        memory: state === null ? null : { ...state.belief, day: state.day },
        critical: items.critical[i] === 1,
        seconds: items.seconds[i] as number,
        ...(items.checkDay !== undefined && { checkDay: items.checkDay[i] as number }),
      },
      day,
    ),
  );
  return [...worths.keys()]
    .filter((i) => (worths[i] as number) > 0)
    .sort((a, b) => (worths[b] as number) - (worths[a] as number) || a - b);
};
