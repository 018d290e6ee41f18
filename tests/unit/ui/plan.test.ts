import type { ReadonlySignal } from '@preact/signals';
import { describe, expect, test, vi } from 'vitest';
import type { Plan, PlanInput } from '../../../src/memory/plan/types.ts';
import type { Deck } from '../../../src/model/deck.ts';
import type { Planner } from '../../../src/ui/device.ts';
import type { Learner } from '../../../src/ui/models/learner.ts';
import { createPlanModel, type PlanModel, type PlanNow } from '../../../src/ui/models/plan.ts';
import { planAsk, planKey } from '../../../src/ui/models/plan-input.ts';
import { planSaid } from '../../../src/ui/models/report.ts';
import { type PlanTask, workOut } from '../../../src/workers/plan.ts';
import { flow, word } from '../forms/small-decks.ts';
import { answered, type Bench, benchOf, DAY, LIMITS } from './learners.ts';

/**
 * A planner without a worker, that tells what it was asked. The first time it works out what it is asked; after that
 * it gives the same for other days, since what is tried here is when it is asked, not what it answers.
 */
class Planners {
  readonly asked: PlanInput[] = [];
  readonly signals: AbortSignal[] = [];
  disposed = 0;
  readonly connect = async (): Promise<Planner> => ({
    plan: async (input, { signal, onProgress } = {}) => {
      this.asked.push(input);
      if (signal !== undefined) this.signals.push(signal);
      await new Promise((done) => setTimeout(done));
      signal?.throwIfAborted();
      const { day, checkDay } = input;
      const prices = Array.from({ length: checkDay - day }, () => 0.01);
      return { ...(await once('plan', { k: 'plan', input }, onProgress)), day, checkDay, prices } as Plan;
    },
    outlook: (ask, options) => once('outlook', { k: 'outlook', ask }, options?.onProgress),
    advice: (ask, minutes, options) => once('advice', { k: 'advice', ask, minutes }, options?.onProgress),
    dispose: () => {
      this.disposed += 1;
    },
  });
}
const done = new Map<string, unknown>();
const once = async <T>(name: string, task: PlanTask, onProgress: (share: number) => void = () => undefined) => {
  if (!done.has(name)) done.set(name, workOut(task, onProgress));
  return done.get(name) as T;
};

const until = async (now: ReadonlySignal<PlanNow>, states: readonly PlanNow['state'][]): Promise<PlanNow> => {
  await expect.poll(() => states.includes(now.value.state), { interval: 2, timeout: 10_000 }).toBe(true);
  return now.value;
};
const over = ['ready', 'none', 'failed'] as const;
const settled = async (model: PlanModel): Promise<PlanNow> => {
  await model.look('fictional');
  return until(model.now('fictional'), over);
};
/** All of the plan is on the device. */
const stored = (bench: Bench): Promise<void> =>
  vi.waitFor(async () => {
    expect(await bench.store.device.get('plan/fictional')).toMatchObject({ advice: expect.anything() });
  });
/** Four days to the check. */
const CHECK = '2026-11-29';
const benchTo = async (
  date: string | null = CHECK,
): Promise<{ bench: Bench; planners: Planners; learner: Learner }> => {
  const planners = new Planners();
  const bench = await benchOf(LIMITS, { planner: planners.connect });
  if (date !== null) await bench.learner.set('check-date/fictional', date);
  return { bench, planners, learner: bench.learner };
};

test.each([
  ['no date', null],
  ['a date that is past', '2026-11-24'],
  ['today', '2026-11-25'],
  ['in five years', '2031-11-25'],
])('%s: no plan, and nobody is asked for one', async (_, date) => {
  const { learner, planners } = await benchTo(date);
  const model = createPlanModel(learner);
  expect(await settled(model)).toMatchObject({ state: 'none', record: null });
  expect(model.plan('fictional')).toBeNull();
  expect(planners.asked).toEqual([]);
});

