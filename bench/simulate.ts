import { compare } from '../src/memory/simulate/compare.ts';
import { VARIED } from '../src/memory/simulate/learner.ts';
import type { Course } from '../src/memory/simulate/policies.ts';

interface Line {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  readonly goal?: string;
}

/** 200 numbers to be typed, as long as the limit form reckons for one; 20 learners. */
const courseOf = (days: number, minutes: number): Course => ({
  days,
  minutes,
  seconds: Array.from({ length: 200 }, () => 12),
  critical: Array.from({ length: 200 }, () => false),
});

const settings = [
  { days: 30, minutes: 10, near: 0.006, overDue: null },
  { days: 10, minutes: 10, near: 0.012, overDue: 0.15 },
] as const;

/** Mean recall on the day of all policies, and how near the plan comes to what is possible. */
export const benchSimulate = (): Line[] =>
  settings.flatMap(({ days, minutes, near, overDue }) => {
    const run = compare(courseOf(days, minutes), { variety: VARIED, learners: 20, seed: 1, every: 5 });
    let step = run.next();
    while (!step.done) step = run.next();
    const { standings, bound, forecast } = step.value;
    const named = (name: string) => standings.find((s) => s.name === name) as (typeof standings)[number];
    const plan = named('plan');
    const greedy = named('greedy');
    const setting = `${days} d × ${minutes} min`;
    const line = (name: string, value: number, goal?: string): Line => ({
      name: `${setting}: ${name}`,
      value,
      unit: '',
      ...(goal !== undefined && { goal }),
    });
    return [
      line('upper bound', bound ?? Number.NaN),
      ...standings.map(({ name, recall }) => line(name, recall)),
      line('forecast of day 0', forecast ?? Number.NaN),
      line('bound less plan', (bound ?? Number.NaN) - plan.recall, `≤ ${near}`),
      line('plan less greedy', plan.recall - greedy.recall, '≥ -0.002'),
      line('the same, worst decile', plan.worst - greedy.worst, ...(days === 30 ? ['≥ -0.002'] : [])),
      line(
        'plan less due date only',
        plan.recall - named('due date only').recall,
        ...(overDue === null ? [] : [`≥ ${overDue}`]),
      ),
    ];
  });
