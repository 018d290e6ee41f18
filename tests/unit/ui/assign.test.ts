import { beforeEach, describe, expect, test } from 'vitest';
import { checkAssignment, readAssignment, writeAssignment } from '../../../src/exchange/assignment.ts';
import { contentId } from '../../../src/exchange/content-id.ts';
import { makeKey, signingKey } from '../../../src/exchange/keys.ts';
import { signDeck } from '../../../src/exchange/signature.ts';
import { signing } from '../../../src/exchange/signing.ts';
import type { Assignment } from '../../../src/model/assignment.ts';
import type { Deck } from '../../../src/model/deck.ts';
import type { Entry } from '../../../src/model/entry.ts';
import { deckLines } from '../../../src/ui/assign/decks.ts';
import {
  type AssignmentDraft,
  assignedRevisions,
  assignmentOf,
  blank,
  draftFrom,
  fileName,
  handedNumbers,
  handedOut,
  toPutRight,
  withDecks,
} from '../../../src/ui/assign/drafts.ts';
import { heldFor, linesOf, standingOf } from '../../../src/ui/assign/lines.ts';
import { type Choices, isOn, knownDecks, setUp, toFetch } from '../../../src/ui/assign/set-up.ts';
import type { DemoDeck, Device, Fetched } from '../../../src/ui/device.ts';
import { accept, incoming, stopChecking, takeText } from '../../../src/ui/models/install.ts';
import { stillLacking } from '../../../src/ui/models/lacking.ts';
import { notYetOpen, openNow } from '../../../src/ui/models/opens.ts';
import { FULL } from '../../fixtures/assignments/arbitrary.ts';
import { type Bench, benchOf, DAY, LIMITS } from './learners.ts';

const step = (id: string) => ({ id, by: 'PF', do: `Do ${id}`, why: 'Because.' });
/** An invented deck with two procedures and an axis of variants. */
const DECK = {
  ...LIMITS,
  id: 'calder/two',
  title: 'Two procedures',
  variants: [{ id: 'engine', label: 'Engine', options: { early: 'Early', late: 'Late' } }],
  crew: [{ id: 'PF', label: 'PF' }],
  procedures: [
    { id: 'first', title: 'First', done: 'memory', steps: ['a', 'b', 'c'].map(step) },
    { id: 'second', title: 'Second', done: 'memory', steps: ['d', 'e', 'f'].map(step) },
  ],
} as unknown as Deck;
const NEXT: Deck = { ...DECK, version: '1.1.0', title: 'Two procedures, amended' };
const ADDRESS = 'https://decks.example/two.deck.json';
const ID = await contentId(JSON.stringify(DECK));

const A: Assignment = {
  recency: 'assignment',
  v: 1,
  id: FULL.id,
  n: 1,
  title: 'Group 3',
  made: '2026-11-25',
  decks: [
    {
      id: DECK.id,
      contentId: ID,
      title: DECK.title,
      version: '1.0.0',
      nature: 'fictional',
      address: ADDRESS,
      variants: { engine: ['late'] },
    },
  ],
  checkDate: '2026-12-14',
  groups: [
    { id: 'g1', name: 'Session 3', things: ['calder/two#first'], checkDate: '2026-12-07' },
    { id: 'g2', name: 'Session 5', things: ['calder/two#second', 'calder/two#one'], opens: '2026-11-28' },
  ],
  minutes: 15,
};
const YEAR = 2026;

let bench: Bench;
beforeEach(async () => {
  const device: Partial<Device> = {
    contentId,
    demoDecks: async () => [],
    check: async (text) => {
      const deck = JSON.parse(text) as Deck;
      return deck.format === 1 ? { deck, findings: [] } : { findings: [] };
    },
    signing: async () => signing,
  };
  // Another deck is in practice before.
  bench = await benchOf(LIMITS, device);
});