test('worked out once, kept on the device, and there at once the next time', async () => {
  const { bench, learner, planners } = await benchTo();
  const model = createPlanModel(learner);
  const told: number[] = [];
  const stop = model.now('fictional').subscribe(({ done }) => told.push(done));
  const { record } = await settled(model);
  stop();
  if (record === null) throw new Error('No plan.');
  expect(record).toMatchObject({ minutes: 10, answers: 0, groups: ['Limits'] });
  expect(record.labels).toHaveLength(record.plan.itemRecall.length);
  expect(record.plan).toMatchObject({ kind: 'planned', checkDay: Date.parse(CHECK) / DAY });
  expect(record.outlook?.kept.groups).toHaveLength(1);
  expect(record.advice?.others.map(({ minutes }) => minutes)).toEqual([5, 10, 15, 20]);
  expect(model.plan('fictional')).toBe(record.plan);
  // What a report says of it is what the Brief says; before the advice is there it says nothing.
  expect(planSaid(record)).toEqual({ minutes: 10, recall: record.plan.recall, needed: record.advice?.enough });
  expect(planSaid({ ...record, advice: null })).toBeNull();
  expect(planSaid(null)).toBeNull();
  // Told as it goes on, never back.
  expect(new Set(told).size).toBeGreaterThan(4);
  expect(told).toEqual([...told].sort((a, b) => a - b));
  expect(planners.disposed).toBe(1);
  await stored(bench);

  const later = createPlanModel(await bench.again());
  await later.look('fictional');
  expect(later.now('fictional').value.state).toBe('ready');
  expect(later.plan('fictional')).toEqual(record.plan);
  expect(planners.asked).toHaveLength(1);
});

test('an answer makes no new plan; minutes, the date and the next day do, the last with the prices of the day before', async () => {
  const { bench, learner, planners } = await benchTo();
  const model = createPlanModel(learner);
  await settled(model);
  await learner.append(answered(learner, 'one', 'right'));
  const before = await settled(model);
  expect(planners.asked).toHaveLength(1);

  bench.at += DAY;
  expect((await settled(model)).record?.plan.day).toBe((before.record?.plan.day ?? 0) + 1);
  expect(planners.asked).toHaveLength(2);
  expect(planners.asked[1]?.from?.prices).toEqual(before.record?.plan.prices);
  expect(Array.from(planners.asked[1]?.items.gap ?? []).sort()).toEqual([-1, -1, -1, 1]);

  await learner.set('minutes/fictional', 20);
  expect((await settled(model)).record?.minutes).toBe(20);
  expect(planners.asked).toHaveLength(3);

  // Of another check nothing is taken over, and until there is a new one the drill has none.
  await learner.set('check-date/fictional', '2026-12-01');
  expect(model.plan('fictional')).toBeNull();
  await settled(model);
  expect(planners.asked).toHaveLength(4);
  expect(planners.asked[3]?.from).toBeUndefined();
  expect(model.plan('fictional')?.checkDay).toBe(Date.parse('2026-12-01') / DAY);
});

test('yesterday its plan still serves the drill until the one of today is there', async () => {
  const { bench, learner } = await benchTo();
  const model = createPlanModel(learner);
  const { record } = await settled(model);
  bench.at += DAY;
  await model.look('fictional');
  expect(model.now('fictional').value.state).toBe('working');
  expect(model.plan('fictional')).toBe(record?.plan);
  await until(model.now('fictional'), over);
  expect(model.plan('fictional')?.day).toBe((record?.plan.day ?? 0) + 1);
});

test('another wish while it is worked out: the first is given up', async () => {
  const { learner, planners } = await benchTo();
  const model = createPlanModel(learner);
  await model.look('fictional');
  await expect.poll(() => planners.signals.length, { interval: 1 }).toBe(1);
  await learner.set('minutes/fictional', 5);
  expect((await settled(model)).record?.minutes).toBe(5);
  expect(planners.signals.map(({ aborted }) => aborted)).toEqual([true, false]);
  expect(planners.disposed).toBe(2);
});

describe('what goes wrong leaves practice as it is', () => {
  test('the planner cannot be loaded', async () => {
    const bench = await benchOf(LIMITS, { planner: () => Promise.reject(new TypeError('Failed to fetch')) });
    await bench.learner.set('check-date/fictional', CHECK);
    const model = createPlanModel(bench.learner);
    expect(await settled(model)).toMatchObject({ state: 'failed', record: null });
    expect(model.plan('fictional')).toBeNull();
  });
  test('it dies after the plan: the plan serves', async () => {
    const { learner, planners } = await benchTo();
    const dead = async (): Promise<Planner> => ({
      ...(await planners.connect()),
      outlook: () => Promise.reject(new Error('killed')),
    });
    const model = createPlanModel({ ...learner, device: { ...learner.device, planner: dead } });
    const { state, record } = await settled(model);
    expect(state).toBe('failed');
    expect(model.plan('fictional')).toBe(record?.plan);
    expect(record?.plan.kind).toBe('planned');
  });
  test.each([
    ['of another version', () => ({ v: 2 })],
    ['a text', () => 'plan'],
    ['torn', (record: object) => ({ ...record, plan: { kind: 'planned' } })],
    ['of more classes', (record: { plan: object }) => ({ ...record, plan: { ...record.plan, classes: [1, 2, 3, 4] } })],
  ])('what is stored is %s: it is worked out anew', async (_, spoil) => {
    const { bench, learner, planners } = await benchTo();
    await settled(createPlanModel(learner));
    await stored(bench);
    const kept = (await bench.store.device.get('plan/fictional')) as { plan: object };
    await bench.store.device.put('plan/fictional', spoil(kept));
    const model = createPlanModel(await bench.again());
    expect((await settled(model)).state).toBe('ready');
    expect(planners.asked).toHaveLength(2);
  });
});

