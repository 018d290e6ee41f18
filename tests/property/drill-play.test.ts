import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { debrief } from '../../src/drill/debrief.ts';
import { afterReading, type DrillEntry, type DrillEvent, reduce, startSession } from '../../src/drill/session.ts';
import type { Asking, Session } from '../../src/drill/types.ts';
import { walkOf } from '../../src/drill/walk.ts';
import type { World } from '../../src/drill/world.ts';
import { mark } from '../../src/forms/registry.ts';
import { below, type Random, seeded, shuffled } from '../../src/lib/random.ts';
import type { Plan } from '../../src/memory/plan/types.ts';
import type { Given, Shown } from '../../src/model/form.ts';
import type { Flown, Resolved } from '../../src/subjects/resolved.ts';
import { planFor } from '../unit/drill/plans.ts';
import { FIRST_DAY, type Practice, practiceOf, resolvedDeck } from '../unit/drill/practice.ts';

const FLOWN: Flown = { engine: ['tk11', 'tk14'], operator: ['calder'] };
const DECKS = (['merrow-takeoff', 'merrow-abnormal', 'public-rules', 'wind-altimetry'] as const).map((name) =>
  resolvedDeck(name, FLOWN),
);
const COURSES = {
  fictional: DECKS.filter(({ deck }) => deck.nature === 'fictional'),
  real: DECKS.filter(({ deck }) => deck.nature !== 'fictional'),
};

/** Some answer that can be given, right or not. */
const anyGiven = (shown: Shown, random: Random): Given => {
  if (shown.form === 'run') {
    const order = shuffled(
      random,
      shown.chips.map(({ id }) => id),
    );
    return { order: order.slice(0, 1 + below(random, order.length)) };
  }
  if (shown.form === 'slip') return { lines: shown.lines.filter(() => random() < 0.3).map(({ id }) => id) };
  if ('rows' in shown && shown.rows.length > 0) {
    const seat = () => shown.seats[below(random, shown.seats.length)]?.id ?? '';
    return { deal: Object.fromEntries(shown.rows.map(({ id }) => [id, seat()])) };
  }
  const choices = 'choices' in shown ? shown.choices : [];
  const choice = choices[below(random, Math.max(1, choices.length))];
  if (shown.form === 'callout' || shown.form === 'list') {
    const seat = shown.seats[below(random, Math.max(1, shown.seats.length))];
    const words = choice === undefined ? { said: random() < 0.5 ? 'Gear up' : 'some words' } : { choice: choice.id };
    return { ...words, ...(seat !== undefined && { by: seat.id }) };
  }
  if (choice !== undefined) return { choice: choice.id };
  const fields = 'fields' in shown ? shown.fields : [];
  const value = fields.map(() => Math.round(random() * 4000) / 10 - 20);
  return { value, typed: value.map(String) };
};

const CHECK = FIRST_DAY + 4;
const plans = new Map<string, Plan>();
/** Made on the first day for a new learner, and kept on the second. */
const planOf = (course: keyof typeof COURSES): Plan => {
  const before = plans.get(course);
  if (before !== undefined) return before;
  const plan = planFor(practiceOf(COURSES[course]).world(0, { checkDay: CHECK }), 4);
  plans.set(course, plan);
  return plan;
};

interface Course {
  readonly practice: Practice;
  readonly world: World;
  readonly random: Random;
  readonly decks: readonly Resolved[];
}

/** Nothing is asked that was not read or answered before, and at most five new items at once. */
const checkQuestion = ({ practice }: Course, now: Asking, decks: readonly Resolved[]): void => {
  const resolved = decks.find(({ ref }) => ref === now.deck);
  expect(resolved).not.toBe(undefined);
  expect(now.offer.proves.length).toBeGreaterThan(0);
  let fresh = 0;
  for (const key of now.offer.proves) {
    const item = resolved?.items.get(key);
    expect(item).not.toBe(undefined);
    const isMet = practice.memory.items.has(key);
    // Who does a step, and what is said, comes once its place is known.
    if (!isMet && item?.facet !== 'crew' && item?.facet !== 'words') fresh += 1;
    expect(isMet || practice.memory.read.has(`${item?.deck}#${item?.thing}`)).toBe(true);
    if (now.offer.needs === 'right-once') expect(practice.memory.items.get(key)?.rightDays).toBeGreaterThanOrEqual(1);
    if (now.offer.needs === 'two-days') expect(practice.memory.items.get(key)?.rightDays).toBeGreaterThanOrEqual(2);
  }
  expect(fresh).toBeLessThanOrEqual(5);
  for (const key of now.offer.behind ?? []) expect(practice.memory.items.get(key)?.rightDays).toBeGreaterThanOrEqual(1);
};

