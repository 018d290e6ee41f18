import { describe, expect, test } from 'vitest';
import { APART } from '../../../src/drill/compose.ts';
import { afterReading, type DrillEntry, type DrillEvent, reduce, startSession } from '../../../src/drill/session.ts';
import type { Asking, Session, Told } from '../../../src/drill/types.ts';
import type { World } from '../../../src/drill/world.ts';
import { MARKER_VERSION } from '../../../src/forms/registry.ts';
import type { Limit } from '../../../src/model/deck.ts';
import type { AnswerEntry, VoidEntry } from '../../../src/model/entry.ts';
import type { Resolved } from '../../../src/subjects/resolved.ts';
import { flow, resolved } from '../forms/small-decks.ts';
import { FIRST_DAY, knowsAll, type Practice, practiceOf, rightAnswer } from './practice.ts';

const limits = (n: number, value = 100): Limit[] =>
  [...Array(n).keys()].map(
    (i) =>
      ({
        id: `limit-${i}`,
        ask: `Speed ${'abcdefghijkl'[i]}?`,
        unit: 'kt',
        sense: 'at most',
        value: value + i,
      }) as Limit,
  );
const DECK = resolved({ limits: limits(10), procedures: [flow(4)] });

const START = { id: 'd1', course: 'fictional', started: 0, seconds: 600, seed: 3 };

/** A drill at its first question, everything read before. */
const atQuestion = (deck: Resolved = DECK): { practice: Practice; world: World; session: Session } => {
  const practice = practiceOf([deck]);
  for (const { deck: id, thing } of deck.items.values()) practice.memory.read.set(`${id}#${thing}`, FIRST_DAY - 1);
  const world = practice.world(0);
  return { practice, world, session: startSession(START, world) };
};
const asking = ({ now }: Session): Asking => {
  if (now.kind !== 'ask') throw new Error(`${now.kind}, not a question`);
  return now;
};
const told = ({ now }: Session): Told => {
  if (now.kind !== 'verdict') throw new Error(`${now.kind}, not a verdict`);
  return now;
};
const DONT_KNOW = { k: 'answer', given: null, sure: null, unsure: [], ms: 4200 } as const satisfies DrillEvent;

/** Answers what is asked, and lets it be stored. */
const answered = (practice: Practice, world: World, session: Session, event: DrillEvent = DONT_KNOW): Session => {
  const { session: next, entry } = reduce(session, event, world);
  const { id, outcome } = practice.write(entry as DrillEntry);
  return reduce(next, { k: 'stored', entry: id, outcome }, world).session;
};