const got = (text: string): Fetched => ({ choices: {}, decks: { [ADDRESS]: { text } } });
const opened = async (assignment = A, fetched: Fetched | null = null) => {
  const { learner } = bench;
  const decks = await deckLines(learner, assignment, fetched);
  const lines = linesOf(learner, assignment, knownDecks(learner, assignment, decks), YEAR);
  return { decks, lines, told: lines.map(({ title, from, to }) => `${title}: ${from} → ${to}`) };
};
const settle = async (assignment = A, choices: Choices = {}, fetched: Fetched | null = got(JSON.stringify(DECK))) => {
  const { decks, lines } = await opened(assignment, fetched);
  await setUp(bench.learner, assignment, lines, decks, choices, true);
};
const settings = async () =>
  (await bench.entries()).flatMap((entry) => ((entry as Entry).k === 'set' ? [(entry as { key: string }).key] : []));
const setting = (key: string) => bench.learner.setting(key);

describe('what it will set', () => {
  test('line by line against what is set now; nothing is written by looking', async () => {
    const before = (await bench.entries()).length;
    const { decks, told } = await opened();
    expect(decks.map(({ says, on }) => [says, on])).toEqual([['Version 1.0.0: fetched from decks.example.', true]]);
    expect(toFetch({}, decks)).toEqual([ADDRESS]);
    expect(toFetch({ [DECK.id]: false }, decks)).toEqual([]);
    // Words of the deck once it is there.
    const { told: after } = await opened(A, got(JSON.stringify(DECK)));
    expect(told[0]).toBe('Variants of Two procedures: not told yet → chosen for you, by name once the deck is here');
    expect(told[2]).toBe(
      'Checked on days of their own: none → Session 3 on Monday 7 December (1 procedure, by name once the deck is here)',
    );
    expect(after).toEqual([
      'Variants of Two procedures: not told yet → Engine: Late',
      'Check date: none → Monday 14 December',
      'Checked on days of their own: none → Session 3 on Monday 7 December (First)',
      'Opened later: neither read nor asked before: none → Session 5 (Second, Speed one?) from Saturday 28 November',
      'Minutes a day: 10 → 15',
    ]);
    expect((await bench.entries()).length).toBe(before);
  });

  test('words of a deck that comes with the app are told before it is here', async () => {
    const file = 'two.deck.json';
    const demo = { file, id: DECK.id, title: DECK.title, contentId: ID } as DemoDeck;
    const text = JSON.stringify(DECK);
    bench = await benchOf(LIMITS, { contentId, demoDecks: async () => [demo], demoText: async () => text });
    const { decks, told } = await opened();
    expect(decks.map(({ says }) => says)).toEqual(['Version 1.0.0: comes with the app.']);
    expect(told[0]).toBe('Variants of Two procedures: not told yet → Engine: Late');
    expect(told[2]).toContain('(First)');
    // It is taken all the same where its words could not be had now.
    const failing = async () => Promise.reject(new Error('offline'));
    bench = await benchOf(LIMITS, { contentId, demoDecks: async () => [demo], demoText: failing });
    expect((await opened()).told[0]).toContain('by name once the deck is here');
  });

  test('is set by the keys that practice reads, the record of it last', async () => {
    await settle();
    const { learner } = bench;
    expect(setting('check-date/fictional')).toBe('2026-12-14');
    expect(learner.minutes('fictional')).toBe(15);
    expect(learner.flown(DECK.id)).toMatchObject({ engine: ['late'] });
    expect(setting('check-groups/fictional')).toEqual([
      { id: 'g1', name: 'Session 3', date: '2026-12-07', things: ['calder/two#first'] },
    ]);
    expect(setting('opens/fictional')).toEqual({ 'calder/two#second': '2026-11-28', 'calder/two#one': '2026-11-28' });
    expect(setting('assignment/fictional')).toMatchObject({ id: A.id, n: 1, title: 'Group 3', made: '2026-11-25' });
    expect((await settings()).at(-1)).toBe('assignment/fictional');
    expect(learner.decks.value.find(({ id }) => id === DECK.id)).toMatchObject({ contentId: ID, active: true });
  });

  test('a line that is not ticked stays as it is', async () => {
    await settle(A, { 'minutes/fictional': false, 'variants/calder/two': false });
    expect(bench.learner.minutes('fictional')).toBe(10);
    expect(setting('variants/calder/two')).toBeUndefined();
    expect(setting('check-date/fictional')).toBe('2026-12-14');
  });

  test('variants of other axes, and settings that it does not speak of, stay', async () => {
    await bench.learner.set('variants/calder/two', { seat: ['left'] });
    await bench.learner.set('check-date/fictional', '2026-12-01');
    const { checkDate: _, groups: __, minutes: ___, ...bare } = A;
    await settle(bare);
    expect(setting('variants/calder/two')).toEqual({ seat: ['left'], engine: ['late'] });
    expect(setting('check-date/fictional')).toBe('2026-12-01');
    expect(setting('check-groups/fictional')).toBeUndefined();
  });
});

