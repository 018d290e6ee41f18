import { signal } from '@preact/signals';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import type { NoSurvey, Survey, SurveyTask } from '../../../src/deck/survey/types.ts';
import type { Json } from '../../../src/lib/canonical-json.ts';
import { createBench } from '../../../src/ui/workshop/bench/bench-model.ts';
import { reasonWords, shareWords } from '../../../src/ui/workshop/bench/words.ts';

test.each([
  [0, 10, '0 %'],
  [1, 1000, 'below 1 %'],
  [1, 8, '13 %'],
  [999, 1000, '99 %'],
  [10, 10, '100 %'],
  [0, 0, '0 %'],
])('%i of %i: %s', (part, whole, words) => {
  expect(shareWords(part, whole)).toBe(words);
});

test.each<[NoSurvey, string]>([
  [{ problem: 'shape', at: '/scenarios/2/asks' }, 'A question is not filled in yet.'],
  [{ problem: 'shape', at: '/scenarios/2/asks/0/number' }, 'A question is not filled in yet.'],
  [{ problem: 'shape', at: '/scenarios/2/draw/a/from' }, 'A drawn value is not filled in yet.'],
  [{ problem: 'errors', at: '/scenarios/2/require/0' }, 'A line under “Drawn so that” must be mended first.'],
  [
    { problem: 'errors', at: '/day/0/from' },
    'Something of the deck that is drawn or asked here too must be mended first.',
  ],
  [{ problem: 'nowhere' }, 'No variant of the deck holds this scenario, so nothing is drawn.'],
])('the reason for nothing: %o', (found, words) => {
  expect(reasonWords(found, '/scenarios/2')).toContain(words);
});

describe('what is looked at', () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());

  const survey = (tried: number): Survey => ({ tried }) as Survey;
  const set = () => {
    const value = signal<Json>({ title: 'a' });
    const asked: { readonly task: SurveyTask; readonly done: (found: Survey | NoSurvey | null) => void }[] = [];
    const fail = { now: false };
    const bench = createBench(
      { value },
      {
        survey: (task) =>
          fail.now ? Promise.reject(new Error('gone')) : new Promise((done) => void asked.push({ task, done })),
      },
      2,
    );
    return { value, asked, fail, bench };
  };

  test('at once when it is opened or asked for, when the keys rest while somebody types', async () => {
    const { value, asked, bench } = set();
    await vi.advanceTimersByTimeAsync(0);
    expect(asked.map(({ task }) => task.scenario)).toEqual([2]);
    for (const title of ['ab', 'abc', 'abcd']) {
      value.value = { title };
      await vi.advanceTimersByTimeAsync(50);
    }
    expect(asked.length).toBe(1);
    await vi.advanceTimersByTimeAsync(1000);
    expect(asked.length).toBe(2);
    bench.want({ seed: 2 });
    await vi.advanceTimersByTimeAsync(0);
    expect(asked[2]?.task.seed).toBe(2);
    bench.dispose();
  });

  test('what came of an older wish is not shown', async () => {
    const { asked, bench } = set();
    await vi.advanceTimersByTimeAsync(0);
    bench.want({ ask: 1 });
    await vi.advanceTimersByTimeAsync(0);
    asked[0]?.done(survey(1));
    await vi.advanceTimersByTimeAsync(0);
    expect([bench.found.value, bench.busy.value]).toEqual([null, true]);
    asked[1]?.done(survey(2));
    await vi.advanceTimersByTimeAsync(0);
    expect([bench.found.value, bench.busy.value]).toEqual([survey(2), false]);
    bench.dispose();
  });

  test('a worker that cannot be had is said; the next look may do', async () => {
    const { asked, fail, bench } = set();
    fail.now = true;
    await vi.advanceTimersByTimeAsync(0);
    expect([bench.failed.value, bench.busy.value]).toEqual([true, false]);
    fail.now = false;
    bench.want({ seed: 3 });
    await vi.advanceTimersByTimeAsync(0);
    asked[0]?.done({ problem: 'errors', at: '' });
    await vi.advanceTimersByTimeAsync(0);
    expect([bench.failed.value, bench.found.value]).toEqual([false, { problem: 'errors', at: '' }]);
    bench.dispose();
  });

  test('nothing is asked after the page is left', async () => {
    const { value, asked, bench } = set();
    bench.dispose();
    value.value = { title: 'b' };
    await vi.advanceTimersByTimeAsync(1000);
    expect(asked).toEqual([]);
  });
});
