import { describe, expect, test } from 'vitest';
import { allOffers } from '../../../src/drill/world.ts';
import { draw, offers } from '../../../src/forms/registry.ts';
import { Pace } from '../../../src/memory/pace.ts';
import { itemSeconds } from '../../../src/memory/plan/input.ts';
import { timed } from '../../../src/memory/timed.ts';
import type { Offer } from '../../../src/model/form.ts';
import { play, practiceOf, resolvedDeck } from '../drill/practice.ts';
import { memoryOf } from './memories.ts';

const paced = (name: string, ms: readonly number[]) =>
  memoryOf([], { pace: new Map([[name, new Pace(ms.map(Math.log))]]) });
const limit = { form: 'limit', rows: 1, seconds: 12 } as const;

describe('seconds of a question', () => {
  test('are the first estimate where nothing was measured, or for other rows, or another form', () => {
    const eight = new Array<number>(8).fill(30_000);
    expect(timed(limit, memoryOf([]))).toBe(limit);
    expect(timed(limit, paced('limit/2', eight)).seconds).toBe(12);
    expect(timed(limit, paced('scenario/1', eight)).seconds).toBe(12);
    expect(
      timed({ form: 'limit', seconds: 12 } as Pick<Offer, 'form' | 'rows' | 'seconds'>, paced('limit/1', eight))
        .seconds,
    ).toBe(12);
  });

  test('are, from eight answers on, their median and the reading of the verdict', () => {
    const ms = [3, 5, 5, 6, 6, 7, 90, 4].map((s) => s * 1000);
    // Median of the logarithms: between 5 and 6 s; a verdict is read in 4 s.
    expect(timed(limit, paced('limit/1', ms)).seconds).toBeCloseTo(Math.sqrt(5 * 6) + 4, 9);
    expect(timed({ form: 'run', rows: 10, seconds: 39 }, paced('run/10', ms)).seconds).toBeCloseTo(
      Math.sqrt(30) + 11,
      9,
    );
  });

  test('move from the estimate to what is measured with each answer, and never beyond', () => {
    const at = (n: number) => timed(limit, paced('limit/1', new Array<number>(n).fill(2000))).seconds;
    const list = [0, 1, 2, 3, 4, 5, 6, 7, 8, 20].map(at);
    for (let i = 1; i < 9; i++) expect(list[i]).toBeLessThan(list[i - 1] as number);
    expect(list[4]).toBeCloseTo(Math.sqrt(12 * 6), 9);
    expect(list[8]).toBeCloseTo(6, 9);
    expect(list[9]).toBeCloseTo(6, 9);
  });
});

test('a question says how many rows it shows, as answers are counted by', () => {
  for (const name of ['merrow-takeoff', 'wind-altimetry']) {
    const resolved = resolvedDeck(name);
    for (const offer of offers(resolved, null, 1)) {
      const shown = draw(resolved, offer, 3);
      if (shown === null) continue;
      const { chips, rows, lines, choices, fields } = shown as unknown as Readonly<
        Record<string, unknown[] | undefined>
      >;
      const list = [chips, rows, lines, choices, fields].find((one) => one !== undefined && one.length > 0);
      expect(offer.rows, JSON.stringify(offer.about)).toBe(
        list?.length ?? (shown.form === 'callout' || shown.form === 'list' ? 0 : undefined),
      );
    }
  }
});

test('a drill and a plan count with the time that the learner needs', () => {
  const deck = resolvedDeck('public-rules');
  const practice = practiceOf([deck]);
  const told = (now: { readonly offer: Offer }) => ({ given: null, sure: now.offer.form === 'limit' ? false : null });
  const before = itemSeconds(allOffers(practice.world(0)).map(({ offer }) => offer));
  // A slow learner: Don't know is not measured, all else is.
  for (let day = 0; day < 3; day++)
    play(practice, day, told, { pace: { read: 4, answer: 40, verdict: 5 }, seconds: 900 });
  const [name] = [...practice.memory.pace].find(([, { last }]) => last.length >= 8) ?? [];
  expect(name).toMatch(/^limit/);
  const offered = allOffers(practice.world(3)).map(({ offer }) => offer);
  const slow = offered.filter(({ form, rows }) => `${form}/${rows}` === name);
  expect(slow.length).toBeGreaterThan(5);
  for (const { seconds } of slow) expect(seconds).toBeCloseTo(44, 6);
  const after = itemSeconds(offered);
  const key = slow[0]?.proves[0] ?? '';
  expect(after.get(key)).toBeGreaterThan(2 * (before.get(key) as number));
});
