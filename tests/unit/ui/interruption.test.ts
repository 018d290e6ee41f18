import { signal } from '@preact/signals';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import type { Session } from '../../../src/drill/types.ts';
import type { AnswerEntry } from '../../../src/model/entry.ts';
import { createDrillModel } from '../../../src/ui/models/drill.ts';
import { type Bench, benchOf, LIMITS } from './learners.ts';

/** A page that a call, a lock or another app hides. */
class Page extends EventTarget {
  visibilityState: 'visible' | 'hidden' = 'visible';
  turn(to: 'visible' | 'hidden'): void {
    this.visibilityState = to;
    this.dispatchEvent(new Event('visibilitychange'));
  }
}

let page: Page;
/** Monotonic ms. */
let clock: number;
let bench: Bench;

beforeEach(async () => {
  page = new Page();
  vi.stubGlobal('document', page);
  clock = 0;
  bench = await benchOf(LIMITS, { elapsed: () => clock });
});
afterEach(() => {
  vi.unstubAllGlobals();
  vi.stubGlobal('navigator', {});
  bench.learner.dispose();
});

test('a call in the middle of a question: neither the drill nor the question gets older', async () => {
  const session = signal<Session | null>(null);
  const drill = await createDrillModel(bench.learner, session);
  await drill.start('fictional');
  await drill.readDone();
  const stop = drill.watchTime();
  clock += 4000;
  page.turn('hidden');
  expect(session.value?.used).toBeCloseTo(4, 6);
  // An hour on the phone.
  clock += 3_600_000;
  page.turn('visible');
  expect(session.value?.used).toBeCloseTo(4, 6);
  clock += 3000;
  await drill.answer(null, []);
  stop();
  expect(session.value?.used).toBeCloseTo(7, 6);
  const [answer] = (await bench.entries()).filter((one): one is AnswerEntry => one.k === 'answer');
  expect(answer?.ms).toBeCloseTo(7000, 6);
});

test('a drill that goes on while the page is hidden does not count until it is seen', async () => {
  const session = signal<Session | null>(null);
  const drill = await createDrillModel(bench.learner, session);
  await drill.start('fictional');
  await drill.readDone();
  page.visibilityState = 'hidden';
  const stop = drill.watchTime();
  clock += 60_000;
  expect(session.value?.used).toBe(0);
  page.turn('visible');
  clock += 2000;
  stop();
  expect(session.value?.used).toBeCloseTo(2, 6);
  // Left: nothing more is counted, whatever the page does.
  clock += 9000;
  page.turn('hidden');
  page.turn('visible');
  expect(session.value?.used).toBeCloseTo(2, 6);
});
