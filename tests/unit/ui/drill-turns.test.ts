import { type Signal, signal } from '@preact/signals';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import type { Session } from '../../../src/drill/types.ts';
import { createDrillModel, type DrillModel } from '../../../src/ui/models/drill.ts';
import type { Learner } from '../../../src/ui/models/learner.ts';
import { benchOf, LIMITS } from './learners.ts';

let elapsed: number;
let learner: Learner;
let session: Signal<Session | null>;
let drill: DrillModel;

/** A drill whose first answer is told. */
beforeEach(async () => {
  elapsed = 0;
  ({ learner } = await benchOf(LIMITS, { elapsed: () => elapsed }));
  session = signal(null);
  drill = await createDrillModel(learner, session);
  await drill.start('fictional');
  await drill.readDone();
  await drill.answer(null, []);
  expect(session.value?.now.kind).toBe('verdict');
});
afterEach(() => {
  vi.unstubAllGlobals();
  vi.stubGlobal('navigator', {});
  learner.dispose();
});

test.each([1000, 0])('two taps on Next are one: at once up to %i items', async (atOnce) => {
  drill = await createDrillModel(learner, session, atOnce);
  const { count = 0 } = session.value ?? {};
  await Promise.all([drill.next(), drill.next()]);
  expect(session.value?.count).toBe(count + 1);
  expect(session.value?.now.kind).toBe('ask');
  expect(drill.busy.value).toBe(false);
});

test('of a deck of common size the next question is there within the tap', () => {
  void drill.next();
  expect(session.value?.now.kind).toBe('ask');
});

test.each([1, 2, 3])('time that passes while the next question is chosen counts: in pause %i', async (pause) => {
  vi.stubGlobal('document', {
    visibilityState: 'visible',
    addEventListener: () => undefined,
    removeEventListener: () => undefined,
  });
  drill = await createDrillModel(learner, session, 0);
  const before = session.value;
  const stop = drill.watchTime();
  const shown: (string | undefined)[] = [];
  const watched = session.subscribe((now) => void shown.push(now?.now.kind));
  let pauses = 0;
  vi.stubGlobal('scheduler', {
    yield: async () => {
      pauses += 1;
      if (pauses !== pause) return;
      elapsed += 3000;
      stop();
    },
  });
  await drill.next();
  watched();
  expect(pauses).toBe(3);
  expect(session.value).toMatchObject({ used: (before?.used ?? 0) + 3, count: (before?.count ?? 0) + 1 });
  expect(shown.indexOf('ask')).toBe(shown.length - 1);

  // Without time passing: the same question.
  const { now } = session.value ?? {};
  session.value = before;
  await drill.next();
  expect(session.value?.now).toEqual(now);
});

test('a verdict that outlives its revision still says what it was of', async () => {
  const { title, nature } = LIMITS;
  expect(nature).toBe('fictional');
  const text = JSON.stringify({ ...LIMITS, version: '2.0.0', title: 'Renamed' });
  await learner.install({ id: LIMITS.id, version: '2.0.0', title: 'Renamed', nature, contentId: 'd'.repeat(64), text });
  expect(learner.practised.value.map(({ stored }) => stored.version)).toEqual(['2.0.0']);
  drill = await createDrillModel(learner, session);
  expect(session.value?.now.kind).toBe('verdict');
  expect(drill.about.value).toBe(title);
  expect(drill.nature.value).toBe('fictional');
});