describe('an answer', () => {
  test('becomes an entry of the log with facts, and no verdict', () => {
    const { world, session } = atQuestion();
    const now = asking(session);
    const given = rightAnswer(now, world);
    const { entry } = reduce(
      session,
      { k: 'answer', given, sure: false, unsure: ['s1'], ms: 4200.4, help: 'assistive' },
      world,
    );
    const { k, drill, deck, form, about, variant, shown, ms, mv, marks, g, sure, unsure, help } = entry as AnswerEntry;
    expect({ k, drill, deck, form, about, variant, shown, ms, mv, sure, unsure, help }).toEqual({
      k: 'answer',
      drill: 'd1',
      deck: DECK.ref,
      form: now.offer.form,
      about: now.offer.about,
      variant: '',
      shown: now.shown,
      ms: 4200,
      mv: MARKER_VERSION,
      sure: false,
      unsure: ['s1'],
      help: 'assistive',
    });
    expect(Object.keys(marks)).toEqual(now.offer.proves);
    expect(new Set(Object.values(marks))).toEqual(new Set(['right']));
    expect(g).toBeGreaterThanOrEqual(0);
    expect(JSON.stringify(entry)).not.toMatch(/verdict|sound|fluent/);
  });

  test('names unsure steps only where it is not sure', () => {
    const { world, session } = atQuestion();
    const given = rightAnswer(asking(session), world);
    const { entry } = reduce(session, { k: 'answer', given, sure: true, unsure: ['s1'], ms: 1 }, world);
    expect(entry).not.toHaveProperty('unsure');
    expect(entry).not.toHaveProperty('help');
    expect(entry).not.toHaveProperty('flawed');
  });

  test("Don't know takes back what was entered, and shows the answer", () => {
    const { world, session } = atQuestion();
    const given = rightAnswer(asking(session), world);
    const { session: next, entry } = reduce(session, { ...DONT_KNOW, given }, world);
    expect((entry as AnswerEntry).given).toBe(null);
    expect(new Set(Object.values((entry as AnswerEntry).marks))).toEqual(new Set(['told']));
    expect(told(next).given).toBe(null);
  });

  test('has its verdict once it is stored', () => {
    const { practice, world, session } = atQuestion();
    const { session: pending, entry } = reduce(session, DONT_KNOW, world);
    expect(told(pending)).toMatchObject({ entry: null, verdicts: {} });
    const { id, outcome } = practice.write(entry as DrillEntry);
    const after = reduce(pending, { k: 'stored', entry: id, outcome }, world).session;
    expect(told(after)).toMatchObject({ entry: id, verdicts: outcome?.verdicts });
    expect(after.answered).toHaveLength(1);
    expect(after.answered[0]).toMatchObject({ entry: id, verdicts: outcome?.verdicts, ms: 4200 });
    // Stored twice is stored once.
    expect(reduce(after, { k: 'stored', entry: 'x.9', outcome: null }, world).session).toEqual(after);
  });

  test('is missed where it was wrong, also when the memory cannot say yet what it did', () => {
    const { world, session } = atQuestion();
    const { session: pending } = reduce(session, DONT_KNOW, world);
    const after = reduce(pending, { k: 'stored', entry: 't.1', outcome: null }, world).session;
    expect(new Set(Object.values(told(after).verdicts))).toEqual(new Set(['missed']));
    expect(after.back.map(({ key }) => key)).toEqual(asking(session).offer.proves);
  });

  test('that never reached the log is asked again as it stood', () => {
    const { world, session } = atQuestion();
    const now = asking(session);
    const given = { order: ['s2', 's0'] };
    const run = now.shown.form === 'run';
    const drafted = reduce(session, { k: 'draft', draft: run ? given : { typed: ['1', '2'] } }, world).session;
    const { session: pending } = reduce(
      drafted,
      { k: 'answer', given: run ? given : { typed: ['1', '2'], value: [1, 2] }, sure: true, unsure: [], ms: 900 },
      world,
    );
    const again = reduce(pending, { k: 'unstored' }, world).session;
    expect(asking(again)).toEqual({ ...asking(drafted), elapsed: 900 });
    expect(again.answered).toEqual([]);
  });
});

describe('after the verdict', () => {
  test('a mis-tap voids the answer, and its items come back after five others, in another question or draw', () => {
    const { practice, world, session } = atQuestion();
    const first = asking(session);
    const at = answered(practice, world, session, {
      k: 'answer',
      ...knowsAll(first, world),
      unsure: [],
      ms: 1000,
    } as DrillEvent);
    const { session: voided, entry } = reduce(at, { k: 'void', why: 'mis-tap' }, world);
    expect(entry).toEqual({ k: 'void', drill: 'd1', of: told(at).entry, why: 'mis-tap' });
    expect(told(voided).voided).toBe('mis-tap');
    expect(voided.answered[0]?.voided).toBe('mis-tap');
    // Once only.
    expect(reduce(voided, { k: 'void', why: 'query' }, world)).toEqual({ session: voided });

    let now = reduce(voided, { k: 'next' }, world).session;
    let others = 0;
    while (!asking(now).offer.proves.some((key) => first.offer.proves.includes(key))) {
      others += 1;
      const next = { k: 'answer', ...knowsAll(asking(now), world), unsure: [], ms: 1000 } as DrillEvent;
      now = reduce(answered(practice, world, now, next), { k: 'next' }, world).session;
    }
    expect(others).toBe(APART);
  });

  test('a query voids it too, with its note, and it is not put again today', () => {
    const { practice, world, session } = atQuestion();
    const first = asking(session);
    const at = answered(practice, world, session);
    expect(at.back.length).toBeGreaterThan(0);
    const { session: voided, entry } = reduce(at, { k: 'void', why: 'query', note: '  Not in revision 7.  ' }, world);
    expect(entry as VoidEntry).toMatchObject({ why: 'query', note: 'Not in revision 7.' });
    expect(voided.back).toEqual([]);
    let now = reduce(voided, { k: 'next' }, world).session;
    for (let i = 0; now.now.kind === 'ask'; i++) {
      expect(i).toBeLessThan(60);
      expect(now.now.offer.proves.some((key) => first.offer.proves.includes(key))).toBe(false);
      const next = { k: 'answer', ...knowsAll(now.now, world), unsure: [], ms: 1000 } as DrillEvent;
      now = reduce(answered(practice, world, now, next), { k: 'next' }, world).session;
    }
    expect(now.now).toEqual({ kind: 'done', why: 'empty' });
  });

  test('nothing can be voided before it is stored', () => {
    const { world, session } = atQuestion();
    const { session: pending } = reduce(session, DONT_KNOW, world);
    expect(reduce(pending, { k: 'void', why: 'mis-tap' }, world)).toEqual({ session: pending });
  });
});

