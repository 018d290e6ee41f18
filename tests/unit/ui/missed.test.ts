import { expect, test } from 'vitest';
import { dayOrder } from '../../../src/memory/day-order.ts';
import { chanceAfter } from '../../../src/memory/fsrs.ts';
import type { Learner } from '../../../src/ui/models/learner.ts';
import { againstOf, groupsOf, notedBefore, noteMissed, takeBack } from '../../../src/ui/models/missed.ts';
import { lookBackOf } from '../../../src/ui/models/past.ts';
import { answered, type Bench, benchOf, DAY, LIMITS } from './learners.ts';

const NAMES = ['one', 'two', 'three', 'four'];

/** 32 answers on two days, all right; then a week passes. */
const practised = async (): Promise<Bench> => {
  const bench = await benchOf(LIMITS);
  for (let day = 0; day < 2; day++) {
    for (let i = 0; i < 16; i++) await bench.learner.append(answered(bench.learner, NAMES[i % 4] as string, 'right'));
    bench.at += DAY;
  }
  bench.at += 7 * DAY;
  return bench;
};
const nameOf = (learner: Learner, thing: string): string =>
  groupsOf(learner, 'fictional')
    .flatMap(({ things }) => things)
    .find(({ name }) => name.includes(`#${thing}.`))?.name ?? '';
const dueNow = (learner: Learner) =>
  dayOrder(
    learner.practised.value.flatMap(({ resolved }) => [...resolved.items.values()]),
    learner.memory.value,
    learner.today(),
    null,
  ).due.map(({ thing }) => thing);

test('what was missed there returns first; taken back it is as if it had never been noted', async () => {
  const bench = await practised();
  const { learner } = bench;
  const groups = groupsOf(learner, 'fictional');
  const order = dueNow(learner);
  const was = [...learner.memory.value.items];
  const missed = new Set([nameOf(learner, 'three')]);
  const entry = await noteMissed(learner, groups, { where: 'check', day: learner.today() - 1, missed });
  expect(dueNow(learner)[0]).toBe('three');
  expect(await notedBefore(learner, groups)).toEqual([{ entry, where: 'check', day: learner.today() - 1, missed: 1 }]);
  await takeBack(learner, entry);
  expect(dueNow(learner)).toEqual(order);
  expect([...learner.memory.value.items]).toEqual(was);
  expect(await notedBefore(learner, groups)).toEqual([]);

  // Also once a checkpoint holds it.
  const again = await noteMissed(learner, groups, { where: 'simulator', day: learner.today(), missed });
  await learner.saveCheckpoint();
  const later = await bench.again();
  expect(dueNow(later)[0]).toBe('three');
  await takeBack(later, again);
  expect(dueNow(later)).toEqual(order);
});

test('the forecast is that of the evening before, whatever was practised since', async () => {
  const bench = await practised();
  const { learner } = bench;
  const groups = groupsOf(learner, 'fictional');
  const day = learner.today();
  const s = Math.min(...[...learner.memory.value.items.values()].map((known) => known.s));
  // On the day itself, and after it.
  for (const thing of NAMES) await learner.append(answered(learner, thing, 'wrong'));
  bench.at += 2 * DAY;
  const missed = new Set([nameOf(learner, 'two')]);
  await noteMissed(learner, groups, { where: 'check', day, missed });
  const told = await againstOf(learner, groups, { day, missed });
  expect(told).toMatchObject({ of: 4, missed: 1, right: 3, unpractised: 0 });
  expect(told?.predicted).toBeGreaterThanOrEqual(chanceAfter(s, 8));
  expect(told?.predicted).toBeGreaterThan(0.8);
  // Two days before the first answer nothing was known.
  expect(await againstOf(learner, groups, { day: day - 30, missed })).toBeNull();
});

test('a day to come, or nothing tapped, is refused, and nothing is written', async () => {
  const bench = await practised();
  const { learner } = bench;
  const groups = groupsOf(learner, 'fictional');
  const count = (await bench.entries()).length;
  const missed = new Set([nameOf(learner, 'one')]);
  const tomorrow = learner.today() + 1;
  await expect(noteMissed(learner, groups, { where: 'check', day: tomorrow, missed })).rejects.toThrow('still to come');
  await expect(noteMissed(learner, groups, { where: 'check', day: Number.NaN, missed })).rejects.toThrow(RangeError);
  await expect(noteMissed(learner, groups, { where: 'check', day: 0, missed: new Set() })).rejects.toThrow('Nothing');
  expect(await bench.entries()).toHaveLength(count);
});

test('the last 28 days: predicted against actual, Sure against right, the answers of one drill', async () => {
  const bench = await practised();
  const { learner } = bench;
  await learner.append({ ...answered(learner, 'one', 'wrong'), drill: 'd' } as Parameters<Learner['append']>[0]);
  await learner.append({ ...answered(learner, 'two', 'right'), drill: 'd' } as Parameters<Learner['append']>[0]);
  const voided = await learner.append({
    ...answered(learner, 'three', 'wrong'),
    drill: 'd',
  } as Parameters<Learner['append']>[0]);
  await learner.append({ k: 'void', of: voided.entry.id, why: 'mis-tap' });
  const told = await lookBackOf(learner, { drill: 'd' });
  // Predicted: four on the second day, two now. Said sure: 32 and 2.
  expect(told.predicted).toMatchObject({ of: 6, right: 5 });
  expect(told.sure).toMatchObject({ of: 34, right: 33 });
  expect(told.answers.map(({ about }) => about.thing)).toEqual(['one', 'two']);
  expect(told.before).toBeNull();
  bench.at += 60 * DAY;
  expect((await lookBackOf(learner, {})).predicted).toMatchObject({ of: 0, predicted: null });
});
