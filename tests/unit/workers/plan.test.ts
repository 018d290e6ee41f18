import { expect, test } from 'vitest';
import { ADVISED, type OutlookAsk } from '../../../src/memory/outlook.ts';
import type { Plan, PlanInput } from '../../../src/memory/plan/types.ts';
import { workOut } from '../../../src/workers/plan.ts';
import { connectPlanner } from '../../../src/workers/plan-client.ts';
import type { Outside } from '../../../src/workers/remote.ts';

const rows = (n: number, met: number) => ({
  s: Float64Array.from({ length: n }, () => 3),
  d: Float64Array.from({ length: n }, () => 5),
  gap: Int32Array.from({ length: n }, (_, i) => (i < met ? 1 + (i % 3) : -1)),
  critical: Uint8Array.from({ length: n }, (_, i) => (i % 4 === 0 ? 1 : 0)),
  seconds: Float64Array.from({ length: n }, () => 10),
});
/** Made once: it costs the most of all here. */
const made = (): Plan => {
  first ??= workOut({ k: 'plan', input: input() }, () => undefined) as Plan;
  return first;
};
let first: Plan | undefined;
const input = (more: Partial<PlanInput> = {}): PlanInput => ({
  items: rows(24, 12),
  day: 100,
  checkDay: 104,
  minutes: 1,
  ...more,
});
/** A worker that is killed as soon as it is asked something. */
const killed = (): Outside => {
  const crashes: (() => void)[] = [];
  return {
    postMessage: () =>
      queueMicrotask(() => {
        for (const crash of crashes) crash();
      }),
    addEventListener: (type, listener) => {
      if (type === 'error') crashes.push(() => listener({ data: null }));
    },
    terminate: () => undefined,
  };
};
const noWorker = (): Outside => {
  throw new DOMException('no workers here', 'SecurityError');
};
const askOf = (of: PlanInput, plan: Plan): OutlookAsk => ({
  input: of,
  plan,
  groupOf: Int32Array.from(of.items.gap, (_, i) => i % 2),
  groups: 3,
});

test('killed twice in mid-solve: it is done on this thread, and gives what it would have given', async () => {
  const planner = connectPlanner(killed);
  const told: number[] = [];
  const plan = await planner.plan(input(), { onProgress: (done) => told.push(done) });
  planner.dispose();
  expect(plan).toEqual(made());
  expect(plan).toMatchObject({ kind: 'planned', day: 100, checkDay: 104 });
  expect(told.at(-1)).toBe(1);
  expect([...told].sort((a, b) => a - b)).toEqual(told);
});

test('what is to be expected: bands hold their mean, the plan is no worse than nothing, groups without items have none', async () => {
  const planner = connectPlanner(noWorker);
  const plan = made();
  const outlook = await planner.outlook(askOf(input(), plan));
  planner.dispose();
  if (outlook === null) throw new Error('No outlook.');
  const { kept, stopped, idleCurve } = outlook;
  for (const { low, mean, high } of [kept.all, stopped.all]) {
    expect(low).toBeLessThanOrEqual(mean);
    expect(mean).toBeLessThanOrEqual(high);
  }
  expect(kept.all.mean).toBeGreaterThan(stopped.all.mean + 0.1);
  expect(kept.groups.map((band) => band === null)).toEqual([false, false, true]);
  // Nothing is practised: it only falls, and ends where the plan says that it ends.
  expect(idleCurve).toHaveLength(plan.curve.length);
  expect(idleCurve).toEqual([...idleCurve].sort((a, b) => b - a));
  expect(idleCurve.at(-1)).toBeCloseTo(plan.idle as number, 6);
  expect(idleCurve[0]).toBeCloseTo(plan.curve[0] as number, 6);
});

test('other minutes: rising, with those of today among them; what suffices is what first reaches the target', async () => {
  const planner = connectPlanner(noWorker);
  const plan = made();
  const advice = await planner.advice(askOf(input(), plan), 1);
  planner.dispose();
  if (advice === null) throw new Error('No advice.');
  expect(advice.others.map(({ minutes }) => minutes)).toEqual([1, 2, 6, 11]);
  const recalls = advice.others.map(({ recall }) => recall);
  // Prices are found as near as asked, so that plans of nearly the same worth may change places.
  for (const [i, recall] of recalls.entries()) expect(recall).toBeGreaterThanOrEqual((recalls[i - 1] ?? 0) - 0.003);
  expect(recalls[0]).toBe(plan.recall);
  expect(plan.recall).toBeLessThan(ADVISED);
  const enough = advice.enough as number;
  expect(enough).toBeGreaterThan(1);
  const recallAt = (minutes: number) =>
    (workOut({ k: 'plan', input: input({ minutes }) }, () => undefined) as Plan).recall as number;
  expect(recallAt(enough)).toBeGreaterThan(ADVISED - 0.003);
  expect(recallAt(enough - 1)).toBeLessThan(ADVISED + 0.003);
});

test.each([
  ['the check is past', { checkDay: 99 }, 'past'],
  ['it is today', { checkDay: 100 }, 'past'],
  ['in five years', { checkDay: 100 + 5 * 365 }, 'far'],
  ['there is nothing to ask', { items: rows(0, 0) }, 'empty'],
])('%s: no prices, no advice, and no failure', (_, more, kind) => {
  const of = input(more);
  const plan = workOut({ k: 'plan', input: of }, () => undefined) as Plan;
  expect(plan.kind).toBe(kind);
  expect(workOut({ k: 'advice', ask: { input: of, plan }, minutes: 1 }, () => undefined)).toBeNull();
});

test.each([0, 600])('%i minutes a day', async (minutes) => {
  const of = input({ minutes });
  const plan = workOut({ k: 'plan', input: of }, () => undefined) as Plan;
  const advice = workOut({ k: 'advice', ask: { input: of, plan }, minutes }, () => undefined);
  expect(advice).toMatchObject({ others: expect.arrayContaining([expect.objectContaining({ minutes })]) });
});

test('a call that is given up: nothing comes of it', async () => {
  const planner = connectPlanner(killed);
  const stop = new AbortController();
  const call = planner.plan(input(), { signal: stop.signal });
  stop.abort();
  await expect(call).rejects.toMatchObject({ name: 'AbortError' });
  planner.dispose();
});
