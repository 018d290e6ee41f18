import { signal } from '@preact/signals';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import type { Session } from '../../../src/drill/types.ts';
import type { AnswerEntry } from '../../../src/model/entry.ts';
import type { Device } from '../../../src/ui/device.ts';
import { createDrillModel, type DrillModel } from '../../../src/ui/models/drill.ts';
import { createLearner, type Learner } from '../../../src/ui/models/learner.ts';
import { foldAway } from '../../../src/workers/fold-client.ts';
import { deckText, revision } from '../exchange/copies.ts';
import { failCommits } from '../store/faults.ts';
import { AT, entriesIn, freshName, openAt } from '../store/stores.ts';

const never = () => {
  throw new Error('Not used here.');
};
/** A device of which the clock and the fold are used; there are no workers here, so that the fold is done on this thread. */
const device: Device = {
  build: { version: 'test', at: AT - 1000 },
  now: () => AT,
  off: () => 0,
  seed: () => 7,
  elapsed: () => 0,
  demoDecks: never,
  demoText: never,
  check: never,
  contentId: never,
  classDoor: never,
  workshop: never,
  planner: never,
  calendar: never,
  lookBack: never,
  refold: (store, facts, how) => foldAway(store, { ...facts, ...how }),
  fit: never,
  save: never,
  signing: never,
  qrCode: never,
  assigning: never,
  handing: never,
  secondDevice: never,
  readRows: never,
  writeRows: never,
  wakeLock: () => () => undefined,
  vibrate: null,
  updates: { subscribe: never, setBusy: never, accept: never, reload: never },
};

let name: string;
let learner: Learner;
let session: ReturnType<typeof signal<Session | null>>;
let drill: DrillModel;
const begin = async () => {
  learner = await createLearner(device, await openAt(name));
  session = signal((await learner.store.drill.get()) as Session | null);
  drill = await createDrillModel(learner, session as never);
};
/** The page is gone; nothing is closed in order. */
const reload = async () => {
  vi.restoreAllMocks();
  await learner.store.drill.get();
  await begin();
};
beforeEach(async () => {
  name = freshName();
  await begin();
  const { id, version, title, nature, contentId, text } = await revision(deckText());
  await learner.install({ id, version, title, nature, contentId, text });
  await drill.start('fictional');
  await drill.readDone();
  expect(session.value?.now.kind).toBe('ask');
});
afterEach(async () => {
  vi.restoreAllMocks();
  learner.dispose();
  await learner.store.close();
  vi.stubGlobal('navigator', {});
});

const answers = async () => (await entriesIn(learner.store)).filter(({ k }) => k === 'answer');
const verdict = () => {
  const now = session.value?.now;
  return now?.kind === 'verdict' ? now : null;
};

test('an answer that is stored: the verdict knows its entry, and nothing is to be said', async () => {
  await drill.answer(null, []);
  const [written] = await answers();
  expect(verdict()).toMatchObject({ entry: written?.id, sure: null });
  expect(Object.values(verdict()?.verdicts ?? {})).toEqual(['missed']);
  expect(learner.problem.value).toBeNull();
  expect(learner.memory.value.answers).toBe(1);
});

describe('an answer that cannot be stored', () => {
  test('keeps its verdict on the screen, and it is said what to do', async () => {
    failCommits('QuotaExceededError', { times: 1000 });
    await drill.answer(null, []);
    expect(verdict()).toMatchObject({ sure: null, entry: null });
    expect(Object.values(verdict()?.marked.marks ?? {})).toEqual(['told']);
    expect(learner.problem.value).toMatch(/no room left.*try again/);
    // The screen is not frozen, and what is not in the log is not counted.
    expect(drill.busy.value).toBe(false);
    expect(learner.memory.value.answers).toBe(0);
    expect(learner.store.log.unsaved).toMatchObject([{ k: 'answer', drill: session.value?.id, at: AT }]);
  });
  test('is written by a retry, once, and counts from then on', async () => {
    failCommits('QuotaExceededError', { times: 1000 });
    await drill.answer(null, []);
    await expect(learner.retry()).rejects.toMatchObject({ fault: 'full' });
    expect(learner.problem.value).toMatch(/no room left/);
    vi.restoreAllMocks();
    await learner.retry();
    expect(learner.problem.value).toBeNull();
    expect(learner.store.log.unsaved).toEqual([]);
    const written = (await answers()) as unknown as AnswerEntry[];
    expect(written).toMatchObject([{ drill: session.value?.id, sure: null, at: AT }]);
    expect(learner.memory.value.answers).toBe(1);
    expect(learner.memory.value.items.size).toBe(1);
    // The verdict on the screen learns of it: it can be taken back and queried, and counts in the Debrief.
    await vi.waitFor(() => expect(verdict()).toMatchObject({ entry: (written[0] as AnswerEntry).id }));
    expect(Object.values(verdict()?.verdicts ?? {})).toEqual(['missed']);
    expect(session.value?.answered.map(({ entry }) => entry)).toEqual([(written[0] as AnswerEntry).id]);
    await learner.retry();
    expect(await answers()).toHaveLength(1);
    expect(learner.memory.value.answers).toBe(1);
  });
  test('is asked again, as it stood, when the page went before it was written', async () => {
    drill.draft({ typed: ['181'] });
    failCommits('QuotaExceededError', { times: 1000, of: 'log' });
    await drill.answer(true, []);
    await reload();
    expect(session.value?.now).toMatchObject({ kind: 'ask' });
    expect(session.value?.answered).toEqual([]);
    expect(await answers()).toEqual([]);
    await drill.answer(null, []);
    expect(await answers()).toHaveLength(1);
  });
});

/** The drill's record as it was before the word of the log came, and the page gone. */
const goneBeforeTheWord = async (): Promise<string | undefined> => {
  await drill.answer(null, []);
  const [written] = await answers();
  const now = verdict();
  const before = session.value;
  const [last] = before?.answered ?? [];
  if (before === null || before === undefined || now === null || last === undefined) throw new Error('no verdict');
  learner.store.drill.put({
    ...before,
    now: { ...now, entry: null, verdicts: {} },
    answered: [{ ...last, entry: '', verdicts: {}, predicted: {} }],
  });
  await reload();
  return written?.id;
};

test('an answer that was stored while the page went before it heard of it is not asked again', async () => {
  await learner.saveCheckpoint();
  const id = await goneBeforeTheWord();
  expect(verdict()).toMatchObject({ entry: id });
  expect(Object.values(verdict()?.verdicts ?? {})).toEqual(['missed']);
  expect(await answers()).toHaveLength(1);
});
