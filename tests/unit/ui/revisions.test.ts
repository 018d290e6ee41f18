import { describe, expect, test } from 'vitest';
import type { Deck, NumberLimit } from '../../../src/model/deck.ts';
import type { StoredDeck } from '../../../src/model/ports.ts';
import { nextCheck } from '../../../src/ui/models/check-groups.ts';
import { untilTurn } from '../../../src/ui/models/day-turn.ts';
import type { Learner } from '../../../src/ui/models/learner.ts';
import { decksAsked, planAsk, planKey } from '../../../src/ui/models/plan-input.ts';
import { revisionFacts } from '../../../src/ui/models/several-revisions.ts';
import { AT, answered, type Bench, benchOf, DAY, LIMITS } from './learners.ts';

/** 25 November 2026 is the day of the bench. */
const revised = (version: string, more: Partial<Deck> = {}, one: Partial<NumberLimit> = { value: 150 }): Deck =>
  ({
    ...LIMITS,
    version,
    ...more,
    limits: LIMITS.limits?.map((limit) => (limit.id === 'one' ? { ...limit, ...one } : limit)),
  }) as Deck;

const install = (learner: Learner, deck: Deck, mark: string): Promise<StoredDeck> => {
  const { id, version, title, nature } = deck;
  return learner.install({ id, version, title, nature, contentId: mark.repeat(64), text: JSON.stringify(deck) });
};
const askedVersion = (learner: Learner): string | undefined => learner.practised.value[0]?.deck.version;
const keyOf = (learner: Learner, thing: string): string =>
  [...(learner.practised.value[0]?.resolved.items.values() ?? [])].find((item) => item.thing === thing)?.key ?? '';
const later = async (bench: Bench, days: number): Promise<void> => {
  bench.at = AT + days * DAY;
  await bench.learner.lookAtClock();
};

describe('a newer revision', () => {
  test('what it changed starts afresh and is amended, the rest keeps its memory; the old one taken back, it returns', async () => {
    const { learner } = await benchOf(LIMITS);
    const [first] = learner.decks.value;
    for (const thing of ['one', 'two']) await learner.append(answered(learner, thing, 'right'));
    const [one, two] = [keyOf(learner, 'one'), keyOf(learner, 'two')];
    const before = learner.memory.value.items.get(one);
    const kept = learner.memory.value.items.get(two);

    await install(learner, revised('2.0.0'), 'd');
    const now = keyOf(learner, 'one');
    expect(now).not.toBe(one);
    expect(keyOf(learner, 'two')).toBe(two);
    expect(learner.memory.value.items.has(now)).toBe(false);
    expect(learner.memory.value.items.get(two)).toEqual(kept);
    expect(learner.practised.value[0]?.amended()).toEqual(new Set([now]));
    await learner.append(answered(learner, 'one', 'wrong'));

    await learner.setActive(first as StoredDeck, true);
    expect(askedVersion(learner)).toBe('1.0.0');
    expect(keyOf(learner, 'one')).toBe(one);
    expect(learner.memory.value.items.get(one)).toEqual(before);
    expect(learner.practised.value[0]?.amended().size).toBe(0);
    expect(learner.decks.value).toHaveLength(2);
  });

  test('with a date: the old one until then, the new one from then on, when the day turns', async () => {
    const bench = await benchOf(LIMITS);
    const { learner } = bench;
    await install(learner, revised('2.0.0', { effective: '2026-11-28' }), 'd');
    expect(askedVersion(learner)).toBe('1.0.0');
    expect(learner.practised.value[0]?.chosen.version).toBe('2.0.0');
    expect(learner.practised.value[0]?.resolved.others?.map(({ when }) => when)).toEqual(['coming']);
    await later(bench, 2);
    expect(askedVersion(learner)).toBe('1.0.0');
    await later(bench, 3);
    expect(askedVersion(learner)).toBe('2.0.0');
    expect(learner.practised.value[0]?.resolved.others?.map(({ when }) => when)).toEqual(['past']);
    expect(learner.today()).toBe(Math.floor((AT + 3 * DAY) / DAY));
  });

  test('with an end: after it the one before is asked again', async () => {
    const bench = await benchOf(LIMITS);
    await install(bench.learner, revised('1.1.0', { until: '2026-11-27' }), 'd');
    expect(askedVersion(bench.learner)).toBe('1.1.0');
    await later(bench, 2);
    expect(askedVersion(bench.learner)).toBe('1.1.0');
    await later(bench, 3);
    expect(askedVersion(bench.learner)).toBe('1.0.0');
  });

  test('a faulty one that was taken back is not asked when the next is waited for, also after a start', async () => {
    const bench = await benchOf(LIMITS);
    const { learner } = bench;
    const [first] = learner.decks.value;
    await install(learner, revised('1.1.0'), 'd');
    await learner.setActive(first as StoredDeck, true);
    await install(learner, revised('1.2.0', { effective: '2026-12-20' }, { value: 160 }), 'e');
    expect(askedVersion(learner)).toBe('1.0.0');
    expect(learner.practised.value[0]?.chain.map(({ version }) => version)).toEqual(['1.2.0', '1.0.0']);
    await learner.saveCheckpoint();
    learner.dispose();
    const again = await bench.again();
    expect(askedVersion(again)).toBe('1.0.0');
    // Taken on purpose once more, it is one of them again.
    const faulty = again.decks.value.find(({ version }) => version === '1.1.0') as StoredDeck;
    await again.setActive(faulty, true);
    await again.setActive(again.decks.value.find(({ version }) => version === '1.2.0') as StoredDeck, true);
    expect(askedVersion(again)).toBe('1.1.0');
  });

  test('one that only lies here, as from a copy, is not asked', async () => {
    const bench = await benchOf(LIMITS);
    const deck = revised('1.1.0');
    const { id, version, title, nature } = deck;
    // No entry of the log says that it was taken.
    await bench.store.decks.put({ id, version, title, nature, contentId: 'd'.repeat(64), text: JSON.stringify(deck) });
    await install(bench.learner, revised('1.2.0', { effective: '2026-12-20' }, { value: 160 }), 'e');
    expect(bench.learner.decks.value).toHaveLength(3);
    expect(askedVersion(bench.learner)).toBe('1.0.0');
  });

  test('the new one ten days before a check that comes after its date', async () => {
    const bench = await benchOf(LIMITS);
    const { learner } = bench;
    await install(learner, revised('2.0.0', { effective: '2026-12-20' }), 'd');
    await learner.set('check-date/fictional', '2026-12-24');
    expect(askedVersion(learner)).toBe('1.0.0');
    expect(learner.practised.value[0]?.atCheck()?.ref).toContain('@dddd');
    expect([...(learner.practised.value[0]?.leaving() ?? [])]).toEqual([keyOf(learner, 'one')]);
    await later(bench, 19);
    expect(askedVersion(learner)).toBe('2.0.0');
    expect(learner.practised.value[0]?.atCheck()).toBeNull();
    // Another date, at once: the check is before it.
    await learner.set('check-date/fictional', '2026-12-19');
    expect(askedVersion(learner)).toBe('1.0.0');
    await learner.set('check-date/fictional', null);
    expect(askedVersion(learner)).toBe('1.0.0');
  });

  test('answers make no new object of a deck: its questions are made once', async () => {
    const { learner } = await benchOf(LIMITS);
    await install(learner, revised('2.0.0'), 'd');
    const before = learner.practised.value[0];
    await learner.append(answered(learner, 'two', 'right'));
    await learner.append({ k: 'deck', deck: before?.stored.ref ?? '', state: 'seen' });
    expect(learner.practised.value[0]).toBe(before);
  });
});

