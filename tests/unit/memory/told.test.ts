import { expect, test } from 'vitest';
import { effective } from '../../../src/log/effective.ts';
import { fold } from '../../../src/memory/fold.ts';
import { DEFAULT_WEIGHTS, memoryModel } from '../../../src/memory/fsrs.ts';
import { emptyMemory } from '../../../src/memory/step.ts';
import { createTold, type Fitted } from '../../../src/memory/told.ts';
import type { Facts, Outcome } from '../../../src/memory/types.ts';
import type { AnswerEntry } from '../../../src/model/entry.ts';

const FACTS: Facts = { of: () => ({ critical: false, decision: false }), today: (key) => key };
const START = Date.UTC(2026, 10, 1, 12);
const DAY = 86_400_000;

/** One item, every second day. */
const log = Array.from(
  { length: 10 },
  (_, n): AnswerEntry => ({
    v: 1,
    id: `w.${n + 1}`,
    at: START + n * 2 * DAY,
    off: 0,
    app: 't',
    k: 'answer',
    deck: 'd/x@0123456789abcdef',
    form: 'limit',
    about: { thing: 's' },
    variant: '',
    shown: {},
    given: null,
    sure: true,
    ms: 3000,
    marks: { 'd/x#s.value~z': n % 3 === 0 ? 'wrong' : 'right' },
    g: 0.01,
    mv: 1,
  }),
);
const WEIGHTS = DEFAULT_WEIGHTS.map((w, i) => (i < 3 ? w * 3 : w));

const predictedBy = (weights: readonly number[]) => {
  const list: Outcome['predicted'][] = [];
  fold(log, FACTS, emptyMemory(memoryModel(weights)), ({ predicted }) => list.push(predicted));
  return list;
};
const told = (fitted: Fitted | null) => {
  const all = createTold(fitted);
  const list = [...effective(log)].map(
    ({ entry, order, timeless }) => all.step(entry, FACTS, order, timeless, true)?.predicted,
  );
  return { all, list };
};

test('what a fit knew is predicted without it, what came later with it', () => {
  const upTo = START + 10 * DAY;
  const { list, all } = told({ weights: WEIGHTS, upTo });
  expect(list.slice(0, 6)).toEqual(predictedBy(DEFAULT_WEIGHTS).slice(0, 6));
  expect(list.slice(6)).toEqual(predictedBy(WEIGHTS).slice(6));
  expect(list[6]).not.toEqual(predictedBy(DEFAULT_WEIGHTS)[6]);
  expect(all.at(upTo).model.weights).toEqual(DEFAULT_WEIGHTS);
  expect(all.at(upTo + 1).model.weights).toEqual(WEIGHTS);
  const answers = [all.at(upTo), all.at(upTo + 1)].map((memory) => memory.answers);
  expect(answers).toEqual([10, 10]);
});

test('without own weights all is predicted with the default ones', () => {
  expect(told(null).list).toEqual(predictedBy(DEFAULT_WEIGHTS));
});