describe('once more', () => {
  test('the same says so, and an older one too; a later one amends', async () => {
    expect(standingOf(bench.learner, A).is).toBe('new');
    await settle({ ...A, n: 2 });
    expect(standingOf(bench.learner, { ...A, n: 2 }).is).toBe('same');
    expect(standingOf(bench.learner, A)).toMatchObject({ is: 'older', held: { n: 2 } });
    expect(standingOf(bench.learner, { ...A, n: 2, minutes: 20 }).is).toBe('other-same');
    expect(standingOf(bench.learner, { ...A, n: 3 }).is).toBe('amends');
    expect(standingOf(bench.learner, { ...A, id: 'x'.repeat(22) }).is).toBe('new');
  });

  test('what broke off in between is set up by opening it again', async () => {
    const { decks, lines } = await opened(A, got(JSON.stringify(DECK)));
    let writes = 0;
    const { learner } = bench;
    const failing = {
      ...learner,
      set: async (key: string, value: unknown) => {
        writes += 1;
        if (writes === 3) throw new Error('full');
        return learner.set(key, value);
      },
    };
    await expect(setUp(failing, A, lines, decks, {}, true)).rejects.toThrow('full');
    expect(heldFor(learner, 'fictional')).toBeNull();
    expect(standingOf(learner, A).is).toBe('new');
    await settle();
    expect(standingOf(learner, A).is).toBe('same');
    expect(setting('opens/fictional')).toBeDefined();
  });

  test('what the trainee changed since is kept unless they say otherwise', async () => {
    await settle();
    await bench.learner.set('minutes/fictional', 25);
    await bench.learner.set('check-date/fictional', '2026-12-20');
    const next: Assignment = { ...A, n: 2, minutes: 20, checkDate: '2026-12-16', groups: [] };
    const { lines } = await opened(next);
    expect(lines.filter(({ own }) => own).map(({ key }) => key)).toEqual(['check-date/fictional', 'minutes/fictional']);
    await settle(next, { 'check-date/fictional': true });
    expect(bench.learner.minutes('fictional')).toBe(25);
    expect(setting('check-date/fictional')).toBe('2026-12-16');
    // What an assignment set and its amendment does not say goes.
    expect(setting('check-groups/fictional')).toEqual([]);
    expect(setting('opens/fictional')).toEqual({});
    // Still their own when the next comes.
    const { lines: third } = await opened({ ...next, n: 3 });
    expect(third.filter(({ own }) => own).map(({ key }) => key)).toEqual(['minutes/fictional']);
    expect(third.filter((line) => isOn({}, line))).toEqual([]);
  });

  test('with nothing changed nothing is written but the record', async () => {
    await settle();
    const before = (await settings()).length;
    await settle({ ...A, n: 2 });
    expect((await settings()).slice(before)).toEqual(['assignment/fictional']);
  });

  test('a record that is damaged counts as none', async () => {
    for (const value of [null, 'x', 3, [], { id: 1 }, { id: A.id }]) {
      await bench.learner.set('assignment/fictional', value);
      expect(heldFor(bench.learner, 'fictional')).toBeNull();
    }
    await bench.learner.set('assignment/fictional', { id: A.id, n: 1 });
    expect(heldFor(bench.learner, 'fictional')).toMatchObject({ set: {}, title: '' });
    expect(standingOf(bench.learner, A).is).toBe('other-same');
  });
});

