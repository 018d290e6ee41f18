import type { Random } from '../../lib/random.ts';
import { chanceAfter, nextState, type State } from '../fsrs.ts';
import { READING } from '../plan/shares.ts';
import { answerOf, type Learner } from './learner.ts';
import type { Belief, Course, Policy } from './policies.ts';

/** Days after the check at which recall is looked at once more. */
export const LATER = 30;

export interface Result {
  /** Mean true recall chance on the check day; never met counts as not known. */
  readonly recall: number;
  /** The same so many days after the check, with no more practice. */
  readonly later: number;
  /** Recall on the check day of critical items; null where there are none. */
  readonly critical: number | null;
  /** Items never met. */
  readonly unmet: number;
  /** Questions asked. */
  readonly asked: number;
  /** What the scheduler believed at the end, mean. */
  readonly believed: number;
}

/** One learner through a course, by one policy. */
export const simulate = (policy: Policy, course: Course, learner: Learner, random: Random): Result => {
  const { days, seconds, critical } = course;
  const truth: (State | null)[] = seconds.map(() => null);
  const beliefs: (Belief | null)[] = seconds.map(() => null);
  let asked = 0;
  for (let day = 0; day < days; day++) {
    let left = policy.time?.(day, course) ?? course.minutes * 60;
    const order = left > 0 ? policy.order(day, beliefs, course) : [];
    const rounds = policy.again ? Number.POSITIVE_INFINITY : 1;
    for (let round = 0, went = true; round < rounds && went; round++) {
      went = false;
      for (const i of order) {
        const belief = beliefs[i] ?? null;
        const before = truth[i] ?? null;
        const takes = (seconds[i] as number) + (belief === null ? READING : 0);
        if (takes > left) continue;
        const gap = belief === null ? 0 : day - belief.day;
        // Policies think once a day about each item; only who begins again asks it again.
        if (belief !== null && gap === 0 && !policy.again) continue;
        left -= takes;
        went = true;
        asked += 1;
        const verdict = answerOf(random, learner, before, gap, day);
        truth[i] = learner.model.next(before, gap, verdict);
        beliefs[i] = { ...nextState(belief, gap, verdict), day };
      }
    }
  }
  const recallOn = (day: number) =>
    truth.map((state, i) => (state === null ? 0 : learner.model.chance(state.s, day - (beliefs[i] as Belief).day)));
  const recall = recallOn(days);
  const held = recall.filter((_, i) => critical[i]);
  return {
    recall: mean(recall),
    later: mean(recallOn(days + LATER)),
    critical: held.length === 0 ? null : mean(held),
    unmet: beliefs.filter((b) => b === null).length,
    asked,
    believed: mean(beliefs.map((b) => (b === null ? 0 : chanceAfter(b.s, days - b.day)))),
  };
};

const mean = (list: readonly number[]): number => list.reduce((sum, x) => sum + x, 0) / list.length;
