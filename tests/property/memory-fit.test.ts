import fc from 'fast-check';
import { expect, test } from 'vitest';
import { learnerWeights, practise, timeOf } from '../../bench/learner.ts';
import { seeded } from '../../src/lib/random.ts';
import { byCoordinates, COORDINATES, weightsAt } from '../../src/memory/fit/coordinates.ts';
import { fitWeights } from '../../src/memory/fit/fit-weights.ts';
import type { History, PastAnswer } from '../../src/memory/fit/histories.ts';
import { flatten, logLossSum } from '../../src/memory/fit/likelihood.ts';
import { DEFAULT_WEIGHTS, memoryModel, type State } from '../../src/memory/fsrs.ts';

const ALWAYS = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY] as const;

const answer: fc.Arbitrary<PastAnswer> = fc.record({
  gap: fc.oneof(fc.constant(0), fc.integer({ min: 1, max: 400 })),
  verdict: fc.constantFrom('missed', 'unsure', 'sound', 'fluent'),
  g: fc.constantFrom(0, 0.05, 0.3, 0.5),
  at: fc.integer({ min: 0, max: 1000 }),
  moves: fc.boolean(),
  counts: fc.boolean(),
});
const histories: fc.Arbitrary<History[]> = fc.array(
  fc.array(answer, { maxLength: 12 }).map((list) => [...list].sort((a, b) => a.at - b.at)),
  { maxLength: 6 },
);
const weights = fc.integer().map((seed) => learnerWeights(seeded(seed), 0.8));

/** The same by the product's own memory, answer by answer. @param from only what came from this time on */
const plainLoss = (list: readonly History[], w: readonly number[], from = 0): { loss: number; predicted: number[] } => {
  const model = memoryModel(w);
  const predicted: number[] = [];
  let loss = 0;
  for (const history of list) {
    let state: State | null = null;
    for (const { gap, verdict, g, moves, counts, at } of history) {
      if (state !== null && gap > 0 && counts && at >= from) {
        const p = Math.min(1 - 1e-6, g + (1 - g) * model.chance((state as State).s, gap));
        predicted.push(p);
        loss -= Math.log(verdict === 'missed' ? 1 - p : p);
      }
      if (moves) state = model.next(state, gap, verdict);
    }
  }
  return { loss, predicted };
};

test('the fit predicts what the memory of the product predicts, with any weights', () => {
  fc.assert(
    fc.property(histories, weights, (list, w) => {
      const predicted: number[] = [];
      const loss = logLossSum(flatten(list), Float64Array.from(w), ...ALWAYS, null, (p) => predicted.push(p));
      const plain = plainLoss(list, w);
      expect(predicted).toHaveLength(plain.predicted.length);
      for (const [i, p] of predicted.entries()) expect(Math.abs(p - (plain.predicted[i] ?? 0))).toBeLessThan(1e-6);
      expect(Math.abs(loss - plain.loss)).toBeLessThan(1e-4 * (1 + plain.loss));
    }),
    { numRuns: 300 },
  );
});

test('its derivatives are those of finite differences', () => {
  for (let seed = 1; seed <= 6; seed++) {
    const random = seeded(seed);
    const flat = flatten(practise(random, learnerWeights(random, 0.8), { items: 40, scored: 300 }));
    const at = Float64Array.from(learnerWeights(random, 0.5));
    const gradient = new Float64Array(at.length);
    logLossSum(flat, at, ...ALWAYS, gradient);
    for (const i of at.keys()) {
      const h = 1e-6 * Math.max(0.01, at[i] as number);
      const moved = (by: number) => logLossSum(flat, at.with(i, (at[i] as number) + by), ...ALWAYS, null);
      const slope = (moved(h) - moved(-h)) / (2 * h);
      // A branch that changes within h (a clip, the lesser of two) would show here; none does with these seeds.
      expect(Math.abs((gradient[i] as number) - slope)).toBeLessThan(1e-3 * (1 + Math.abs(slope)));
    }
  }
});

test('derivatives by the coordinates too, and none past the end of a range', () => {
  const random = seeded(7);
  const flat = flatten(practise(random, learnerWeights(random, 0.8), { items: 40, scored: 300 }));
  const x = COORDINATES.map(() => random() - 0.5);
  const lossAt = (place: readonly number[]) => logLossSum(flat, weightsAt(place), ...ALWAYS, null);
  const byWeight = new Float64Array(DEFAULT_WEIGHTS.length);
  const gradient = new Float64Array(x.length);
  logLossSum(flat, weightsAt(x), ...ALWAYS, byWeight);
  byCoordinates(byWeight, weightsAt(x), gradient);
  for (const [i, at] of x.entries()) {
    const slope = (lossAt(x.with(i, at + 1e-6)) - lossAt(x.with(i, at - 1e-6))) / 2e-6;
    expect(Math.abs((gradient[i] as number) - slope)).toBeLessThan(1e-3 * (1 + Math.abs(slope)));
  }
  const far = COORDINATES.map(() => 1000);
  byCoordinates(byWeight, weightsAt(far), gradient);
  expect([...gradient]).toEqual(COORDINATES.map(() => 0));
});

test('accepted exactly when later answers are predicted better; else the defaults', () => {
  let accepted = 0;
  for (let seed = 1; seed <= 40; seed++) {
    const random = seeded(seed);
    // From a learner just as the defaults say to one far from them.
    const list = practise(random, learnerWeights(random, (seed % 4) / 3), { items: 30, scored: 150 });
    const fit = fitWeights(list);
    const { logLoss } = fit;
    const later = plainLoss(list, DEFAULT_WEIGHTS, timeOf(list, 90));
    expect(fit.heldOut).toBe(later.predicted.length);
    expect(Math.abs((logLoss?.default ?? 0) - later.loss / later.predicted.length)).toBeLessThan(1e-6);
    expect(fit.why === 'better').toBe(fit.accepted);
    expect(fit.accepted).toBe(logLoss !== null && logLoss.fitted < logLoss.default);
    if (fit.accepted) accepted += 1;
    else expect(fit.weights).toEqual(DEFAULT_WEIGHTS);
    expect(JSON.parse(JSON.stringify(fit))).toEqual(fit);
  }
  expect(accepted).toBeGreaterThan(5);
  expect(accepted).toBeLessThan(40);
});