describe('its decks', () => {
  const first = async (assignment = A, fetched: Fetched | null = null) => {
    const [line] = (await opened(assignment, fetched)).decks;
    if (line === undefined) throw new Error('no deck');
    return line;
  };
  const bare: Assignment = { ...A, decks: A.decks.map(({ address: _, ...deck }) => deck) };

  test('without an address it is missing, and all else is set', async () => {
    expect(await first(bare)).toMatchObject({ where: { is: 'missing' }, on: null });
    await settle(bare, {}, null);
    expect(setting('check-date/fictional')).toBe('2026-12-14');
    expect(setting('variants/calder/two')).toEqual({ engine: ['late'] });
  });

  test('one that is here is not fetched; one at rest is practised', async () => {
    await settle();
    expect(await first()).toMatchObject({ where: { is: 'here' }, on: null });
    const stored = bench.learner.decks.value.find(({ id }) => id === DECK.id);
    if (stored === undefined) throw new Error('no deck');
    await bench.learner.setActive(stored, false);
    expect(await first()).toMatchObject({ where: { is: 'rest' }, on: true });
    await settle({ ...A, n: 2 }, {}, null);
    expect(bench.learner.practised.value.map(({ deck }) => deck.id)).toContain(DECK.id);
  });

  test('another revision than assigned is said, and taken only by choice', async () => {
    const text = JSON.stringify(NEXT);
    const line = await first(A, got(text));
    expect(line).toMatchObject({ on: false, doubtful: true });
    expect(line.says).toContain('Another revision than assigned: version 1.1.0 was fetched, 1.0.0 is meant.');
    await settle(A, {}, got(text));
    expect(bench.learner.decks.value.some(({ id }) => id === DECK.id)).toBe(false);
    await settle(A, { [DECK.id]: true }, got(text));
    expect(bench.learner.decks.value.find(({ id }) => id === DECK.id)).toMatchObject({ version: '1.1.0' });
    // What is practised is newer than what is assigned: kept unless they say otherwise.
    expect(await first()).toMatchObject({
      on: false,
      says: expect.stringContaining('Version 1.1.0 is practised now.'),
    });
  });

  test('another deck, no deck, and one that could not be fetched are not taken', async () => {
    expect(await first(A, got(JSON.stringify(LIMITS)))).toMatchObject({
      on: null,
      where: { is: 'refused', why: expect.stringContaining('another deck') },
    });
    expect(await first(A, got('{}'))).toMatchObject({
      where: { is: 'refused', why: expect.stringContaining('no deck') },
    });
    const failed: Fetched = { choices: {}, decks: { [ADDRESS]: { why: 'decks.example answered 404.' } } };
    expect(await first(A, failed)).toMatchObject({
      where: { is: 'refused', why: 'decks.example answered 404.', retry: ADDRESS },
    });
  });

  test('a signer never met is looked at before the deck is taken; an unsigned one in place of a signed is refused', async () => {
    const key = await signingKey(await makeKey());
    const signed = await signDeck(DECK, key, { role: 'author', name: 'A. Author', date: '2026-11-25' });
    expect(await first(A, got(JSON.stringify(signed)))).toMatchObject({ on: true, doubtful: true });
    await settle(A, {}, got(JSON.stringify(signed)));
    const next: Assignment = {
      ...A,
      n: 2,
      decks: [{ ...A.decks[0], contentId: await contentId(NEXT), version: '1.1.0' } as (typeof A.decks)[0]],
    };
    expect(await first(next, got(JSON.stringify(NEXT)))).toMatchObject({
      where: { is: 'refused', why: expect.stringContaining('signed by A. Author; this one is not signed') },
    });
  });

  test('one that nobody brought is told as not here, whatever older one is practised, until it is', async () => {
    const { learner } = bench;
    const lacking = () => stillLacking(learner).map(({ title, version }) => `${title} ${version}`);
    await settle();
    expect(lacking()).toEqual([]);
    const decks = [{ ...bare.decks[0], contentId: await contentId(JSON.stringify(NEXT)), version: '1.1.0' }];
    const next = { ...bare, n: 2, decks } as Assignment;
    await settle(next, {}, null);
    expect(learner.practised.value.find(({ deck }) => deck.id === DECK.id)?.deck.version).toBe('1.0.0');
    expect(lacking()).toEqual(['Two procedures 1.1.0']);
    // Also after a reload of the page.
    expect(stillLacking(await bench.again())).toHaveLength(1);
    await takeText(learner, JSON.stringify(NEXT), 'next.json');
    expect(lacking()).toHaveLength(1);
    await accept(learner);
    expect(lacking()).toEqual([]);
  });

  test('one that could not be fetched lacks too; a newer one stands for it, and so does the next assignment', async () => {
    const lacking = () => stillLacking(bench.learner).length;
    await settle(A, {}, { choices: {}, decks: { [ADDRESS]: { why: 'decks.example answered 404.' } } });
    expect(lacking()).toBe(1);
    await takeText(bench.learner, JSON.stringify(NEXT), 'next.json');
    await accept(bench.learner);
    expect(lacking()).toBe(0);
    const other = { ...A, id: 'x'.repeat(22), decks: [{ ...bare.decks[0], id: 'calder/none' }] } as Assignment;
    await settle(other, {}, null);
    expect(lacking()).toBe(1);
    await settle({ ...A, id: 'y'.repeat(22) }, {}, null);
    expect(lacking()).toBe(0);
  });

  test('what the trainee left out of what could be had is not lacking; another revision that they left out is', async () => {
    await settle(A, { [DECK.id]: false });
    expect(stillLacking(bench.learner)).toEqual([]);
    await settle({ ...A, n: 2 }, { [DECK.id]: false }, got(JSON.stringify(NEXT)));
    expect(stillLacking(bench.learner)).toHaveLength(1);
    for (const lacking of [null, 7, [null], [{ id: DECK.id }], [{ ...A.decks[0], version: 1 }]]) {
      await bench.learner.set('assignment/fictional', { id: A.id, n: 3, lacking });
      expect(stillLacking(bench.learner)).toEqual([]);
    }
  });

  test('one that comes with the app needs no address', async () => {
    bench.device.demoDecks = async () => [
      { file: 'two.deck.json', id: DECK.id, version: '1.0.0', title: DECK.title, contentId: ID },
    ];
    bench.device.demoText = async () => JSON.stringify(DECK);
    expect(await first(bare)).toMatchObject({ where: { is: 'app' }, on: true });
    await settle(bare, {}, null);
    expect(bench.learner.decks.value.find(({ id }) => id === DECK.id)).toMatchObject({ contentId: ID, active: true });
  });
});

