import { expect, test } from 'vitest';
import type { Deck, NumberLimit } from '../../../src/model/deck.ts';
import type { StoredDeck } from '../../../src/model/ports.ts';
import { type AmendmentOf, amendmentOf, answersChanged, datesOf, isToTell } from '../../../src/ui/models/amendment.ts';
import { briefOf } from '../../../src/ui/models/brief.ts';
import type { Learner } from '../../../src/ui/models/learner.ts';
import { AT, answered, benchOf, DAY, LIMITS } from './learners.ts';

/** 25 November 2026 is the day of the bench. */
const revised = (version: string, one: Partial<NumberLimit>, more: object = {}): Deck =>
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
const told = (learner: Learner): AmendmentOf => {
  const found = amendmentOf(learner, LIMITS.id);
  if (found === null) throw new Error('no amendment');
  return found;
};
const see = (learner: Learner, { ref }: StoredDeck) => learner.append({ k: 'deck', deck: ref, state: 'seen' });

test('a first deck amends nothing; a newer one is held against it until it was seen', async () => {
  const bench = await benchOf(LIMITS);
  const { learner } = bench;
  expect(amendmentOf(learner, LIMITS.id)).toBeNull();
  expect(amendmentOf(learner, 'no/such')).toBeNull();
  const stored = await install(learner, revised('2.0.0', { value: 150 }), 'd');
  expect(told(learner)).toMatchObject({ base: { version: '1.0.0' }, chosen: { version: '2.0.0' }, isSeen: false });
  expect(answersChanged(told(learner))).toEqual({ changed: 1, added: 0, removed: 0 });
  expect(isToTell(told(learner))).toBe(true);
  await see(learner, stored);
  expect(told(learner).isSeen).toBe(true);
  expect(isToTell(told(learner))).toBe(false);
  // It stays to be read.
  expect(told(learner).base.version).toBe('1.0.0');
});

test('what was not seen of one is told with the next; what was seen is not told again', async () => {
  const { learner } = await benchOf(LIMITS);
  await install(learner, revised('2.0.0', { value: 150 }, { amendment: 'First.' }), 'd');
  const third = await install(learner, revised('3.0.0', { value: 160 }, { amendment: 'Second.' }), 'e');
  expect(told(learner).base.version).toBe('1.0.0');
  expect(told(learner).since.map(({ deck }) => deck.amendment)).toEqual(['First.', 'Second.']);
  await see(learner, third);
  const extra = { id: 'five', ask: 'Five?', unit: 'kt', sense: 'exactly', value: 5 };
  const limits = [...(revised('4.0.0', { value: 160 }).limits ?? []).slice(0, 3), extra];
  await install(learner, { ...LIMITS, version: '4.0.0', limits } as Deck, 'f');
  expect(told(learner).base.version).toBe('3.0.0');
  expect(answersChanged(told(learner))).toEqual({ changed: 0, added: 1, removed: 1 });
});

test('of other words alone nothing is said, unless the author does', async () => {
  const { learner } = await benchOf(LIMITS);
  await install(learner, revised('1.0.1', { ask: 'Which speed?' }), 'd');
  expect(answersChanged(told(learner))).toEqual({ changed: 0, added: 0, removed: 0 });
  expect(isToTell(told(learner))).toBe(false);
  await install(learner, revised('1.0.2', { ask: 'Which speed?' }, { amendment: 'Better words.' }), 'e');
  expect(isToTell(told(learner))).toBe(true);
});

test('an answer that its author keeps is no other one', async () => {
  const { learner } = await benchOf(LIMITS);
  const item = [...(learner.practised.value[0]?.resolved.items.values() ?? [])].find(({ thing }) => thing === 'one');
  const keeps = [item?.key.slice(item.key.indexOf('.') + 1) ?? ''];
  await install(learner, revised('1.1.0', { value: 150, keeps }), 'd');
  expect(answersChanged(told(learner))).toEqual({ changed: 0, added: 0, removed: 0 });
});

test('an older one taken back has nothing to tell', async () => {
  const { learner } = await benchOf(LIMITS);
  const [first] = learner.decks.value;
  await install(learner, revised('2.0.0', { value: 150 }), 'd');
  await learner.setActive(first as StoredDeck, true);
  expect(amendmentOf(learner, LIMITS.id)).toBeNull();
});

test('dates: what is right from when, and what is asked before a check', async () => {
  const bench = await benchOf(LIMITS);
  const { learner } = bench;
  await install(learner, revised('2.0.0', { value: 150 }, { effective: '2026-12-20' }), 'd');
  const before = 'In force from 20 December 2026: until then the answers of before are right.';
  expect(datesOf(learner, told(learner))).toEqual([before]);
  await learner.set('check-date/fictional', '2026-12-24');
  expect(datesOf(learner, told(learner))).toEqual([
    before,
    'Your check comes after that day: from 14 December 2026 you are asked what holds then.',
  ]);
  bench.at = AT + 20 * DAY;
  await learner.lookAtClock();
  expect(datesOf(learner, told(learner))).toEqual([
    before,
    'Your check comes after that day and is near: you are asked what holds then.',
  ]);
  bench.at = AT + 25 * DAY;
  await learner.lookAtClock();
  expect(datesOf(learner, told(learner))).toEqual([]);
});

test('dates of a bulletin: which answers are right after it', async () => {
  const { learner } = await benchOf(LIMITS);
  await install(learner, revised('1.1.0', { value: 150 }, { until: '2026-12-24' }), 'd');
  expect(datesOf(learner, told(learner))).toEqual([
    'From 25 December 2026 the answers of version 1.0.0 are right again.',
  ]);
});

