import { describe, expect, test } from 'vitest';
import { pacedChoices, startPaced } from '../../../src/drill/paced.ts';
import { act, advance, begin, due, givenOfCourse, giveUp, toNextCue } from '../../../src/paced/course.ts';
import { knotsOf } from '../../../src/paced/motion.ts';
import { forceLeft, KNOT } from '../../../src/subjects/paced/force.ts';
import {
  AEROPLANE,
  DECK,
  markedAs,
  markedRun,
  played,
  procedureOf,
  readAll,
  runDeck,
  STEPS,
  startOf,
  timings,
} from './runs.ts';

const all = runDeck();

describe('a run', () => {
  test('cues come at the speed, after the step, at the moment, and after the wait that the deck says', () => {
    const start = startOf(all);
    const { cues, played: others, motion } = played(start);
    expect(start.shown.scene[0]).toMatch(/^Lined up\. V1 1[12]\d kt, VR 1[23]\d kt$/);
    expect(Object.keys(cues).sort()).toEqual(STEPS.map((one) => ('id' in one ? one.id : '')).sort());
    expect(cues.checked).toBeCloseTo((others.set ?? 0) + 4, 1);
    expect(cues.wait).toBeCloseTo((cues.lever ?? 0) + 5, 1);
    expect(others.answer).toBeCloseTo((cues.eighty ?? 0) + 0.6, 1);
    expect(motion.off).not.toBeNull();
    const at = advance(start.plan, begin(start.plan), Math.round((cues.eighty ?? 0) / 0.02));
    expect(knotsOf(at.motion)).toBeGreaterThan(89);
    expect(knotsOf(at.motion)).toBeLessThan(91);
  });

  test('where its mass goes with a speed of the day it is flown as heavy as that', () => {
    const heavy = { ...AEROPLANE, massAt: { speed: 'vr', value: 65 } };
    const start = startOf(runDeck({ aeroplane: heavy }));
    const mass = 50_000 * (Number(start.shown.drawn.vr) / 65) ** 2;
    expect(start.plan.paced.aeroplane.mass).toBeCloseTo(mass, 6);
  });

  test('who does everything at its cue is right in all of it, and that is no guess', () => {
    const start = startOf(all);
    const { marks, g, flawed, detail } = markedAs(all, start);
    expect(timings(detail)).toEqual([
      'checked in-time',
      'eighty in-time',
      'vee in-time',
      'rotate in-time',
      'climb in-time',
      'lever in-time',
      'wait in-time',
    ]);
    expect(new Set(Object.values(marks))).toEqual(new Set(['right']));
    expect(flawed).toBe(false);
    expect(g).toBeCloseTo(1 / 6 ** 7, 12);
    // Cues that the program tells (both gauges steady) are not asked.
    expect(Object.keys(marks).some((key) => key.includes('#checked.cue'))).toBe(false);
    expect(Object.keys(marks).some((key) => key.includes('#vee.cue'))).toBe(true);
    expect(Object.keys(marks).some((key) => key.includes('#set.') || key.includes('#gear.'))).toBe(false);
  });

  test.each([
    ['vee', -1.5, 'early'],
    ['vee', -0.9, 'in-time'],
    ['vee', 1.9, 'in-time'],
    ['vee', 2.5, 'late'],
    ['eighty', null, 'missing'],
  ] as const)('%s at %s s from its cue is %s', (id, off, timing) => {
    const { marks, flawed, detail } = markedAs(all, startOf(all), (one) => (one === id ? off : 0));
    expect(timings(detail)).toContain(`${id} ${timing}`);
    expect(flawed).toBe(timing !== 'in-time');
    const of = (facet: string) => Object.entries(marks).find(([key]) => key.includes(`#${id}.${facet}~`))?.[1];
    expect(of('cue')).toBe(timing === 'in-time' ? 'right' : timing === 'missing' ? 'told' : 'wrong');
    // What was said at the wrong moment were the right words all the same.
    expect(of('words')).toBe(timing === 'missing' ? 'told' : 'right');
  });

  test('an answer before what it answers is too early, however little', () => {
    const start = startOf(all, { seat: 'PF' });
    const given = givenOfCourse(start.plan, played(start));
    const called = given.played.eighty ?? 0;
    const acts = given.acts.map((one) => (one.id === 'answer' ? { ...one, at: called - 0.3 } : one));
    const { detail, marks } = markedRun(all, start, { ...given, acts });
    expect(timings(detail)).toContain('answer early');
    expect(Object.entries(marks).find(([key]) => key.includes('#answer.place'))?.[1]).toBe('wrong');
  });

  test('what is not the learner’s, or done twice, is extra', () => {
    const { detail, flawed, g } = markedAs(all, startOf(all), undefined, [
      { id: 'gear', at: 10 },
      { id: 'stranger-take-off-1', at: 12 },
      { id: 'checked', at: 20 },
    ]);
    expect(detail.extra.map(({ text }) => text)).toEqual([
      'text of gear',
      'text of stranger-take-off-1',
      '“Power set”',
    ]);
    expect(flawed).toBe(true);
    expect(g).toBeCloseTo(1 / 6, 12);
  });

  test('a step that is not done keeps nobody waiting: the run goes on', () => {
    const pf = startOf(all, { seat: 'PF' });
    const { cues, ended, moments } = played(pf, (id) => (id === 'set' || id === 'nose' ? null : 0));
    expect(ended).toBe('through');
    expect(moments['lift-off']).toBeGreaterThan(0);
    expect(cues.lever).toBeGreaterThan(cues.climb ?? 0);
  });

  test('the nose is not raised before its cue, however early it is tapped', () => {
    const start = startOf(all, { seat: 'PF' });
    let c = advance(start.plan, begin(start.plan), 100);
    c = act(start.plan, c, 'nose');
    c = advance(start.plan, c, 500);
    expect(c.motion.pitch).toBe(0);
  });

  test('time in pieces is time in one', () => {
    const { plan } = startOf(all);
    let pieces = begin(plan);
    for (const n of [1, 7, 300, 92, 1000, 600]) pieces = advance(plan, pieces, n);
    expect(pieces).toEqual(advance(plan, begin(plan), 2000));
  });
});

