import { expect, test } from 'vitest';
import { effective } from '../../../src/log/effective.ts';
import { fold } from '../../../src/memory/fold.ts';
import type { Facts } from '../../../src/memory/types.ts';
import type { AnyEntry } from '../../../src/model/ports.ts';
import { clockIsRight } from '../../../src/ui/models/clock-doubt.ts';
import type { Learner } from '../../../src/ui/models/learner.ts';
import { AT, answered, type Bench, BUILT, benchOf, DAY, LIMITS } from './learners.ts';

/** Ids of the answers that count without a date, and without one that was ever wrong. */
const timeless = async (bench: Bench): Promise<boolean[]> =>
  [...effective(await bench.entries())].filter(({ entry }) => entry.k === 'answer').map(({ timeless }) => timeless);
const itemOf = (learner: Learner, thing: string) =>
  [...learner.memory.value.items].find(([key]) => key.includes(`#${thing}.`))?.[1];
const clocks = async (bench: Bench): Promise<AnyEntry[]> => (await bench.entries()).filter(({ k }) => k === 'clock');
/** The memory live is the memory folded anew, in whatever order the log comes. */
const agrees = async (bench: Bench, learner: Learner): Promise<void> => {
  const live = learner.memory.value;
  const items = learner.practised.value[0]?.resolved.items;
  const facts: Facts = {
    of: (key) => ({ critical: items?.get(key)?.critical ?? false, decision: false }),
    today: (key) => key,
  };
  const anew = fold((await bench.entries()).toReversed(), facts);
  expect(new Map(live.items)).toEqual(anew.items);
  expect(new Set(live.days)).toEqual(anew.days);
  expect(new Map(live.settings)).toEqual(anew.settings);
  expect(live.answers).toBe(anew.answers);
};

test('a date that nothing speaks against: no clock entries, no fold of the whole log', async () => {
  const bench = await benchOf(LIMITS);
  bench.refolds = 0;
  await bench.learner.append(answered(bench.learner, 'one', 'right'));
  bench.at += DAY;
  await bench.learner.lookAtClock();
  expect(bench.learner.clock.suspicion.value).toBeNull();
  await bench.learner.append(answered(bench.learner, 'one', 'right'));
  expect(await clocks(bench)).toEqual([]);
  expect(bench.refolds).toBe(0);
  expect(bench.learner.memory.value.days.size).toBe(2);
});

test.each([
  ['before-last', AT - 5 * DAY],
  ['before-build', BUILT - 400 * DAY],
  ['long-after', AT + 500 * DAY],
] as const)('%s: until the date is right no time passes, no day begins, and nothing is lost', async (_, wrong) => {
  const bench = await benchOf(LIMITS);
  await bench.learner.append(answered(bench.learner, 'one', 'right'));
  const today = bench.learner.today();
  const before = itemOf(bench.learner, 'one');
  bench.at = wrong;
  const learner = await bench.again();
  expect(learner.clock.suspicion.value).not.toBeNull();
  expect(learner.today()).toBe(today);
  const { outcome, entry } = await learner.append(answered(learner, 'one', 'right'));
  // Told as any other: nothing was predicted, as no time has passed.
  expect(outcome).toMatchObject({ entry: entry.id, sure: true, predicted: {} });
  expect(Object.values(outcome?.verdicts ?? {})).toHaveLength(1);
  await learner.append(answered(learner, 'two', 'right'));
  await learner.set('minutes/fictional', 25);
  // Though it is dated before others, it is the last that was said.
  expect(learner.minutes('fictional')).toBe(25);
  expect(await timeless(bench)).toEqual([false, true, true]);
  expect(learner.memory.value.days.size).toBe(1);
  expect(itemOf(learner, 'one')).toMatchObject({ day: before?.day, n: 2 });
  expect(itemOf(learner, 'two')).toMatchObject({ day: today });
  await agrees(bench, learner);

  // Set right while the app was away: asked no more, and from here on days count.
  bench.at = AT + DAY;
  await learner.lookAtClock();
  expect(learner.clock.suspicion.value).toBeNull();
  expect(learner.today()).toBe(today + 1);
  await learner.append(answered(learner, 'one', 'right'));
  expect(await timeless(bench)).toEqual([false, true, true, false]);
  expect(itemOf(learner, 'one')).toMatchObject({ day: today + 1, n: 3 });
  await agrees(bench, learner);
  // Nor is it asked at the next start: what was dated wrongly is no longer the last.
  expect((await bench.again()).clock.suspicion.value).toBeNull();
});

