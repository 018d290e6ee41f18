import fc from 'fast-check';
import { expect, test } from 'vitest';
import { seeded } from '../../../../src/lib/random.ts';
import { calibrationIndex, loess } from '../../../../src/memory/calibration/loess.ts';
import {
  compare,
  predictionsOf,
  reliabilityTable,
  shareOf,
  sureShare,
} from '../../../../src/memory/calibration/reliability.ts';
import { brier, logLoss, type Prediction, rmseBins } from '../../../../src/memory/calibration/scores.ts';

const listOf = (right: readonly number[], p: readonly number[]): Prediction[] =>
  p.map((one, i) => ({ p: one, right: right[i] === 1 }));

const TEN = listOf([1, 1, 0, 1, 0, 1, 1, 0, 1, 1], [0.9, 0.8, 0.3, 0.7, 0.6, 0.95, 0.4, 0.2, 0.85, 0.6]);
const FOUR = listOf([1, 0, 1, 1], [0.9, 0.1, 0.8, 0.7]);

/** So many answers, each right with the chance `truth` gives for its prediction. */
const answers = (seed: number, n: number, truth: (p: number) => number): Prediction[] => {
  const random = seeded(seed);
  return Array.from({ length: n }, () => {
    const p = 0.5 + 0.5 * random();
    return { p, right: random() < truth(p) };
  });
};

test('log loss and Brier score as scikit-learn has them (log_loss, brier_score_loss)', () => {
  expect(logLoss(TEN)).toBeCloseTo(0.3822216817563337, 14);
  expect(brier(TEN)).toBeCloseTo(0.1175, 14);
  expect(logLoss(FOUR)).toBeCloseTo(0.19763488164214868, 14);
  expect(brier(FOUR)).toBeCloseTo(0.0375, 14);
});

test('calibration index as statsmodels has it (lowess with frac 0.75, it 0)', () => {
  expect(calibrationIndex(TEN)).toBeCloseTo(0.0989305869, 10);
});

test('nothing answered has no scores; certain and wrong costs much, but not all', () => {
  expect([logLoss([]), brier([]), rmseBins([]), calibrationIndex([])]).toEqual([null, null, null, null]);
  expect(logLoss([{ p: 1, right: false }])).toBeCloseTo(-Math.log(1e-15), 10);
  expect(logLoss([{ p: 1, right: true }])).toBe(0);
  expect(calibrationIndex([{ p: 0.8, right: true }])).toBeCloseTo(0.2, 12);
});

test('RMSE(bins) by hand: 0.9 predicted, three of four right; 0.1 predicted, none of four', () => {
  const list = listOf([1, 1, 1, 0, 0, 0, 0, 0], [0.9, 0.9, 0.9, 0.9, 0.1, 0.1, 0.1, 0.1]);
  // (4 · 0.15² + 4 · 0.1²) / 8
  expect(rmseBins(list)).toBeCloseTo(Math.sqrt((0.15 ** 2 + 0.1 ** 2) / 2), 12);
  expect(rmseBins([{ p: 1, right: true }])).toBe(0);
});

test('Wilson intervals as Newcombe 1998, table I, method 3', () => {
  const cases = [
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
  ] as const;
  for (const [right, of, low, high] of cases) {
    const share = shareOf(right, of);
    expect(share.low).toBeCloseTo(low, 4);
    expect(share.high).toBeCloseTo(high, 4);
  }
  expect(shareOf(0, 0)).toEqual({ right: 0, of: 0, share: null, low: 0, high: 1 });
  expect(shareOf(20, 20).high).toBe(1);
});

test('a straight line is left as it is, whatever its points', () => {
  const point = fc.double({ min: 0, max: 1, noNaN: true });
  fc.assert(
    fc.property(fc.array(point, { minLength: 1, maxLength: 60 }), (list) => {
      const x = [...list].sort((a, b) => a - b);
      const fitted = loess(
        x,
        x.map((one) => 3 - 2 * one),
      );
      for (const [i, one] of x.entries()) expect(fitted[i]).toBeCloseTo(3 - 2 * one, 6);
    }),
  );
});

