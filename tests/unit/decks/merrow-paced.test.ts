import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { resolve } from '../../../src/deck/resolve.ts';
import { type PacedStart, startPaced } from '../../../src/drill/paced.ts';
import { readKey } from '../../../src/drill/world.ts';
import type { Deck, Id } from '../../../src/model/deck.ts';
import { act, advance, begin, type Course, due, rehearsed } from '../../../src/paced/course.ts';
import { feetOf, knotsOf } from '../../../src/paced/motion.ts';
import { stepsPlayed } from '../../../src/subjects/paced/steps.ts';
import { thingsOf } from '../../../src/subjects/things.ts';

/*
 * The take-offs of the invented type that are played in time, as a crew that does all of it in time flies them: over the
 * whole range of the day's speeds and the winds that are drawn. What is plausible for a twin-jet of some 55 t (a run of
 * half a minute, lift-off some 15 kt above VR, a climb near V2 + 15 kt, three to six per cent on one engine) is common
 * practice, no source.
 */

interface Met {
  readonly at: number;
  readonly knots: number;
  readonly feet: number;
}

interface Flight {
  readonly start: PacedStart;
  readonly course: Course;
  /** When each cue came, with speed and height then. */
  readonly met: ReadonlyMap<Id, Met>;
  readonly day: Readonly<Record<'v1' | 'vr' | 'v2', number>>;
}

const SEEDS = 60;

function flights(name: string, paced: Id): Flight[] {
  const deck = JSON.parse(readFileSync(`decks/${name}.deck.json`, 'utf8')) as Deck;
  const resolved = resolve(deck, 'a'.repeat(64), { engine: ['tk11', 'tk14'], operator: ['calder', 'fellwater'] });
  const run = deck.paced?.find(({ id }) => id === paced);
  if (run === undefined) throw new Error(`${name} has no ${paced}`);
  const read = new Map([...stepsPlayed(thingsOf(deck), run).keys()].map((id) => [readKey(deck.id, id), 0]));
  const memory = { items: new Map(), read } as never;
  return Array.from({ length: SEEDS }, (_, seed) => {
    const start = startPaced(resolved, memory, { paced, seat: seed % 2 === 0 ? 'PF' : 'PM', stretch: 1, seed });
    if (start === null) throw new Error(`seed ${seed}: nothing drawn`);
    const met = new Map<Id, Met>();
    let course = begin(start.plan);
    while (course.ended === null) {
      if (course.asked !== null) course = act(start.plan, course, 'go');
      for (const { id } of due(start.plan, course)) course = act(start.plan, course, id);
      course = advance(start.plan, course, 1);
      const { t, ...motion } = course.motion;
      for (const id of Object.keys(course.cues))
        if (!met.has(id)) met.set(id, { at: t, knots: knotsOf({ ...motion, t }), feet: feetOf({ ...motion, t }) });
    }
    return { start, course, met, day: start.shown.drawn as never };
  });
}

const spread = (of: readonly number[]): readonly [number, number] => [Math.min(...of), Math.max(...of)];
const within = (of: readonly number[], from: number, to: number): void => {
  const [least, most] = spread(of);
  expect(least).toBeGreaterThanOrEqual(from);
  expect(most).toBeLessThanOrEqual(to);
};
const at = ({ met }: Flight, id: Id): Met => {
  const one = met.get(id);
  if (one === undefined) throw new Error(`${id} never came`);
  return one;
};
const KNOT = 1852 / 3600;

describe('the take-off of the Merrow 240 with both engines', () => {
  const all = flights('merrow-takeoff', 'take-off-in-time');

  test('comes through, each step of it, in both seats and all variants', () => {
    expect(new Set(all.map(({ start }) => start.variant)).size).toBe(4);
    for (const { start, course } of all) {
      expect(course.ended).toBe('through');
      expect(Object.keys(course.cues).sort()).toEqual(start.plan.steps.map(({ id }) => id).sort());
      expect(rehearsed(start.plan).cues).toEqual(course.cues);
    }
  });

  test('draws the slow and the fast day', () => {
    const [slow, fast] = spread(all.map(({ day }) => day.vr));
    expect(slow).toBeLessThan(127);
    expect(fast).toBeGreaterThan(145);
  });

  test('V1 and VR are called at their speeds, half a minute after the thrust', () => {
    for (const flight of all) {
      expect(at(flight, 'ro-v1').knots).toBeCloseTo(flight.day.v1, 0);
      expect(at(flight, 'ro-rotate').knots).toBeCloseTo(flight.day.vr, 0);
    }
    within(
      all.map((flight) => at(flight, 'ro-v1').at - at(flight, 'st-set').at),
      18,
      40,
    );
  });

  test('it leaves the runway some five seconds and 15 kt after VR, on a runway of usual length', () => {
    const off = all.map(({ course, day }) => {
      if (course.motion.off === null) throw new Error('never off');
      return { over: course.motion.off.air / KNOT - day.vr, metres: course.motion.off.ground };
    });
    within(
      off.map(({ over }) => over),
      8,
      22,
    );
    within(
      off.map(({ metres }) => metres),
      800,
      2300,
    );
  });

  test('the gates come at their heights within half a minute of lift-off, at the speed that the deck asks for', () => {
    for (const flight of all) {
      expect(at(flight, 'rt-turn').feet).toBeCloseTo(450, -1);
      expect(at(flight, 'rt-autopilot').feet).toBeCloseTo(flight.start.variant.includes('fellwater') ? 850 : 550, -1);
    }
    within(
      all.map((flight) => at(flight, 'rt-autopilot').at - (flight.course.moments['lift-off'] ?? 0)),
      10,
      30,
    );
    // Above V2; the band of the deck is 9 to 17.
    within(
      all.map((flight) => at(flight, 'rt-turn').knots - flight.day.v2),
      5,
      24,
    );
  });
});

describe('the take-off on which an engine fails', () => {
  const all = flights('merrow-abnormal', 'engine-failure-in-time');

  test('comes through on one engine, with and without a fire', () => {
    for (const { start, course, day } of all) {
      expect(course.ended).toBe('through');
      expect(course.failed).toBeCloseTo(day.v1, 0);
      expect(Object.keys(course.cues).sort()).toEqual(start.plan.steps.map(({ id }) => id).sort());
    }
    expect(new Set(all.map(({ start }) => start.shown.drawn.fire))).toEqual(new Set([true, false]));
  });

  test('it holds a speed about V2 and climbs more steeply than a twin must', () => {
    const gate = all.map((flight) => at(flight, 'ef-accelerate'));
    within(
      gate.map(({ knots }, i) => knots - (all[i] as Flight).day.v2),
      -6,
      14,
    );
    const gradient = all.map((flight) => {
      const [from, to] = [at(flight, 'ef-drill-call'), at(flight, 'ef-accelerate')];
      return ((to.feet - from.feet) * 0.3048) / ((to.at - from.at) * to.knots * KNOT);
    });
    // CS-25.121(b) asks of two-engined aeroplanes for 2.4 % (from memory).
    within(gradient, 0.024, 0.065);
  });

  test('the gates come at their heights, within three minutes of the failure', () => {
    for (const flight of all) {
      expect(at(flight, 'ef-drill-call').feet).toBeCloseTo(flight.start.variant.includes('fellwater') ? 1050 : 650, -1);
      expect(at(flight, 'ef-accelerate').feet).toBeCloseTo(1750, -1);
    }
    within(
      all.map((flight) => at(flight, 'ef-accelerate').at - (flight.course.moments.failure ?? 0)),
      100,
      200,
    );
  });
});
