import { expect, test } from 'vitest';
import { before, excessLoss, learnerWeights, practise, timeOf } from '../../../../bench/learner.ts';
import { seeded } from '../../../../src/lib/random.ts';
import { fitIsDue } from '../../../../src/memory/fit/due.ts';
import { fitWeights, predictedAnswers } from '../../../../src/memory/fit/fit-weights.ts';
import type { History, PastAnswer } from '../../../../src/memory/fit/histories.ts';
import { DEFAULT_WEIGHTS, memoryModel, WEIGHT_RANGES } from '../../../../src/memory/fsrs.ts';
import type { Verdict } from '../../../../src/model/item.ts';

const DAY = 86_400_000;

/** One item asked every `gap` days. */
const history = (answers: number, gap: number, verdict: (n: number) => Verdict): History =>
  Array.from(
    { length: answers },
    (_, n): PastAnswer => ({
      gap: n === 0 ? 0 : gap,
      verdict: verdict(n),
      g: 0.01,
      at: n * gap * DAY,
      moves: true,
      counts: true,
    }),
  );

const within = (weights: readonly number[]) =>
  weights.every((w, i) => {
    const [low, high] = WEIGHT_RANGES[i] ?? [Number.NaN, Number.NaN];
    return w >= low && w <= high;
  });

test('nothing answered, and too little: the defaults, and it says so', () => {
  const none = { weights: DEFAULT_WEIGHTS, accepted: false, why: 'few', logLoss: null, heldOut: 0 };
  expect(fitWeights([])).toEqual({ ...none, answers: 0, used: 0 });
  expect(fitWeights([[]])).toEqual({ ...none, answers: 0, used: 0 });
  expect(fitWeights([history(100, 2, () => 'sound')])).toEqual({ ...none, answers: 99, used: 99 });
});

test('repeats on the same day and first answers predict nothing and count for nothing', () => {
  const same = Array.from({ length: 300 }, () => history(4, 0, () => 'sound'));
  expect(predictedAnswers(same)).toBe(0);
  expect(fitWeights(same).why).toBe('few');
});

test('due at 200 predicted answers and after each hundred more', () => {
  expect([199, 200, 5000].map((n) => fitIsDue(n, null))).toEqual([false, true, true]);
  expect([299, 300, 301].map((n) => fitIsDue(n, 200))).toEqual([false, true, true]);
});

test('all right: memory lasts longer than by the defaults; all wrong: less long', () => {
  const rightList = Array.from({ length: 30 }, () => history(8, 4, () => 'sound'));
  const wrongList = Array.from({ length: 30 }, () => history(8, 4, () => 'missed'));
  const right = fitWeights(rightList);
  const wrong = fitWeights(wrongList);
  const after = (weights: readonly number[], verdict: Verdict) => {
    const model = memoryModel(weights);
    return model.chance(model.next(null, 0, verdict).s, 4);
  };
  expect(right).toMatchObject({ accepted: true, why: 'better', answers: 210, used: 210 });
  expect(wrong).toMatchObject({ accepted: true, why: 'better', answers: 210, used: 210 });
  expect(after(right.weights, 'sound')).toBeGreaterThan(after(DEFAULT_WEIGHTS, 'sound'));
  expect(after(wrong.weights, 'missed')).toBeLessThan(after(DEFAULT_WEIGHTS, 'missed'));
  expect(within(right.weights)).toBe(true);
  expect(within(wrong.weights)).toBe(true);
});

test('one item with a thousand answers', () => {
  const fit = fitWeights([history(1001, 3, (n) => (n % 5 === 0 ? 'missed' : 'sound'))]);
  expect(fit.answers).toBe(1000);
  expect(fit.heldOut).toBe(400);
  expect(within(fit.weights)).toBe(true);
});

test('all right, and in the last part of the log all wrong: what the first part says of memory is refused', () => {
  const list = Array.from({ length: 30 }, () => history(11, 4, (n) => (n <= 8 ? 'sound' : 'missed')));
  const fit = fitWeights(list);
  expect(fit).toMatchObject({ accepted: false, why: 'worse', weights: DEFAULT_WEIGHTS, heldOut: 120 });
  expect(fit.logLoss?.fitted).toBeGreaterThan(fit.logLoss?.default ?? 0);
});

test('all at one moment: nothing came earlier, so that nothing is learnt', () => {
  const list = history(200, 1, () => 'sound').map((one) => ({ ...one, at: 5 }));
  const fit = fitWeights([list]);
  expect(fit).toMatchObject({ accepted: false, why: 'worse', weights: DEFAULT_WEIGHTS });
  expect(fit.logLoss?.fitted).toBe(fit.logLoss?.default);
});

test('learners who are not as the defaults: later answers predicted nearer to the truth by half at least', () => {
  let byFit = 0;
  let byDefault = 0;
  for (let seed = 1; seed <= 5; seed++) {
    const random = seeded(seed);
    const truth = learnerWeights(random, 1);
    const all = practise(random, truth, { items: 100, scored: 1800 });
    const from = timeOf(all, 1400);
    byFit += excessLoss(all, from, fitWeights(before(all, from)).weights);
    byDefault += excessLoss(all, from, DEFAULT_WEIGHTS);
  }
  expect(byFit).toBeLessThan(byDefault / 2);
});

test('a log of 100,000 answers is thinned by whole items', () => {
  const random = seeded(12);
  const some = practise(random, learnerWeights(random, 0.8), { items: 100, scored: 1000 });
  const list = Array.from({ length: 100 }, () => some).flat();
  const fit = fitWeights(list);
  expect(fit.answers).toBe(100_000);
  expect(fit.used).toBeLessThanOrEqual(24_000);
  expect(fit.used).toBeGreaterThan(16_000);
});

test('stops at once when told to', () => {
  const random = seeded(13);
  const list = practise(random, learnerWeights(random, 1), { items: 60, scored: 400 });
  let left = 12;
  const fit = fitWeights(list, { stopped: () => left-- <= 0 });
  expect(fit).toMatchObject({ accepted: false, why: 'stopped', weights: DEFAULT_WEIGHTS });
  expect(left).toBeGreaterThan(-10);
});