describe('opens', () => {
  const things = () => [
    ...new Set(
      bench.learner.practised.value.flatMap(({ resolved }) => [...resolved.items.values()].map(({ thing }) => thing)),
    ),
  ];

  test('until the day nothing of it is an item; on the day it is, by itself', async () => {
    await settle();
    expect(notYetOpen(bench.learner, 'fictional', DECK.id)).toEqual([
      {
        date: '2026-11-28',
        things: [
          { thing: 'calder/two#second', title: 'Second' },
          { thing: 'calder/two#one', title: 'Speed one?' },
        ],
      },
    ]);
    expect(notYetOpen(bench.learner, 'fictional', LIMITS.id)).toEqual([]);
    const own = () => things().filter((thing) => ['d', 'e', 'f'].includes(thing));
    expect(own()).toEqual([]);
    expect(things()).toContain('a');
    // Of the other deck the limit of the same name is open.
    const keys = bench.learner.practised.value.flatMap(({ resolved }) => [...resolved.items.keys()]);
    expect(keys.filter((key) => key.includes('#one.')).map((key) => key.split('#')[0])).toEqual([LIMITS.id]);
    bench.at += 2 * DAY;
    await bench.learner.lookAtClock();
    expect(own()).toEqual([]);
    bench.at += DAY;
    await bench.learner.lookAtClock();
    expect(own()).toEqual(['d', 'e', 'f']);
    expect(notYetOpen(bench.learner, 'fictional')).toEqual([]);
  });

  test('a trainee may open it before, which is then their own', async () => {
    await settle();
    const [on] = notYetOpen(bench.learner, 'fictional');
    if (on === undefined) throw new Error('all is open');
    await openNow(bench.learner, 'fictional', on);
    expect(things()).toContain('d');
    const { lines } = await opened({ ...A, n: 2 });
    expect(lines.find(({ key }) => key === 'opens/fictional')).toMatchObject({ changes: true, own: true });
  });

  test('what is stored otherwise closes nothing', async () => {
    await settle({ ...A, groups: [] });
    const all = things();
    for (const value of [null, 'calder/two#first', 7, [], { 'calder/two#first': 5 }, { 'calder/two#first': 'soon' }]) {
      await bench.learner.set('opens/fictional', value);
      expect(things()).toEqual(all);
      expect(notYetOpen(bench.learner, 'fictional')).toEqual([]);
    }
  });
});