test.each([
  ['missing', () => undefined],
  ['those of another plan', (part: object) => ({ ...part, key: 'another' })],
  ['a text', (part: object) => ({ ...part, gain: 'a' })],
])('tables kept beside it are %s: it is worked out anew', async (_, spoil) => {
  const { bench, learner, planners } = await benchTo();
  await settled(createPlanModel(learner));
  await stored(bench);
  const kept = (await bench.store.device.get('plan/fictional/0')) as object;
  await bench.store.device.put('plan/fictional/0', spoil(kept));
  expect((await settled(createPlanModel(await bench.again()))).state).toBe('ready');
  expect(planners.asked).toHaveLength(2);
});

describe('a check date of some procedures', () => {
  const RUNS: Deck = {
    ...LIMITS,
    id: 'calder/runs',
    procedures: ['before', 'after'].map((id) =>
      flow(
        [0, 1, 2, 3].map((i) => ({ id: `${id}-${i}`, do: word(i) })),
        { id, title: `Invented ${id}` },
      ),
    ),
  };
  const begun = async (groups: unknown) => {
    const { learner } = await benchOf(RUNS);
    await learner.set('check-date/fictional', CHECK);
    await learner.set('check-groups/fictional', groups);
    return learner;
  };
  const group = (date: string, things = ['calder/runs#before']) => ({ id: 'g', name: 'Session 3', date, things });
  const today = Date.parse('2026-11-25') / DAY;
  const dayOf = (learner: Learner, title: string): number[] => {
    const ask = planAsk(learner, 'fictional');
    if (ask === null) throw new Error('Nothing is asked.');
    const g = ask.groups.findIndex((one) => one.startsWith(title));
    return [...ask.groupOf].flatMap((one, row) => (one === g ? [(ask.input.items.checkDay?.[row] ?? -1) - today] : []));
  };

  test('its items are planned for it, all others for the check of all', async () => {
    const learner = await begun([group('2026-11-27')]);
    expect(new Set(dayOf(learner, 'Invented before'))).toEqual(new Set([2]));
    expect(new Set(dayOf(learner, 'Invented after'))).toEqual(new Set([4]));
    expect(new Set(dayOf(learner, 'Limits'))).toEqual(new Set([4]));
    expect(planAsk(learner, 'fictional')?.input.checkDay).toBe(today + 4);
    expect(planAsk(learner, 'fictional')?.groups).toContain('Invented before · Fri 27 Nov');
  });
  test('in two groups: the earlier day', async () => {
    const learner = await begun([group('2026-11-28'), { ...group('2026-11-26'), id: 'h' }]);
    expect(new Set(dayOf(learner, 'Invented before'))).toEqual(new Set([1]));
  });
  test.each([
    ['past', [group('2026-11-24')]],
    ['today', [group('2026-11-25')]],
    ['later than the check of all', [group('2026-12-24')]],
    ['of a procedure that is not there', [group('2026-11-27', ['calder/other#before'])]],
    ['no day at all', [group('2026-13-45')]],
    ['no group', [null, 7, { id: 1 }, { ...group('2026-11-27'), things: 'all' }]],
    ['no list', 'soon'],
  ])('%s: it counts for the check of all', async (_, groups) => {
    const ask = planAsk(await begun(groups), 'fictional');
    expect(ask?.groups).toContain('Invented before');
    expect(new Set(Array.from(ask?.input.items.checkDay ?? [today + 4]))).toEqual(new Set([today + 4]));
  });
  test('a new one makes another plan', async () => {
    const learner = await begun([]);
    const before = planKey(learner, 'fictional');
    await learner.set('check-groups/fictional', [group('2026-11-27')]);
    expect(planKey(learner, 'fictional').same).not.toBe(before.same);
  });
});