test('dates of two revisions to come, one after the other', async () => {
  const { learner } = await benchOf(LIMITS);
  await install(learner, revised('2.0.0', { value: 150 }, { effective: '2026-12-01' }), 'd');
  await install(learner, revised('3.0.0', { value: 160 }, { effective: '2026-12-20' }), 'e');
  expect(datesOf(learner, told(learner))).toEqual([
    'From 1 December 2026 the answers of version 2.0.0 are right.',
    'In force from 20 December 2026: until then the answers of before are right.',
  ]);
});

test('a value that returns is first again, once, though it was known', async () => {
  const bench = await benchOf(LIMITS);
  const { learner } = bench;
  const first = () => briefOf(learner, 'fictional').begins[0]?.why;
  const amended = () =>
    [...(learner.practised.value[0]?.amended() ?? [])].map((key) => key.slice(key.indexOf('#') + 1).split('.')[0]);
  const right = async () => {
    for (const thing of ['one', 'two', 'three', 'four']) await learner.append(answered(learner, thing, 'right'));
  };
  const pass = async (days: number) => {
    bench.at += days * DAY;
    await learner.lookAtClock();
  };
  await right();
  await pass(1);
  await see(learner, await install(learner, revised('2.0.0', { value: 150 }), 'd'));
  await right();
  await pass(1);
  const third = await install(learner, revised('3.0.0', {}), 'e');
  expect(answersChanged(told(learner)).changed).toBe(1);
  expect(amended()).toEqual(['one']);
  expect(first()).toBe('amended: the new answer');
  // Its memory stays.
  const key = [...(learner.practised.value[0]?.amended() ?? [])][0] ?? '';
  expect(learner.memory.value.items.get(key)?.n).toBe(1);
  await pass(1);
  await learner.append(answered(learner, 'one', 'right'));
  expect(learner.memory.value.items.get(key)?.n).toBe(2);
  expect(amended()).toEqual([]);
  expect(first()).not.toBe('amended: the new answer');
  // A later revision that leaves it as it is does not bring it back; nor does the day.
  await see(learner, third);
  await pass(2);
  await install(learner, revised('3.0.1', {}, { title: 'Other' }), 'f');
  expect(amended()).toEqual([]);
  await pass(30);
  expect(amended()).toEqual([]);
});

test('after the last day of a bulletin the answer of before is first again, once', async () => {
  const bench = await benchOf(LIMITS);
  const { learner } = bench;
  const amended = () => [...(learner.practised.value[0]?.amended() ?? [])];
  const on = async (days: number) => {
    bench.at = AT + days * DAY;
    await learner.lookAtClock();
  };
  for (const thing of ['one', 'two']) await learner.append(answered(learner, thing, 'right'));
  await on(1);
  await install(learner, revised('1.1.0', { value: 150 }, { until: '2026-12-05' }), 'd');
  await learner.append(answered(learner, 'one', 'right'));
  await on(10);
  expect(learner.practised.value[0]?.deck.version).toBe('1.1.0');
  expect(amended()).toEqual([]);
  await on(11);
  expect(learner.practised.value[0]?.deck.version).toBe('1.0.0');
  expect(amended().map((key) => key.split('#')[1]?.split('.')[0])).toEqual(['one']);
  expect(briefOf(learner, 'fictional').begins[0]?.why).toBe('amended: the new answer');
  await learner.append(answered(learner, 'one', 'right'));
  expect(amended()).toEqual([]);
  await on(40);
  expect(amended()).toEqual([]);
});

test('ahead of a check a value that returns is asked first before its day; once read and answered it is not, on its day', async () => {
  const bench = await benchOf(LIMITS);
  const { learner } = bench;
  const amended = () => [...(learner.practised.value[0]?.amended() ?? [])];
  await learner.append(answered(learner, 'one', 'right'));
  bench.at += DAY;
  await install(learner, revised('2.0.0', { value: 150 }), 'd');
  await install(learner, revised('3.0.0', {}, { effective: '2026-12-20' }), 'e');
  await learner.set('check-date/fictional', '2026-12-24');
  expect(learner.practised.value[0]?.deck.version).toBe('2.0.0');
  bench.at = AT + 20 * DAY;
  await learner.lookAtClock();
  const { deck, stored } = learner.practised.value[0] ?? {};
  expect(deck?.version).toBe('3.0.0');
  expect(amended()).toHaveLength(1);
  await learner.append({ k: 'read', drill: 'x', deck: stored?.ref ?? '', about: ['one'] });
  expect(amended()).toHaveLength(1);
  await learner.append(answered(learner, 'one', 'right'));
  expect(amended()).toEqual([]);
  bench.at = AT + 26 * DAY;
  await learner.lookAtClock();
  expect(amended()).toEqual([]);
});

test('the Brief begins with what was amended', async () => {
  const { learner } = await benchOf(LIMITS);
  for (const thing of ['one', 'two', 'three', 'four']) await learner.append(answered(learner, thing, 'right'));
  expect(briefOf(learner, 'fictional').begins.map(({ why }) => why)).not.toContain('amended: the new answer');
  await install(learner, revised('2.0.0', { value: 150 }), 'd');
  expect(briefOf(learner, 'fictional').begins[0]).toEqual({ title: 'Limits', why: 'amended: the new answer' });
  await learner.append(answered(learner, 'one', 'right'));
  expect(briefOf(learner, 'fictional').begins.map(({ why }) => why)).not.toContain('amended: the new answer');
});