/** The definition once more, the slow way: nearest points by sorting, weighted least squares by its normal equations. */
const slowLoess = (x: readonly number[], y: readonly number[]): number[] =>
  x.map((at) => {
    const near = x
      .map((one, i) => ({ away: Math.abs(one - at), x: one, y: y[i] as number }))
      .sort((a, b) => a.away - b.away)
      .slice(0, Math.floor(0.75 * x.length));
    const radius = near[near.length - 1]?.away ?? 0;
    let [w, wx, wy, wxx, wxy] = [0, 0, 0, 0, 0];
    for (const one of near) {
      const weight = (1 - (one.away / radius) ** 3) ** 3;
      w += weight;
      wx += weight * one.x;
      wy += weight * one.y;
      wxx += weight * one.x * one.x;
      wxy += weight * one.x * one.y;
    }
    const slope = (w * wxy - wx * wy) / (w * wxx - wx * wx);
    return (wy - slope * wx) / w + slope * at;
  });

test('the curve is that of the definition; from 1,000 points on nearly', () => {
  for (const [n, digits] of [
    [300, 9],
    [1500, 3],
  ] as const) {
    const list = answers(n, n, (p) => p * p).sort((a, b) => a.p - b.p);
    const x = list.map(({ p }) => p);
    const y = list.map(({ right }) => (right ? 1 : 0));
    const slow = slowLoess(x, y);
    for (const [i, height] of loess(x, y).entries()) expect(height).toBeCloseTo(slow[i] as number, digits);
  }
});

test('many equal predictions: their share right', () => {
  const list = Array.from({ length: 200 }, (_, i): Prediction => ({ p: 0.9, right: i % 4 !== 0 }));
  expect(calibrationIndex(list)).toBeCloseTo(0.15, 12);
  const mixed = [...list, { p: 0.2, right: false }, { p: 0.99, right: true }];
  expect(calibrationIndex(mixed)).toBeCloseTo((200 * 0.15 + 0.2 + 0.01) / 202, 2);
});

test('what is predicted as it comes has an index near 0; what is a tenth too high, near a tenth', () => {
  expect(calibrationIndex(answers(1, 4000, (p) => p))).toBeLessThan(0.02);
  const tooHigh = calibrationIndex(answers(2, 4000, (p) => p - 0.1));
  expect(tooHigh).toBeGreaterThan(0.08);
  expect(tooHigh).toBeLessThan(0.12);
});

test('predicted against actual: the sentence, and whether anything speaks against it', () => {
  const list = Array.from({ length: 240 }, (_, i): Prediction => ({ p: 0.9, right: i >= 29 }));
  const told = compare(list);
  expect(told).toMatchObject({ right: 211, of: 240, agrees: true });
  expect(told.predicted).toBeCloseTo(0.9, 12);
  expect(Math.round(100 * (told.share ?? 0))).toBe(88);
  expect(compare(list.map((one) => ({ ...one, p: 0.97 }))).agrees).toBe(false);
  expect(compare([])).toEqual({ right: 0, of: 0, share: null, low: 0, high: 1, predicted: null, agrees: true });
});

test('the table has a row for each tenth in which something was predicted, and all answers once', () => {
  const table = reliabilityTable(answers(3, 500, (p) => p));
  expect(table.map(({ from }) => from)).toEqual([0.5, 0.6, 0.7, 0.8, 0.9]);
  expect(table.reduce((sum, { of }) => sum + of, 0)).toBe(500);
  for (const { from, to, predicted } of table) {
    expect(predicted).toBeGreaterThanOrEqual(from);
    expect(predicted).toBeLessThan(to);
  }
  expect(reliabilityTable([{ p: 1, right: true }])).toMatchObject([{ from: 0.9, to: 1, of: 1 }]);
});

test('predictions of outcomes: guessing counted in, first answers left out; of Sure all items', () => {
  const outcomes = [
    { predicted: { a: 0.8 }, verdicts: { a: 'sound', b: 'missed' }, g: 0.25, sure: true },
    { predicted: { a: 0.5 }, verdicts: { a: 'missed' }, g: 0, sure: false },
    { predicted: {}, verdicts: { c: 'missed' }, g: 0, sure: null },
  ] as const;
  const list = predictionsOf(outcomes);
  expect(list.map(({ right }) => right)).toEqual([true, false]);
  expect(list[0]?.p).toBeCloseTo(0.85, 12);
  expect(list[1]?.p).toBe(0.5);
  expect(sureShare(outcomes)).toMatchObject({ right: 1, of: 2 });
});