describe('untimed', () => {
  test('it waits at each own step until it is done or given up', () => {
    const { plan, ...start } = startOf(all, { stretch: 0 });
    let c = toNextCue(plan, begin(plan));
    const met: string[] = [];
    while (c.ended === null) {
      const [first] = due(plan, c);
      if (first === undefined) throw new Error('nothing to wait for');
      met.push(first.id);
      expect(toNextCue(plan, c)).toBe(c);
      c = toNextCue(plan, first.id === 'vee' ? giveUp(plan, c) : act(plan, c, first.id));
    }
    expect(met).toEqual(['checked', 'eighty', 'vee', 'rotate', 'climb', 'lever', 'wait']);
    const { detail } = markedRun(all, { ...start, plan }, givenOfCourse(plan, c));
    expect(timings(detail).filter((one) => !one.endsWith('in-time'))).toEqual(['vee missing']);
  });
});

describe('an engine fails', () => {
  const failure = { condition: 'out', speed: 'v1', share: 1, from: 2, to: 2 } as const;
  test('beyond V1 the run goes on, with what then holds; before it the other', () => {
    const steps = [
      ...STEPS.slice(0, 6),
      { if: '!out', steps: [{ id: 'fast', by: 'PM', say: 'Both', cue: { day: 'vr' } }] },
      { if: 'out', steps: [{ id: 'slow', by: 'PM', say: 'One', cue: { day: 'vr' } }] },
      ...STEPS.slice(6),
    ];
    const deck = runDeck({ failure }, steps);
    const start = startOf(deck);
    const course = played(start);
    expect(course.ended).toBe('through');
    expect(course.cues.slow).toBeGreaterThan(0);
    expect(course.cues.fast).toBeUndefined();
    const { detail, flawed } = markedRun(deck, start, givenOfCourse(start.plan, course));
    expect(detail.decision).toMatchObject({ right: 'go', given: 'go' });
    expect(flawed).toBe(false);
    // Half the thrust: later off the ground than with all of it.
    expect(course.moments.climbing).toBeGreaterThan(played(startOf(runDeck())).moments.climbing ?? 0);
  });

  test('below V1 the run ends at the decision', () => {
    const deck = runDeck({ failure: { ...failure, from: -8, to: -8 } });
    const start = startOf(deck);
    const course = played(start);
    expect(course.ended).toBe('stopped');
    expect(course.cues.vee).toBeUndefined();
    const { detail } = markedRun(deck, start, givenOfCourse(start.plan, course));
    expect(detail.decision).toMatchObject({ right: 'stop', given: 'stop' });
    expect(detail.never).toContain('“V one”');
    const silent = advance(start.plan, begin(start.plan), 5000);
    expect(silent.ended).toBe('stopped');
    expect(markedRun(deck, start, givenOfCourse(start.plan, silent)).detail.decision).toEqual({
      right: 'stop',
      speed: detail.decision?.speed,
    });
  });

  test('none fails so close below V1 that it comes before a pilot can act (14 CFR 25.107(a)(2))', () => {
    const deck = runDeck({ failure: { ...failure, from: -12, to: 6 } });
    const { aeroplane } = startOf(deck).plan.paced;
    const off = Array.from({ length: 200 }, (_, seed) => {
      const { plan } = startOf(deck, { seed });
      return (plan.fails ?? Number.NaN) - (plan.v1 ?? Number.NaN);
    });
    // What one second at full thrust gains there, kt.
    const gained = forceLeft(aeroplane, 120, aeroplane.engines, 'ground') / aeroplane.mass / KNOT;
    expect(gained).toBeGreaterThan(2);
    const below = off.filter((kt) => kt < 0);
    expect(Math.max(...below)).toBeLessThan(-0.9 * gained);
    expect(Math.min(...below)).toBeLessThan(-11);
    // Both sides by their share of what is left.
    expect(below.length / off.length).toBeCloseTo((12 - gained) / (18 - gained), 1);
    expect(Math.max(...off)).toBeGreaterThan(5);
    expect(Math.max(...off)).toBeLessThanOrEqual(6);
    // Where the author leaves nothing else.
    for (const [from, to, at] of [
      [-1, -0.5, 0],
      [-1, 0, 0],
      [-9, -9, -9],
      [3, 3, 3],
    ] as const) {
      const { plan } = startOf(runDeck({ failure: { ...failure, from, to } }));
      expect((plan.fails ?? 0) - (plan.v1 ?? 0)).toBeCloseTo(at, 6);
    }
  });

  test('where the deck has a call at the failure, that ends it', () => {
    const stop = { id: 'stop-call', by: 'PM', say: 'Stop', cue: { event: 'out' } };
    const deck = runDeck({ failure: { ...failure, from: -8, to: -8 } }, [
      ...STEPS.slice(0, 4),
      { ...stop, if: 'out' },
      ...STEPS.slice(4),
    ]);
    const start = startOf(deck);
    const { detail } = markedAs(deck, start);
    expect(played(start).ended).toBe('stopped');
    expect(detail.decision).toBeUndefined();
    expect(timings(detail)).toContain('stop-call in-time');
  });
});