test('a first start with a wrong date: what was answered goes with the first day that is known', async () => {
  const bench = await benchOf(LIMITS, {}, BUILT - 2000 * DAY);
  const { learner } = bench;
  expect(learner.clock.suspicion.value).toBe('before-build');
  await learner.append(answered(learner, 'one', 'right'));
  await learner.append(answered(learner, 'one', 'right'));
  expect(itemOf(learner, 'one')?.n).toBe(2);
  await agrees(bench, learner);
  bench.at = AT;
  await learner.lookAtClock();
  expect(learner.clock.suspicion.value).toBeNull();
  // No years have passed between the two.
  expect(itemOf(learner, 'one')).toMatchObject({ day: learner.today(), first: learner.today() });
  await agrees(bench, learner);
});

test('"It is right" gives what was written in doubt its own time', async () => {
  const bench = await benchOf(LIMITS);
  await bench.learner.append(answered(bench.learner, 'one', 'right'));
  bench.at = AT + 500 * DAY;
  const learner = await bench.again();
  await learner.append(answered(learner, 'one', 'right'));
  expect(learner.memory.value.days.size).toBe(1);
  await clockIsRight(learner, 'long-after');
  expect(learner.clock.suspicion.value).toBeNull();
  expect(await timeless(bench)).toEqual([false, false]);
  expect(learner.memory.value.days.size).toBe(2);
  expect(itemOf(learner, 'one')?.day).toBe(learner.today());
  await agrees(bench, learner);
  await learner.append(answered(learner, 'one', 'right'));
  expect(await timeless(bench)).toEqual([false, false, false]);
});

test('"It is right" where the dates before were wrong: those lose their time, and the question is not asked again', async () => {
  const bench = await benchOf(LIMITS);
  // Not so far ahead that it was noticed.
  bench.at = AT + 90 * DAY;
  await bench.learner.append(answered(bench.learner, 'one', 'right'));
  bench.at = AT + DAY;
  const learner = await bench.again();
  expect(learner.clock.suspicion.value).toBe('before-last');
  await learner.append(answered(learner, 'two', 'right'));
  await clockIsRight(learner, 'before-last');
  expect(await timeless(bench)).toEqual([true, false]);
  await agrees(bench, learner);
  bench.at = AT + 3 * DAY;
  expect((await bench.again()).clock.suspicion.value).toBeNull();
});

test('an answer dated before others by another device is told what it did', async () => {
  const bench = await benchOf(LIMITS);
  const { learner } = bench;
  await learner.append(answered(learner, 'one', 'right'));
  await learner.saveCheckpoint();
  // Within the hour that clocks may differ by.
  bench.at = AT - 20 * 60_000;
  const again = await bench.again();
  expect(again.clock.suspicion.value).toBeNull();
  bench.refolds = 0;
  const { outcome, entry } = await again.append(answered(again, 'two', 'wrong'));
  expect(bench.refolds).toBe(1);
  expect(outcome).toMatchObject({ entry: entry.id });
  expect(Object.values(outcome?.verdicts ?? {})).toEqual(['missed']);
});

test('entries written at once are folded once each, whatever is folded anew between', async () => {
  const bench = await benchOf(LIMITS);
  const { learner } = bench;
  await learner.append(answered(learner, 'one', 'right'));
  bench.at = AT - 5 * DAY;
  const again = await bench.again();
  await Promise.all(['one', 'two', 'three', 'one'].map((thing) => again.append(answered(again, thing, 'right'))));
  expect(again.memory.value.answers).toBe(5);
  await agrees(bench, again);
});