describe('the fold', () => {
  const keeps = async (): Promise<Bench & { readonly old: string }> => {
    const bench = await benchOf(LIMITS);
    const { learner } = bench;
    const old = keyOf(learner, 'one');
    await learner.append(answered(learner, 'one', 'right'));
    const stamp = old.slice(old.indexOf('#one.') + '#one.'.length);
    await install(learner, revised('2.0.0', { effective: '2026-11-28' }, { value: 150, keeps: [stamp] }), 'd');
    return Object.assign(bench, { old });
  };

  test('joins an old answer to the new one when the new one is asked, and parts them when it is taken back', async () => {
    const bench = await keeps();
    const { learner, old } = bench;
    // Not yet: the old item is asked.
    expect(learner.memory.value.items.has(old)).toBe(true);
    await later(bench, 3);
    const now = keyOf(learner, 'one');
    expect(now).not.toBe(old);
    expect(learner.memory.value.items.has(now)).toBe(true);
    expect(learner.memory.value.items.has(old)).toBe(false);
    expect(learner.practised.value[0]?.amended().size).toBe(0);
    const first = learner.decks.value.find(({ version }) => version === '1.0.0') as StoredDeck;
    await learner.setActive(first, true);
    expect(learner.memory.value.items.has(old)).toBe(true);
  });

  test('is made anew at the start where another revision is asked by then, and only once', async () => {
    const bench = await keeps();
    bench.learner.dispose();
    bench.at = AT + 3 * DAY;
    const { refolds } = bench;
    const again = await bench.again();
    expect(again.memory.value.items.has(keyOf(again, 'one'))).toBe(true);
    expect(bench.refolds).toBe(refolds + 1);
    again.dispose();
    const third = await bench.again();
    expect(third.memory.value.items).toEqual(again.memory.value.items);
    expect(bench.refolds).toBe(refolds + 1);
  });

  test('a deck with one revision is never folded anew for it', async () => {
    const bench = await benchOf(LIMITS);
    await bench.learner.append(answered(bench.learner, 'one', 'right'));
    await bench.learner.saveCheckpoint();
    await later(bench, 1);
    await bench.again();
    expect(bench.refolds).toBe(0);
    expect(await bench.store.device.get('folded-for')).toBeUndefined();
  });

  test('an old critical item stays critical while a newer revision is asked', async () => {
    const bench = await benchOf(LIMITS);
    const { learner } = bench;
    const wrong = answered(learner, 'one', 'wrong');
    const old = keyOf(learner, 'one');
    await install(learner, revised('2.0.0'), 'd');
    // As when a copy of another device brings it.
    await learner.append(wrong);
    expect(learner.memory.value.items.get(old)?.alert).toBe(0);
  });

  test('knows what was seen, also after a start', async () => {
    const bench = await benchOf(LIMITS);
    const { learner } = bench;
    const { ref } = await install(learner, revised('2.0.0'), 'd');
    expect(learner.memory.value.seen.has(ref)).toBe(false);
    await learner.append({ k: 'deck', deck: ref, state: 'seen' });
    expect([...learner.memory.value.seen]).toEqual([ref]);
    await learner.saveCheckpoint();
    learner.dispose();
    expect([...(await bench.again()).memory.value.seen]).toEqual([ref]);
  });
});