describe('time', () => {
  test('is what the app says was visible; of a question it counts for the answer', () => {
    const { world, session } = atQuestion();
    const later = reduce(session, { k: 'time', seconds: 7.5 }, world).session;
    expect(later.used).toBe(7.5);
    expect(asking(later).elapsed).toBe(7500);
    for (const seconds of [0, -3, Number.NaN, Number.POSITIVE_INFINITY])
      expect(reduce(later, { k: 'time', seconds }, world).session).toEqual(later);
  });
  test('that is used up ends the drill at the next question, not within one', () => {
    const { practice, world, session } = atQuestion();
    const over = reduce(session, { k: 'time', seconds: 700 }, world).session;
    expect(over.now.kind).toBe('ask');
    const next = reduce(answered(practice, world, over), { k: 'next' }, world).session;
    expect(next.now).toEqual({ kind: 'done', why: 'time' });
    expect(reduce(next, { k: 'time', seconds: 5 }, world).session).toEqual(next);
  });
});

test('enough is enough at any moment, and does not undo an end', () => {
  const { practice, world, session } = atQuestion();
  const done = reduce(session, { k: 'enough' }, world).session;
  expect(done.now).toEqual({ kind: 'done', why: 'enough' });
  const over = { ...session, now: { kind: 'done', why: 'time' } } as Session;
  expect(reduce(over, { k: 'enough' }, world).session).toEqual(over);
  // Said while an answer was on its way into the log: it still counts.
  const { session: pending, entry } = reduce(session, DONT_KNOW, world);
  const stopped = reduce(pending, { k: 'enough' }, world).session;
  const { id, outcome } = practice.write(entry as DrillEntry);
  const stored = reduce(stopped, { k: 'stored', entry: id, outcome }, world).session;
  expect(stored.now).toEqual({ kind: 'done', why: 'enough' });
  expect(stored.answered[0]?.entry).toBe(id);
});

test('events that do not fit what is shown change nothing', () => {
  const { world, session } = atQuestion();
  const events: DrillEvent[] = [
    { k: 'read' },
    { k: 'next' },
    { k: 'stored', entry: 't.1', outcome: null },
    { k: 'unstored' },
    { k: 'void', why: 'mis-tap' },
    { k: 'resume' },
  ];
  for (const event of events) expect(reduce(session, event, world)).toEqual({ session });
  const { session: verdict } = reduce(session, DONT_KNOW, world);
  expect(reduce(verdict, { k: 'draft', draft: { order: [] } }, world)).toEqual({ session: verdict });
  expect(reduce(verdict, DONT_KNOW, world)).toEqual({ session: verdict });
});