test.each([
  ['by what it says', JSON.stringify(A), 'a.txt', 'assignment'],
  ['by its name, where only a part arrived', '{', 'group-1.assignment.json', 'assignment'],
  ['not a deck that speaks of one', JSON.stringify({ ...DECK, about: '{"recency": "assignment"}' }), 'a.json', 'ask'],
])('an assignment is known %s', async (_, text, name, wanted) => {
  await takeText(bench.learner, text, name);
  expect(incoming.value.step).toBe(wanted);
  stopChecking();
});

describe('its instructor', () => {
  const draft: AssignmentDraft = {
    ...blank(A.id),
    value: {
      title: ' Group 3 ',
      decks: [{ ...(A.decks[0] as (typeof A.decks)[0]), address: ' ', variants: { engine: [] } }],
      checkDate: '',
      note: '',
      groups: [{ id: 'g1', name: 'S', things: ['calder/two#first'], checkDate: '', opens: '2026-12-01' }],
    },
  };

  test('what is empty is not said, and what is said is read', () => {
    const made = assignmentOf(draft, '2026-11-25');
    expect(made).toMatchObject({ n: 1, title: 'Group 3', made: '2026-11-25' });
    expect(Object.keys(made)).not.toContain('checkDate');
    expect(made.decks[0]).not.toHaveProperty('address');
    expect(made.decks[0]).not.toHaveProperty('variants');
    expect(checkAssignment(made).findings).toEqual([]);
    expect(readAssignment(writeAssignment(made)).assignment).toEqual(made);
    expect(checkAssignment(assignmentOf(blank(A.id), '2026-11-25')).findings.length).toBeGreaterThan(0);
  });

  test('numbers rise with what is said, not with each handing out', () => {
    const one = assignmentOf(draft, '2026-11-25');
    const out = handedOut(draft, one);
    expect(assignmentOf(out, '2026-11-27')).toEqual(one);
    const changed = { ...out, value: { ...out.value, minutes: 20 } };
    expect(assignmentOf(changed, '2026-11-27')).toMatchObject({ id: one.id, n: 2, made: '2026-11-27', minutes: 20 });
    expect(assignmentOf({ ...changed, value: { ...out.value, title: 'Group 3' } }, '2026-11-27')).toEqual(one);
    const onward = draftFrom(one);
    expect(assignmentOf(onward, '2026-11-28')).toEqual(one);
  });

  test('meant is the revision that was handed out last, whatever was changed in a draft since', () => {
    expect(assignedRevisions([draft])).toEqual(new Map());
    const revision = (n: number) => ({ id: DECK.id, contentId: `${n}`.repeat(64), version: `${n}.0.0` });
    const of = (id: string, n: number, made: string): AssignmentDraft => {
      const value = { ...draft.value, decks: draft.value.decks.map((deck) => ({ ...deck, ...revision(n) })) };
      const one = { ...draft, id, value };
      return handedOut(one, assignmentOf(one, made));
    };
    const [early, late] = [of('early', 1, '2026-11-25'), of('late', 2, '2026-11-27')];
    const changed = { ...late, value: { ...late.value, decks: [] } };
    for (const drafts of [
      [early, changed],
      [changed, early],
    ])
      expect(assignedRevisions(drafts).get(DECK.id)).toEqual(revision(2));
    // Of one day the newer draft, which comes first.
    expect(assignedRevisions([of('third', 3, '2026-11-27'), late]).get(DECK.id)).toEqual(revision(3));
    expect([...handedNumbers([draft, early, changed])]).toEqual([
      ['early', 1],
      ['late', 1],
    ]);
    expect(assignedRevisions([draftFrom(assignmentOf(early, '2026-11-28'))]).get(DECK.id)).toEqual(revision(1));
  });

  test('a deck that is left out takes its procedures along', () => {
    expect(withDecks(draft.value, []).groups).toEqual([{ ...draft.value.groups?.[0], things: [] }]);
  });

  test.each([
    ['Type rating, group 3', 'type-rating-group-3-1.assignment.json'],
    ['Übung Überziehen', 'ubung-uberziehen-1.assignment.json'],
    ['日本', 'practice-1.assignment.json'],
  ])('%s is saved as %s', (title, name) => {
    expect(fileName({ ...A, title })).toBe(name);
  });
});