describe('bad input', () => {
  test('cues that never come: the run ends by itself, and they count for nothing', () => {
    const deck = runDeck({}, [...STEPS, { id: 'high', by: 'PM', say: 'Too fast', cue: { limit: 'never' } }], {
      limits: [
        ...(DECK.limits ?? []),
        { id: 'never', ask: 'Never', unit: 'kt', sense: 'exactly', value: 900, source: 'inv' },
      ],
    });
    const start = startOf(deck);
    const course = played(start);
    expect(course.ended).toBe('stalled');
    const { detail, marks, flawed } = markedRun(deck, start, givenOfCourse(start.plan, course));
    expect(detail.never).toEqual(['“Too fast”']);
    expect(Object.keys(marks).some((key) => key.includes('#high.'))).toBe(false);
    expect(flawed).toBe(false);
  });

  test('a procedure without callouts, without crew, of one step', () => {
    const deck = runDeck({ cues: [], sets: 'only' }, [{ id: 'only', do: 'Set take-off thrust' }]);
    expect(pacedChoices(deck, readAll(deck))[0]?.seats).toEqual([]);
    const start = startOf(deck, { seat: null });
    expect(start.shown.seat).toBe('');
    const { detail, marks } = markedAs(deck, start);
    expect(timings(detail)).toEqual(['only in-time']);
    // One step has no place, no words, no cue that is asked: nothing to be marked, and nothing is.
    expect(marks).toEqual({});
  });

  test('what was not read is not played, and it is said which', () => {
    const nothing = { items: new Map(), read: new Map() };
    expect(pacedChoices(all, nothing)[0]?.unread).toEqual([{ id: 'take-off', title: 'Take-off' }]);
    expect(startPaced(all, nothing, { paced: 'in-time', seat: 'PM', stretch: 1, seed: 1 })).toBeNull();
    expect(pacedChoices(all, readAll(all))[0]?.unread).toEqual([]);
  });

  test('of another deck, or of a run that is gone, nothing is marked', () => {
    const start = startOf(all);
    const given = givenOfCourse(start.plan, played(start));
    const gone = runDeck({ id: 'another' });
    expect(markedRun(gone, start, given).marks).toEqual({});
    const renamed = runDeck({ procedures: ['roll'] }, STEPS, { procedures: [procedureOf(STEPS, { id: 'roll' })] });
    expect(markedRun(renamed, start, given).marks).toEqual({});
    expect(new Set(Object.values(markedRun(all, start, null).marks))).toEqual(new Set(['told']));
  });
});
