import { TARGET } from '../day-order.ts';
import { chanceAfter, daysUntil, nextState, type State } from '../fsrs.ts';
import { weightOf } from '../plan/reward.ts';
import { READING, SHARES } from '../plan/shares.ts';
import { solvePlan } from '../plan/solve.ts';
import type { Plan } from '../plan/types.ts';
import { worthOf } from '../plan/worth.ts';

/** What the scheduler believes of an item; null = never met. */
export interface Belief extends State {
  /** Day of the last answer. */
  readonly day: number;
}

export interface Course {
  /** Days to practise on, 0 .. days − 1; the check is on day `days`. */
  readonly days: number;
  readonly minutes: number;
  /** For each item: s of asking it, and whether it must never be wrong. */
  readonly seconds: readonly number[];
  readonly critical: readonly boolean[];
}

/** A way to choose what is asked. It knows what the scheduler knows, no more. */
export interface Policy {
  readonly name: string;
  /** Items in the order in which they are asked on a day, as far as the time goes. */
  order(day: number, beliefs: readonly (Belief | null)[], course: Course): readonly number[];
  /** s for a day; default: the minutes. */
  time?(day: number, course: Course): number;
  /** The list is begun again when it is through. */
  readonly again?: true;
}

const recall = (belief: Belief, day: number): number => chanceAfter(belief.s, day - belief.day);
const isDue = (belief: Belief | null, day: number): boolean =>
  belief !== null && day >= belief.day + Math.max(1, Math.round(daysUntil(belief.s, TARGET)));
const all = (course: Course) => [...course.seconds.keys()];
const by = (list: number[], value: (i: number) => number): number[] => {
  const values = new Map(list.map((i) => [i, value(i)]));
  return list.sort((a, b) => (values.get(b) as number) - (values.get(a) as number) || a - b);
};

/**
 * What has reached its due date, the day nearest to when recall will have fallen to 0.9 (never the same day), the
 * least certain first; then new items as far as time is left.
 */
export const dueOnly: Policy = {
  name: 'due date only',
  order(day, beliefs, course) {
    const due = all(course).filter((i) => isDue(beliefs[i] ?? null, day));
    const fresh = all(course).filter((i) => beliefs[i] === null);
    return [...by(due, (i) => -recall(beliefs[i] as Belief, day)), ...fresh];
  },
};

/** Whatever is least certain; never met counts as not known. */
export const lowestRecall: Policy = {
  name: 'lowest recall first',
  order: (day, beliefs, course) =>
    by(all(course), (i) => (beliefs[i] == null ? 0 : -recall(beliefs[i] as Belief, day))),
};

const CRAM_DAYS = 2;

/** All the minutes of the course on the last two days, the whole deck over and over. */
export const cramming: Policy = {
  name: 'cramming',
  again: true,
  order: (_day, _beliefs, course) => all(course),
  time: (day, { days, minutes }) => (day >= days - CRAM_DAYS ? (60 * minutes * days) / Math.min(days, CRAM_DAYS) : 0),
};

/** What gains most recall on the check day for each second, as if it were asked once and never again. */
export const greedy: Policy = {
  name: 'greedy',
  order(day, beliefs, course) {
    const left = course.days - day;
    const first = ['missed', 'unsure', 'sound'] as const;
    const fresh = first.reduce((sum, v) => sum + SHARES.first[v] * chanceAfter(nextState(null, 0, v).s, left), 0);
    return by(all(course), (i) => {
      const belief = beliefs[i] ?? null;
      const weight = weightOf(course.critical[i] ? 1 : 0);
      const seconds = course.seconds[i] as number;
      if (belief === null) return (weight * fresh) / (seconds + READING);
      const gap = day - belief.day;
      const r = chanceAfter(belief.s, gap);
      const after = (v: 'missed' | 'unsure' | 'sound') => chanceAfter(nextState(belief, gap, v).s, left);
      const { unsure, sound } = SHARES.right;
      const asked = (1 - r) * after('missed') + r * (unsure * after('unsure') + sound * after('sound'));
      return (weight * (asked - chanceAfter(belief.s, gap + left))) / seconds;
    });
  },
};

/**
 * The plan.
 * @param every days after which prices are found anew from what is then known
 * @param first a plan of day 0 that was made already: all begin alike
 */
export const planned = (every: number, first?: Plan): Policy => {
  let plan = first ?? null;
  return {
    name: 'plan',
    order(day, beliefs, course) {
      if (plan === null || (day > 0 && day % every === 0)) plan = solve(day, beliefs, course, plan);
      const now = plan;
      const worth = (i: number) =>
        worthOf(
          now,
          { memory: beliefs[i] ?? null, critical: course.critical[i] as boolean, seconds: course.seconds[i] as number },
          day,
        );
      const worths = course.seconds.map((_, i) => worth(i));
      return by(
        all(course).filter((i) => (worths[i] as number) > 0),
        (i) => worths[i] as number,
      );
    },
  };
};

export const solve = (
  day: number,
  beliefs: readonly (Belief | null)[],
  { days, minutes, seconds, critical }: Course,
  from: Plan | null,
): Plan => {
  const plan = solvePlan({
    items: {
      s: beliefs.map((b) => b?.s ?? 0),
      d: beliefs.map((b) => b?.d ?? 0),
      gap: beliefs.map((b) => (b == null ? -1 : day - b.day)),
      critical: critical.map(Number),
      seconds,
    },
    day,
    checkDay: days,
    minutes,
    ...(from !== null && { from }),
  });
  if (plan === null) throw new Error('A plan was stopped, though nobody stopped it.');
  return plan;
};