describe('what is to be put right names its field, and a part that changes nothing is told', () => {
  const part = { id: 'g1', name: '', things: [] };
  const draft = (groups: Assignment['groups'] = []): AssignmentDraft => ({
    ...blank(A.id),
    value: { title: '', decks: A.decks, checkDate: '2026-12-14', groups },
  });
  const told = (given: AssignmentDraft) =>
    toPutRight(checkAssignment(assignmentOf(given, '2026-11-25')).findings, given.value).map(
      ({ place, text }) => `${place}. ${text}`,
    );

  test('an empty one', () => {
    expect(told(draft([part]))).toEqual([
      'Title. This must not be empty.',
      'Part 1: name. This must not be empty.',
      'Part 1: procedures. This must not be empty.',
      'Part 1. It has neither a check date nor a day on which it opens, and so changes nothing. Give it one, or remove it.',
    ]);
  });

  test('by its name once it has one; either day is enough', () => {
    const whole = { ...draft(), value: { ...draft().value, title: 'Group 3' } };
    const of = (given: object) => {
      const groups = [{ ...part, name: 'Session 3', things: ['calder/two#first'], ...given }];
      return told({ ...whole, value: { ...whole.value, groups } });
    };
    expect(of({})).toEqual([expect.stringMatching(/^Session 3\. It has neither/)]);
    expect(of({ checkDate: '', opens: '' })).toHaveLength(1);
    expect(of({ opens: '2026-12-01' })).toEqual([]);
    expect(of({ checkDate: '2026-12-07' })).toEqual([]);
    expect(of({ checkDate: '2026-12-15' })).toEqual([expect.stringMatching(/^Session 3: check date\. /)]);
  });

  test('an address of a deck', () => {
    const decks = A.decks.map((deck) => ({ ...deck, address: 'http://decks.example/' }));
    const given = { ...draft(), value: { ...draft().value, title: 'Group 3', decks } };
    expect(told(given)).toEqual([expect.stringMatching(/^Two procedures: address\. /)]);
  });
});
