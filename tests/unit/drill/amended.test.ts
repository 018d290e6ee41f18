import { describe, expect, test } from 'vitest';
import { changedItems } from '../../../src/deck/amend.ts';
import { resolve } from '../../../src/deck/resolve.ts';
import { compose } from '../../../src/drill/compose.ts';
import { reduce, startSession } from '../../../src/drill/session.ts';
import { allOffers, checkDayOf, mayAsk, readDay } from '../../../src/drill/world.ts';
import type { Deck } from '../../../src/model/deck.ts';
import type { Resolved } from '../../../src/subjects/resolved.ts';
import { planFor } from './plans.ts';
import { FIRST_DAY, knowsAll, play, practiceOf, resolvedDeck } from './practice.ts';

/** Invented limits; the one changed stands last. */
const deckOf = (last: number, hash: string): Resolved =>
  resolve(
    {
      format: 1,
      id: 'calder/many',
      version: '1.0.0',
      title: 'Many',
      language: 'en',
      nature: 'fictional',
      sources: [],
      limits: [...Array(30).keys()].map((i) => ({
        id: `l${i}`,
        ask: `Speed ${i}?`,
        unit: 'kt',
        sense: 'exactly',
        value: i === 19 ? last : 100 + i,
      })),
    } as Deck,
    hash.repeat(64),
    {},
  );

describe('what was amended', () => {
  const [before, after] = [deckOf(200, 'a'), deckOf(300, 'b')];
  const amended = changedItems(after, [before]);
  const [key] = [...amended];

  /** Twenty limits met with the old revision; the others new. */
  const met = () => {
    const practice = practiceOf([before]);
    const days = [0, 1].map((day) => play(practice, day, knowsAll, { course: 'fictional', seconds: 400 }));
    expect(days[1]?.asked.length).toBeGreaterThan(5);
    return practice;
  };

  test('is read anew and asked first, ahead of what is due and of all else that is new', () => {
    expect(amended.size).toBe(1);
    const practice = met();
    const old = [...before.items.values()].find(({ thing }) => thing === 'l19');
    const wasRead = practice.memory.read.has(`calder/many#l19`);
    const world = practice.world(30, { decks: [after], amended });
    const start = { id: 'x', course: 'fictional', started: 0, seconds: 600, seed: 7 };
    const session = startSession(start, world);
    expect(session.now).toMatchObject({ kind: 'read', deck: after.ref, things: ['l19'] });
    // Read under the old revision, if at all.
    expect(wasRead).toBe(practice.memory.items.has(old?.key ?? ''));
    const told = reduce(session, { k: 'read' }, world);
    if (told.entry === undefined) throw new Error('nothing written');
    practice.write(told.entry);
    const asked = compose(told.session, world);
    expect(asked).toMatchObject({ kind: 'ask', offer: { proves: [key] } });
    // Without knowing of the amendment something else comes first: the test can fail.
    const plain = startSession(start, practice.world(31, { decks: [after] }));
    expect(plain.now).not.toMatchObject({ things: ['l19'] });
  });

  test('is never asked before it was read by the new revision', () => {
    const practice = met();
    for (const { thing } of before.items.values()) practice.memory.read.set(`calder/many#${thing}`, 0);
    const world = practice.world(30, { decks: [after], amended });
    const [item] = [...after.items.values()].filter((one) => one.key === key);
    if (item === undefined) throw new Error('no item');
    expect(readDay(world, item)).toBeUndefined();
    const { asked, states } = play(practice, 30, knowsAll, { course: 'fictional', decks: [after], amended });
    expect(asked[0]?.offer.proves).toEqual([key]);
    expect(states.findIndex(({ now }) => now.kind === 'read')).toBeLessThan(
      states.findIndex(({ now }) => now.kind === 'ask'),
    );
  });

  describe('with an answer that was right before, and returns', () => {
    /** All met under the first revision, and well known: the value returns after another one. */
    const known = () => {
      const practice = practiceOf([before]);
      for (let day = 0; day < 8; day++) play(practice, day, knowsAll, { course: 'fictional', seconds: 600 });
      return practice;
    };
    const [returned] = changedItems(before, [after, before]);
    const again = new Set([returned ?? '']);
    const ref = { ...before, ref: `calder/many@${'c'.repeat(16)}` };
    const start = { id: 'x', course: 'fictional', started: 0, seconds: 600, seed: 7 };

    test('is read anew and asked first, though it is well known', () => {
      const practice = known();
      const memory = practice.memory.items.get(returned ?? '');
      expect(memory?.rightDays).toBeGreaterThan(0);
      const world = practice.world(8, { decks: [ref], amended: again });
      const session = startSession(start, world);
      expect(session.now).toMatchObject({ kind: 'read', deck: ref.ref, things: ['l19'] });
      const told = reduce(session, { k: 'read' }, world);
      if (told.entry === undefined) throw new Error('nothing written');
      practice.write(told.entry);
      expect(compose(told.session, world)).toMatchObject({ kind: 'ask', offer: { proves: [returned] } });
      expect(practice.memory.items.get(returned ?? '')).toEqual(memory);
      // Without the amendment something else comes first: the test can fail.
      expect(startSession(start, practice.world(8, { decks: [ref] })).now).not.toMatchObject({ things: ['l19'] });
    });

    test('is never asked before it was read, by plan or without, and once in a drill', () => {
      for (const checkDay of [null, FIRST_DAY + 30]) {
        const practice = known();
        const plan = checkDay === null ? null : planFor(practice.world(8, { decks: [ref], checkDay }), 10);
        const { asked, states } = play(practice, 8, knowsAll, {
          course: 'fictional',
          decks: [ref],
          amended: again,
          checkDay,
          plan,
        });
        expect(asked[0]?.offer.proves).toEqual([returned]);
        expect(states[0]?.now).toMatchObject({ kind: 'read', things: ['l19'] });
        expect(asked.filter(({ offer }) => offer.proves.includes(returned ?? ''))).toHaveLength(1);
        const short = play(known(), 8, knowsAll, { course: 'fictional', decks: [ref], amended: again, seconds: 40 });
        expect(short.asked.length).toBeGreaterThan(0);
        expect(short.asked.some(({ offer }) => offer.proves.includes(returned ?? ''))).toBe(false);
      }
    });
  });

  test('no question that proves it too is put before it was read by the new revision', () => {
    const deck = resolvedDeck('merrow-takeoff', { engine: ['tk11'], operator: ['calder'] });
    const practice = practiceOf([deck]);
    const day = FIRST_DAY + 5;
    const often = { s: 20, d: 5, day, at: 0, n: 3, rightDays: 3, lastRightDay: day, first: day - 3, alert: null };
    for (const key of deck.items.keys()) practice.memory.items.set(key, { ...often, verdict: 'sound' });
    const place = [...deck.items.values()].find(({ facet }) => facet === 'place');
    const again = { ...deck, ref: `${deck.deck.id}@${'d'.repeat(16)}` };
    const proving = (amended: ReadonlySet<string>) => {
      const world = practice.world(6, { decks: [again], amended });
      const all = allOffers(world).filter(({ offer }) => offer.proves.includes(place?.key ?? ''));
      return all.filter(({ offer }) => mayAsk(world, offer)).length;
    };
    expect(proving(new Set())).toBeGreaterThan(1);
    expect(proving(new Set([place?.key ?? '']))).toBe(0);
    practice.memory.read.set(`${again.ref}#${place?.thing}`, FIRST_DAY + 6);
    expect(proving(new Set([place?.key ?? '']))).toBe(proving(new Set()));
  });

  test('in the last seconds, when nothing can be read, it is left for the next drill', () => {
    const practice = met();
    const { states } = play(practice, 30, knowsAll, { course: 'fictional', decks: [after], amended, seconds: 40 });
    expect(states.every(({ now }) => now.kind !== 'read')).toBe(true);
  });
});

