import { describe, expect, test } from 'vitest';
import { seeded } from '../../../../src/lib/random.ts';
import { compare, type Options, type Report } from '../../../../src/memory/simulate/compare.ts';
import { answerOf, makeLearner, SAME, VARIED } from '../../../../src/memory/simulate/learner.ts';
import { type Course, cramming, dueOnly, greedy, planned } from '../../../../src/memory/simulate/policies.ts';
import { simulate } from '../../../../src/memory/simulate/run.ts';

const courseOf = (count: number, days: number, minutes: number): Course => ({
  days,
  minutes,
  seconds: Array.from({ length: count }, () => 12),
  critical: Array.from({ length: count }, () => false),
});

const reportOf = (course: Course, options: Partial<Options> = {}): Report => {
  const run = compare(course, { variety: VARIED, learners: 5, seed: 1, every: 5, ...options });
  let step = run.next();
  while (!step.done) step = run.next();
  return step.value;
};
const named = ({ standings }: Report, name: string) => standings.find((s) => s.name === name);

describe('learners', () => {
  test('as the scheduler assumes answer as it predicts', () => {
    const random = seeded(1);
    const learner = makeLearner(random, SAME, 5);
    const n = 4000;
    let right = 0;
    for (let i = 0; i < n; i++) if (answerOf(random, learner, { s: 10, d: 5 }, 10, 1) !== 'missed') right += 1;
    // 0.9 at ten days; three standard deviations of so many tries.
    expect(Math.abs(right / n - 0.9)).toBeLessThan(3 * Math.sqrt(0.09 / n));
  });

  test('differ where they shall, and are the same again for the same seed', () => {
    const a = makeLearner(seeded(1), VARIED, 5);
    const b = makeLearner(seeded(2), VARIED, 5);
    expect(makeLearner(seeded(1), VARIED, 5).weights).toEqual(a.weights);
    const changed = a.weights.flatMap((w, i) => (w === b.weights[i] ? [] : [i]));
    expect(changed).toEqual([0, 1, 2, 3, 8]);
    expect(new Set([...a.days, ...b.days]).size).toBe(10);
  });
});

describe('a course', () => {
  const learner = makeLearner(seeded(3), VARIED, 11);

  test('keeps to its minutes', () => {
    // 600 s a day are 25 new items of 12 s and 12 s of reading: never more than 50 old ones.
    const { asked, unmet } = simulate(dueOnly, courseOf(40, 1, 10), learner, seeded(1));
    expect([asked, unmet]).toEqual([25, 15]);
    const none = simulate(greedy, courseOf(40, 5, 0), learner, seeded(1));
    expect(none).toMatchObject({ asked: 0, unmet: 40, recall: 0, critical: null });
  });

  test('cramming has all the time on the last two days, and fades most after', () => {
    const course = courseOf(30, 10, 4);
    const crammed = simulate(cramming, course, learner, seeded(1));
    const spaced = simulate(planned(5), course, learner, seeded(1));
    expect(crammed.later).toBeLessThan(spaced.later);
    expect(crammed.asked).toBeGreaterThan(100);
  });
});

describe('policies compared', () => {
  const report = reportOf(courseOf(60, 10, 3));

  test('the plan does no worse than greedy, better than due date only, and stays below the bound', () => {
    const plan = named(report, 'plan')?.recall ?? Number.NaN;
    expect(plan).toBeGreaterThan((named(report, 'greedy')?.recall ?? 1) - 0.002);
    expect(plan).toBeGreaterThan((named(report, 'due date only')?.recall ?? 1) + 0.1);
    expect(plan).toBeLessThan(report.bound ?? 0);
    expect(plan).toBeGreaterThan((report.bound ?? 1) - 0.02);
  });

  test('the same seeds give the same figures', () => {
    const course = courseOf(20, 4, 2);
    expect(reportOf(course, { learners: 2 })).toEqual(reportOf(course, { learners: 2 }));
    expect(reportOf(course, { learners: 2, seed: 7 })).not.toEqual(reportOf(course, { learners: 2 }));
  });

  test('what day 0 forecasts is what learners of the assumed memory really recall', () => {
    const { forecast, standings } = reportOf(courseOf(80, 8, 4), { variety: SAME, learners: 4 });
    const recalled = standings.find(({ name }) => name === 'plan')?.recall ?? Number.NaN;
    expect(forecast).not.toBe(null);
    expect(Math.abs(recalled - (forecast ?? 0))).toBeLessThan(0.015);
  });

  test('also where items take different times and some are critical', () => {
    const seconds = Array.from({ length: 48 }, (_, i) => [4, 12, 30, 6][i % 4] as number);
    const critical = seconds.map((_, i) => i % 5 === 0);
    const mixed = reportOf({ days: 7, minutes: 3, seconds, critical }, { variety: SAME, learners: 3 });
    const plan = named(mixed, 'plan');
    expect(Math.abs((plan?.recall ?? 0) - (mixed.forecast ?? 1))).toBeLessThan(0.025);
    expect(plan?.recall).toBeGreaterThan((named(mixed, 'greedy')?.recall ?? 1) - 0.002);
    expect(plan?.critical).toBeGreaterThan(plan?.recall ?? 1);
  });
});
