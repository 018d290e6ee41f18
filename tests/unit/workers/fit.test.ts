import { expect, test } from 'vitest';
import { toLine } from '../../../src/log/line.ts';
import { DEFAULT_WEIGHTS } from '../../../src/memory/fsrs.ts';
import { OWN_MEMORY } from '../../../src/memory/own-weights.ts';
import type { Entry } from '../../../src/model/entry.ts';
import type { Store } from '../../../src/model/ports.ts';
import { fitLines } from '../../../src/workers/fit.ts';
import { fitAway } from '../../../src/workers/fit-client.ts';
import { foldLines } from '../../../src/workers/fold.ts';

const DAY = 86_400_000;
const FACTS = { critical: [], decision: [], today: [] };
const base = { v: 1 as const, off: 0, app: 't' };

/** Ten items, each answered on 25 days: 240 answers with a prediction. */
const log = Array.from({ length: 250 }, (_, n): Entry => {
  const item = n % 10;
  return {
    ...base,
    id: `w.${n + 1}`,
    at: Date.UTC(2026, 10, 1, 12) + Math.floor(n / 10) * 2 * DAY + item * 1000,
    k: 'answer',
    deck: 'd/x@0123456789abcdef',
    form: 'limit',
    about: { thing: 's' },
    variant: '',
    shown: {},
    given: null,
    sure: true,
    ms: 3000,
    marks: { [`d/x#s${item}.value~z`]: (n * 7) % 5 < 3 ? 'wrong' : 'right' },
    g: 0.01,
    mv: 1,
  };
});
const lines = log.map(toLine);
const store = {
  log: { all: async (onChunk: (part: readonly string[]) => void) => onChunk(lines) },
} as unknown as Store;
const weightsIn = (value: unknown) => (value as { weights: readonly number[] }).weights;

test('a log becomes weights; where workers do not start on this thread, and a stop is a stop', async () => {
  const fit = fitLines({ ...FACTS, lines });
  expect(fit).toMatchObject({ accepted: true, answers: 240 });
  expect(JSON.parse(JSON.stringify(fit))).toEqual(fit);
  expect(await fitAway(store, FACTS, new AbortController().signal)).toEqual(fit);
  await expect(fitAway(store, FACTS, AbortSignal.abort())).rejects.toMatchObject({ name: 'AbortError' });
});

test('a fold uses the weights that it is given, unless the log says no, by its last word', () => {
  const weights = DEFAULT_WEIGHTS.map((w, i) => (i === 0 ? w * 2 : w));
  const set = (n: number, value: boolean): Entry => ({
    ...base,
    id: `w.${300 + n}`,
    at: (log.at(-1)?.at ?? 0) + n * 1000,
    k: 'set',
    key: OWN_MEMORY,
    value,
  });
  const foldOf = (more: readonly Entry[], tell?: string) =>
    foldLines({ ...FACTS, lines: [...more.map(toLine), ...lines], weights, ...(tell !== undefined && { tell }) });
  expect(weightsIn(foldOf([]).value)).toEqual(weights);
  expect(weightsIn(foldOf([set(1, false)]).value)).toEqual(DEFAULT_WEIGHTS);
  expect(weightsIn(foldOf([set(1, false), set(2, true)]).value)).toEqual(weights);
  expect(weightsIn(foldLines({ ...FACTS, lines }).value)).toEqual(DEFAULT_WEIGHTS);
  // What an answer did is told by the weights in use.
  const usual = foldLines({ ...FACTS, lines, tell: 'w.11' }).outcome;
  expect(foldOf([set(1, false)], 'w.11').outcome).toEqual(usual);
  expect(foldOf([], 'w.11').outcome?.predicted).not.toEqual(usual?.predicted);
});