test('facts of several revisions: as the first that has a key says, joined keys followed', () => {
  const facts = (critical: string[], decision: string[], other: string[], today: [string, string][] = []) => ({
    critical,
    decision,
    other,
    today,
  });
  const joined = revisionFacts([
    facts(['a'], [], ['b', 'c'], [['y', 'c']]),
    facts(
      ['b', 'd'],
      ['e'],
      ['y'],
      [
        ['x', 'y'],
        ['b', 'd'],
      ],
    ),
  ]);
  expect(joined.critical).toEqual(['a', 'd']);
  expect(joined.decision).toEqual(['e']);
  // b is asked itself: it is not joined to anything.
  expect(new Map(joined.today)).toEqual(
    new Map([
      ['y', 'c'],
      ['x', 'c'],
    ]),
  );
  const circle = revisionFacts([
    facts([], [], ['a']),
    facts(
      [],
      [],
      [],
      [
        ['p', 'q'],
        ['q', 'p'],
      ],
    ),
  ]);
  expect(circle.today).toHaveLength(2);
});

test('planned for is what is asked on the check day; a drill asks what is in force', async () => {
  const bench = await benchOf(LIMITS);
  const { learner } = bench;
  await learner.set('check-date/fictional', '2026-12-24');
  const before = planKey(learner, 'fictional').same;
  await install(learner, revised('2.0.0', { effective: '2026-12-20' }), 'd');
  const after = planKey(learner, 'fictional').same;
  expect(after).not.toBe(before);
  const asked = decksAsked(learner, 'fictional');
  expect(asked.decks.map(({ deck }) => deck.version)).toEqual(['1.0.0']);
  expect(asked.leaving).toEqual(new Set([keyOf(learner, 'one')]));
  expect(asked.amended).toEqual(new Set());
  // Known by the old answer, not met by the new one.
  await learner.append(answered(learner, 'one', 'right'));
  await learner.append(answered(learner, 'two', 'right'));
  const ask = planAsk(learner, 'fictional');
  expect(ask?.labels.map((label, i) => [label, ask.input.items.gap[i]])).toEqual([
    ['Speed one?', -1],
    ['Speed two?', 0],
    ['Speed three?', -1],
    ['Speed four?', -1],
  ]);
  await later(bench, 19);
  // The plan was made for it: it goes on.
  expect(planKey(learner, 'fictional').same).toBe(after);
  expect(decksAsked(learner, 'fictional').amended).toEqual(new Set([keyOf(learner, 'one')]));
});

test.each([
  ['2026-11-25T03:59:00Z', 0, 60_000],
  ['2026-11-25T04:00:00Z', 0, DAY],
  ['2026-11-25T03:59:59.900Z', 0, 1000],
  // Two hours east the day turns at two in the morning UTC.
  ['2026-11-25T01:00:00Z', 120, 3_600_000],
])('the next study day at %s, %d min east, begins in %d ms', (now, off, expected) => {
  expect(untilTurn(Date.parse(now), off)).toBe(expected);
});

test('the next check of a deck is that of its procedures, where some are checked before', () => {
  const day = (iso: string) => Date.parse(`${iso}T00:00:00Z`) / DAY;
  const group = { id: 'g', name: 'Group', date: '2026-12-05', things: ['d/x#roll'] };
  const of = (today: string, check: string | null) => ({
    today: () => day(today),
    checkDay: () => (check === null ? null : day(check)),
    setting: () => [group],
  });
  const [has, hasNot] = [{ procedures: [{ id: 'roll' }] }, { procedures: [{ id: 'climb' }] }] as unknown as Deck[];
  const next = (today: string, check: string | null, deck: Deck | undefined) =>
    nextCheck(of(today, check), 'fictional', 'd/x', deck ?? ({} as Deck));
  expect(next('2026-11-25', '2026-12-24', has)).toBe(day('2026-12-05'));
  expect(next('2026-11-25', '2026-12-24', hasNot)).toBe(day('2026-12-24'));
  expect(next('2026-12-05', '2026-12-24', has)).toBe(day('2026-12-24'));
  expect(next('2026-12-24', '2026-12-24', has)).toBe(day('2026-12-24'));
  expect(next('2026-12-25', '2026-12-24', has)).toBeNull();
  expect(next('2026-11-25', null, has)).toBeNull();
});