/** One event of a learner who does anything that the screen lets them do. */
const nextEvent = (session: Session, random: Random): DrillEvent => {
  const { now } = session;
  const roll = random();
  if (roll < 0.15) return { k: 'time', seconds: random() * 40 };
  if (roll < 0.18) return { k: 'resume' };
  if (now.kind === 'read') return { k: 'read' };
  if (now.kind === 'ask') {
    if (roll < 0.3) return { k: 'draft', draft: now.shown.form === 'run' ? { order: [] } : { typed: ['1'] } };
    const sure = ([true, false, null] as const)[below(random, 3)] ?? null;
    const unsure = now.shown.form === 'run' && sure === false ? now.shown.chips.slice(0, 1).map(({ id }) => id) : [];
    return {
      k: 'answer',
      given: sure === null ? null : anyGiven(now.shown, random),
      sure,
      unsure,
      ms: random() * 60_000,
    };
  }
  if (now.kind === 'verdict' && roll < 0.26) return { k: 'void', why: roll < 0.23 ? 'mis-tap' : 'query', note: 'n' };
  return roll > 0.995 ? { k: 'enough' } : { k: 'next' };
};

const asKept = (session: Session): Session => JSON.parse(JSON.stringify(session)) as Session;

/** @returns every state, and every event with what it was made of */
const playAnything = (seed: number, seconds: number, courseName: 'fictional' | 'real', days: number) => {
  const decks = COURSES[courseName];
  const practice = practiceOf(decks);
  const random = seeded(seed);
  let steps = 0;
  for (let day = 0; day < days; day++) {
    practice.at = day * 86_400_000;
    // With neither check nor plan, with a check alone, with both.
    const checkDay = seed % 3 === 0 ? null : CHECK;
    const world = practice.world(day, { checkDay, plan: seed % 3 === 2 ? planOf(courseName) : null });
    const course: Course = { practice, world, random, decks };
    let session = startSession({ id: `d${day}`, course: courseName, started: day, seconds, seed: seed + day }, world);
    for (let turn = 0; session.now.kind !== 'done'; turn++) {
      expect(turn).toBeLessThan(2000);
      steps += 1;
      // What is stored at each tap is the whole of it: the same goes on from what was read back.
      const kept = asKept(session);
      expect(kept).toStrictEqual(session);
      if (session.now.kind === 'ask') checkQuestion(course, session.now, decks);
      if (session.now.kind === 'read') {
        expect(session.now.things.length).toBeLessThanOrEqual(5);
        const resolved = decks.find(({ ref }) => ref === (session.now.kind === 'read' ? session.now.deck : ''));
        const walk = resolved === undefined ? null : walkOf(resolved, session.now);
        expect(walk?.lines.length).toBeGreaterThan(0);
      }
      const event = nextEvent(session, random);
      const { session: next, entry, said } = reduce(session, event, world);
      expect(reduce(kept, event, world)).toStrictEqual({
        session: next,
        ...(entry && { entry }),
        ...(said && { said }),
      });
      expect(said).toBe(undefined);
      session = next;
      if (event.k === 'time') practice.at += event.seconds * 1000;
      if (entry === undefined) continue;
      if (entry.k === 'answer') {
        // The log alone is enough to mark it again.
        const resolved = decks.find(({ ref }) => ref === entry.deck) as Resolved;
        const again = mark(
          resolved,
          { form: entry.form, about: entry.about, variant: entry.variant, proves: [] },
          entry.shown as Shown,
          entry.given as Given | null,
        );
        expect(Object.keys(again.marks).sort()).toEqual(Object.keys(entry.marks).sort());
      }
      const { id, outcome } = practice.write(entry as DrillEntry);
      if (entry.k === 'answer') session = reduce(session, { k: 'stored', entry: id, outcome }, world).session;
      if (entry.k === 'read') session = afterReading(session, world);
      session = reduce(session, { k: 'time', seconds: 2 }, world).session;
    }
    const items = new Map(decks.flatMap((one) => [...one.items]));
    const told = debrief(session.answered, items, practice.memory, world.day, world.checkDay);
    expect(told.questions).toBe(session.answered.filter(({ voided }) => voided === undefined).length);
  }
  return { practice, steps };
};

describe('a drill of anything a learner may do, over all decks', () => {
  test.each(['fictional', 'real'] as const)(
    '%s: never crashes, asks nothing unread, ends, goes on from what was stored',
    (course) => {
      fc.assert(
        fc.property(fc.integer({ min: 0, max: 2 ** 31 - 1 }), fc.constantFrom(60, 240, 600), (seed, seconds) => {
          const { steps, practice } = playAnything(seed, seconds, course, 2);
          expect(steps).toBeGreaterThan(0);
          expect(practice.entries.length).toBeGreaterThan(0);
        }),
        { numRuns: 12, seed: 20_261_125 },
      );
    },
  );

  test('the same seed and the same answers give the same log', () => {
    const log = () => JSON.stringify(playAnything(4711, 240, 'fictional', 2).practice.entries);
    expect(log()).toBe(log());
  });
});