describe('taken up again', () => {
  const other = resolved({ id: 'calder/other', limits: limits(6, 300) });
  const without = (world: World): World => ({ ...world, decks: [other] });
  const both = () => {
    const { practice, session } = atQuestion();
    return { practice, session, world: { ...practice.world(0), decks: [DECK, other] } };
  };

  test('it is exactly where it was', () => {
    const { world, session } = atQuestion();
    const drafted = reduce(session, { k: 'draft', draft: { order: ['s2'] } }, world).session;
    const kept = JSON.parse(JSON.stringify(drafted)) as Session;
    expect(reduce(kept, { k: 'resume' }, world)).toEqual({ session: drafted });
  });

  test('a question of a deck that is gone is left out, and said so; the others go on', () => {
    const { world, session } = both();
    for (const event of [{ k: 'resume' }, DONT_KNOW] as const) {
      const { session: next, said, entry } = reduce(session, event, without(world));
      expect(said).toBe('gone');
      expect(entry).toBe(undefined);
      expect(next.now.kind).toBe('read');
      expect(next.now.kind === 'read' && next.now.deck).toBe(other.ref);
      expect(next.answered).toEqual([]);
    }
  });

  test('nothing is left: the drill is over', () => {
    const { world, session } = both();
    const { session: next, said } = reduce(session, { k: 'resume' }, { ...world, decks: [] });
    expect([next.now, said]).toEqual([{ kind: 'done', why: 'empty' }, 'gone']);
  });

  test('what was to be read of a deck that is gone is left out too', () => {
    const practice = practiceOf([DECK]);
    const session = startSession(START, practice.world(0));
    expect(session.now.kind).toBe('read');
    for (const event of [{ k: 'resume' }, { k: 'read' }] as const) {
      const { said, entry, session: next } = reduce(session, event, without(practice.world(0)));
      expect([said, entry]).toEqual(['gone', undefined]);
      expect(next.now.kind).toBe('read');
    }
  });

  test('another revision is another deck', () => {
    const { practice, session } = atQuestion();
    const revised = resolved({ limits: limits(10, 200), procedures: [flow(4)] });
    const newer = { ...revised, ref: `${revised.deck.id}@${'d'.repeat(16)}` };
    const { said, session: next } = reduce(session, { k: 'resume' }, { ...practice.world(0), decks: [newer] });
    expect(said).toBe('gone');
    expect(next.now.kind === 'done' ? '' : next.now.deck).toBe(newer.ref);
  });

  test('a question of a variant that is not flown any more is left out', () => {
    const variants = [{ id: 'engine', label: 'Engine', options: { a: 'A', b: 'B' } }];
    const content = {
      variants,
      limits: [
        {
          id: 'n1',
          ask: 'N1?',
          unit: '%',
          sense: 'about',
          cases: [
            { id: 'a', when: { engine: ['a'] }, value: 40 },
            { id: 'b', when: { engine: ['b'] }, value: 50 },
          ],
        } as unknown as Limit,
      ],
    };
    const flown = resolved(content, { engine: ['a'] });
    const { practice, session } = atQuestion(flown);
    expect(asking(session).offer.variant).toBe('engine=a');
    const changed = resolved(content, { engine: ['b'] });
    for (const event of [{ k: 'resume' }, { ...DONT_KNOW }] as const)
      expect(reduce(session, event, { ...practice.world(0), decks: [changed] }).said).toBe('gone');
  });

  test('a question named after such a variant is left out too, though another variant asks the same', () => {
    const variants = [{ id: 'engine', label: 'Engine', options: { a: 'A', b: 'B' } }];
    const content = { variants, limits: limits(2) };
    const { practice, session } = atQuestion(resolved(content, { engine: ['a'] }));
    const changed = resolved(content, { engine: ['b'] });
    expect(asking(session).offer.proves.every((key) => changed.items.has(key))).toBe(true);
    const { said, session: next } = reduce(session, { k: 'resume' }, { ...practice.world(0), decks: [changed] });
    expect(said).toBe('gone');
    expect(asking(next).offer.variant).toBe('engine=b');
  });

  test('a verdict is still there to be read when its deck is gone', () => {
    const { practice, session, world } = both();
    const at = answered(practice, world, session);
    expect(reduce(at, { k: 'resume' }, without(world))).toEqual({ session: at });
    const next = reduce(at, { k: 'next' }, without(world)).session;
    expect(next.now.kind === 'read' && next.now.deck).toBe(other.ref);
  });
});

test('reading is logged, and followed by a question about what was read', () => {
  const practice = practiceOf([DECK]);
  const world = practice.world(0);
  const session = startSession(START, world);
  if (session.now.kind !== 'read') throw new Error('nothing to read');
  const { things } = session.now;
  const { session: reading, entry } = reduce(session, { k: 'read' }, world);
  expect(entry).toEqual({ k: 'read', drill: 'd1', deck: DECK.ref, about: things });
  // Until the log has it, it stays on the screen.
  expect(reading.now).toEqual(session.now);
  practice.write(entry as DrillEntry);
  const after = afterReading(reading, world);
  expect(asking(after).offer.proves.every((key) => things.includes(DECK.items.get(key)?.thing ?? ''))).toBe(true);
  expect(after.met.map((key) => DECK.items.get(key)?.thing)).toEqual(things);
  expect(afterReading(after, world)).toEqual(after);
});
