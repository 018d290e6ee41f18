/** What the program itself keeps from being tapped is nobody's fault; what was tapped far too early is, however it ends. */
import { expect, test } from 'vitest';
import type { PacedStart } from '../../../src/drill/paced.ts';
import { act, advance, begin, type Course, choose, due, givenOfCourse, offer } from '../../../src/paced/course.ts';
import { knotsOf } from '../../../src/paced/motion.ts';
import type { Resolved } from '../../../src/subjects/resolved.ts';
import { calder } from './calder.ts';
import { AEROPLANE, markedRun, runDeck, startOf, timings } from './runs.ts';

/** s that somebody takes. */
interface Hands {
  /** From a cue to its tap. */
  readonly reacts: number;
  /** From the question to stop or go. */
  readonly decides: number;
  /** From a question answered to the next tap. */
  readonly turns: number;
  /** From a step to its option. */
  readonly chooses?: number;
}

/** A crew that does everything right, each at its own pace; while a question stands there nothing else can be tapped. */
const flown = ({ plan, shown }: PacedStart, { reacts, decides, turns, chooses = 0 }: Hands): Course => {
  let c = begin(plan);
  let free = 0;
  let choosing: { readonly id: string; readonly at: number } | null = null;
  for (let i = 0; i < 1e5 && c.ended === null; i++) {
    const { t } = c.motion;
    if (c.asked !== null && t >= c.asked + decides) {
      c = act(plan, c, (c.failed ?? 0) < (plan.v1 ?? 0) ? 'stop' : 'go');
      free = t + turns;
    } else if (choosing !== null && t >= choosing.at + chooses) {
      c = choose(plan, c, choosing.id, null);
      choosing = null;
      free = t + turns;
    }
    if (c.asked === null && choosing === null && t >= free)
      for (const { id, byWind } of due(plan, c))
        if (choosing === null && t >= (c.cues[id] ?? 0) + reacts) {
          c = act(plan, c, id);
          if (byWind && shown.wind !== undefined) {
            choosing = { id, at: t };
            c = offer(c);
          }
        }
    c = advance(plan, c, 1);
  }
  return c;
};
const blamed = (all: Resolved, start: PacedStart, course: Course): string[] =>
  timings(markedRun(all, start, givenOfCourse(start.plan, course)).detail).filter((one) => !one.endsWith('in-time'));
const failing = { condition: 'out', speed: 'v1', share: 1 };
const seeds = Array.from({ length: 60 }, (_, seed) => seed);

test('while stop or go is asked, no step can be tapped and none is late for it', () => {
  const small = runDeck({ failure: { ...failing, from: 0, to: 6 } });
  const hands = { reacts: 0.7, decides: 1.2, turns: 0.6 };
  let asked = 0;
  for (const seed of seeds)
    for (const [all, start] of [
      [small, startOf(small, { seed })],
      [calder, startOf(calder, { paced: 'engine-may-fail', seed })],
    ] as const) {
      const course = flown(start, hands);
      if (course.decision !== 'go') continue;
      asked += 1;
      expect(blamed(all, start, course), `seed ${seed}`).toEqual([]);
    }
  expect(asked).toBeGreaterThan(40);
  // Who then takes his time is late all the same.
  const start = startOf(small, { seed: 1 });
  expect(blamed(small, start, flown(start, { ...hands, turns: 4 }))).not.toEqual([]);
});

test('nor while the options of a step stand there, however long', () => {
  for (const chooses of [3, 15])
    for (const seed of seeds.slice(0, 20)) {
      const start = startOf(calder, { paced: 'take-off-in-time', seat: 'PF', seed });
      const course = flown(start, { reacts: 0.7, decides: 1, turns: 0.6, chooses });
      expect(
        course.acts.some(({ unknown }) => unknown),
        `seed ${seed}`,
      ).toBe(true);
      expect(blamed(calder, start, course), `seed ${seed}, ${chooses} s`).toEqual([]);
    }
});

test('what could still be done in time when the run was stopped is not marked', () => {
  const all = runDeck({ failure: { ...failing, from: -40, to: -5 } });
  let open = 0;
  for (const seed of [...seeds, ...seeds.map((one) => one + 60)]) {
    const start = startOf(all, { seed });
    const course = flown(start, { reacts: 0.7, decides: 0.8, turns: 0.6 });
    if (course.ended !== 'stopped') continue;
    open += due(start.plan, course).length;
    expect(blamed(all, start, course), `seed ${seed}`).toEqual([]);
  }
  expect(open).toBeGreaterThan(3);
});

test('a call far before its speed is a fault where the run was stopped before that speed came', () => {
  const all = runDeck({ failure: { ...failing, from: -8, to: -8 } });
  const start = startOf(all);
  const { plan } = start;
  const early = (knots: number) => {
    let c = begin(plan);
    while (c.ended === null) {
      if (c.asked !== null) c = act(plan, c, 'stop');
      for (const { id } of due(plan, c)) c = act(plan, c, id);
      if (knotsOf(c.motion) >= knots && !Object.hasOwn(c.done, 'rotate')) c = act(plan, c, 'rotate');
      c = advance(plan, c, 1);
    }
    return markedRun(all, start, givenOfCourse(plan, c));
  };
  const far = early(60);
  expect(far.flawed).toBe(true);
  expect(far.detail.extra).toMatchObject([{ text: '“Up”' }]);
  expect(far.detail.never).not.toContain('“Up”');
  expect(far.detail.never).toContain('“V one”');
  // Within its tolerance of the end it may have been in time: nobody knows.
  expect(early((plan.v1 ?? 0) - 8.2)).toMatchObject({ flawed: false, detail: { extra: [] } });
});

test('a wind down the runway gives no speed cue at a standstill', () => {
  const all = runDeck({ aeroplane: AEROPLANE });
  const { plan } = startOf(all, { seat: 'PF' });
  const still = advance({ ...plan, headwind: 95 }, begin({ ...plan, headwind: 95 }), 100);
  expect(knotsOf(still.motion)).toBeGreaterThan(90);
  expect(Object.keys(still.cues)).toEqual(['set']);
  const rolling = advance(plan, act(plan, advance(plan, begin(plan), 10), 'set'), 2000);
  expect(Object.keys(rolling.cues)).toContain('eighty');
});

test('a run that was ended before anything was the learner’s is no faultless one', () => {
  const all = runDeck();
  const start = startOf(all);
  const course: Course = { ...advance(start.plan, begin(start.plan), 1), ended: 'stalled' };
  expect(markedRun(all, start, givenOfCourse(start.plan, course))).toMatchObject({ marks: {}, flawed: true });
});