test('a place that changed is read with the steps around it', () => {
  const before = resolvedDeck('merrow-takeoff', { engine: ['tk11'], operator: ['calder'] });
  const deck = structuredClone(before.deck) as unknown as { procedures: { steps: unknown[] }[] };
  deck.procedures[0]?.steps.splice(1, 0, { id: 'put-in', by: 'PM', do: 'Wipers as needed' });
  const after = resolve(deck as unknown as Deck, 'b'.repeat(64), { engine: ['tk11'], operator: ['calder'] });
  const amended = changedItems(after, [before]);
  expect(amended.size).toBeGreaterThan(0);
  const practice = practiceOf([after]);
  const { now } = startSession(
    { id: 'x', course: 'fictional', started: 0, seconds: 600, seed: 7 },
    practice.world(0, { amended }),
  );
  expect(now).toMatchObject({ kind: 'read', groupKind: 'procedure' });
  const things = now.kind === 'read' ? now.things : [];
  expect([...after.items.values()].some(({ key, thing }) => amended.has(key) && things.includes(thing))).toBe(true);
});

test('what a later revision takes out before the check is no business of the plan', () => {
  const deck = deckOf(200, 'a');
  const world = { ...practiceOf([deck]).world(0), checkDay: 20_999 };
  const [one, two] = [...deck.items.values()];
  if (one === undefined || two === undefined) throw new Error('no items');
  const leaving = new Set([one.key]);
  expect(checkDayOf({ ...world, leaving }, one)).toBeNull();
  expect(checkDayOf({ ...world, leaving }, two)).toBe(20_999);
  expect(checkDayOf(world, one)).toBe(20_999);
});
