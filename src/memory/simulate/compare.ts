import { seeded } from '../../lib/random.ts';
import { boundOf } from '../plan/bound.ts';
import { type Learner, makeLearner, type Variety } from './learner.ts';
import { type Course, cramming, dueOnly, greedy, lowestRecall, type Policy, planned, solve } from './policies.ts';
import { type Result, simulate } from './run.ts';

export interface Options {
  readonly variety: Variety;
  /** Learners, numbered from `seed` on: the same numbers give the same learners and the same luck. */
  readonly learners: number;
  readonly seed: number;
  /** Days after which the plan finds its prices anew. */
  readonly every: number;
}

/** How one policy did. Shares 0..1, means over learners. */
export interface Standing {
  readonly name: string;
  readonly recall: number;
  /** Mean recall of the tenth of learners that did worst, at least one. */
  readonly worst: number;
  /** Recall of critical items; null where there are none. */
  readonly critical: number | null;
  /** Recall `LATER` days after the check. */
  readonly later: number;
  readonly unmet: number;
  readonly asked: number;
}

export interface Report {
  readonly standings: readonly Standing[];
  /** Mean over learners of the bound that somebody could reach who knows each learner's memory, though not the luck. */
  readonly bound: number | null;
  /** What the plan forecasts on day 0, the same for all. */
  readonly forecast: number | null;
}

/**
 * All policies on the same learners. Yields what share of the work is done, 0..1.
 * @throws RangeError where the course makes no sense
 */
export function* compare(course: Course, { variety, learners, seed, every }: Options): Generator<number, Report> {
  const none = course.seconds.map(() => null);
  const first = solve(0, none, course, null);
  const policies: readonly (() => Policy)[] = [
    () => dueOnly,
    () => lowestRecall,
    () => cramming,
    () => greedy,
    () => planned(every, first),
  ];
  const results: Result[][] = policies.map(() => []);
  const bounds: (number | null)[] = [];
  for (let n = 0; n < learners; n++) {
    const learner = makeLearner(seeded(`learner ${seed + n}`), variety, course.days);
    for (const [p, policy] of policies.entries()) {
      (results[p] as Result[]).push(simulate(policy(), course, learner, seeded(`answers ${seed + n}`)));
      yield (n + (p + 1) / (policies.length + 1)) / learners;
    }
    bounds.push(boundFor(course, learner));
    yield (n + 1) / learners;
  }
  return {
    standings: policies.map((policy, p) => standingOf(policy().name, results[p] as Result[])),
    bound: bounds.every((bound) => bound !== null) ? mean(bounds as number[]) : null,
    forecast: first.recall,
  };
}

const boundFor = ({ days, minutes, seconds, critical }: Course, { weights }: Learner): number | null => {
  const none = seconds.map(() => 0);
  const items = { s: none, d: none, gap: seconds.map(() => -1), critical: critical.map(Number), seconds };
  return boundOf({ items, day: 0, checkDay: days, minutes, weights });
};

/** @param results at least one */
export const standingOf = (name: string, results: readonly Result[]): Standing => {
  const sorted = results.map(({ recall }) => recall).sort((a, b) => a - b);
  const critical = results.flatMap((r) => (r.critical === null ? [] : [r.critical]));
  return {
    name,
    recall: mean(sorted),
    worst: mean(sorted.slice(0, Math.max(1, Math.floor(sorted.length / 10)))),
    critical: critical.length === 0 ? null : mean(critical),
    later: mean(results.map(({ later }) => later)),
    unmet: mean(results.map(({ unmet }) => unmet)),
    asked: mean(results.map(({ asked }) => asked)),
  };
};

const mean = (list: readonly number[]): number => list.reduce((sum, x) => sum + x, 0) / list.length;
