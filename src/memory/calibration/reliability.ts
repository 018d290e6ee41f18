import type { Outcome } from '../types.ts';
import { binOf, type Prediction } from './scores.ts';

/** A share and the interval in which the true one lies in 95 of 100 such cases. */
export interface Share {
  readonly right: number;
  readonly of: number;
  /** right / of; null where there is nothing. */
  readonly share: number | null;
  readonly low: number;
  readonly high: number;
}

/** Standard normal quantile at 0.975. */
const Z = 1.959963984540054;

/** Wilson's score interval (Wilson 1927; Brown, Cai & DasGupta 2001): also right for few answers and near 100 %. */
export const shareOf = (right: number, of: number): Share => {
  if (of === 0) return { right: 0, of: 0, share: null, low: 0, high: 1 };
  const share = right / of;
  const z2 = (Z * Z) / of;
  const middle = (share + z2 / 2) / (1 + z2);
  const half = (Z * Math.sqrt((share * (1 - share)) / of + z2 / (4 * of))) / (1 + z2);
  // At the ends rounding would leave 1e-17.
  return {
    right,
    of,
    share,
    low: right === 0 ? 0 : Math.max(0, middle - half),
    high: right === of ? 1 : Math.min(1, middle + half),
  };
};

/** "Predicted 90 %, was 88 % (240 answers)". */
export interface Comparison extends Share {
  /** Mean prediction; null where there is nothing. */
  readonly predicted: number | null;
  /** The prediction lies within the interval of what came: nothing speaks against it. */
  readonly agrees: boolean;
}

export const compare = (list: readonly Prediction[]): Comparison => {
  const actual = shareOf(list.filter(({ right }) => right).length, list.length);
  const predicted = list.length === 0 ? null : list.reduce((sum, { p }) => sum + p, 0) / list.length;
  return { ...actual, predicted, agrees: predicted === null || (predicted >= actual.low && predicted <= actual.high) };
};

export interface ReliabilityRow extends Comparison {
  /** Predictions in [from, to); 1 belongs to the last row. */
  readonly from: number;
  readonly to: number;
}

/** Predicted against actual, by tenths of the predicted chance; rows without answers are left out. */
export const reliabilityTable = (list: readonly Prediction[], bins = 10): ReliabilityRow[] => {
  const rows: Prediction[][] = Array.from({ length: bins }, () => []);
  for (const one of list) rows[binOf(one.p, bins)]?.push(one);
  return rows.flatMap((row, bin) =>
    row.length === 0 ? [] : [{ from: bin / bins, to: (bin + 1) / bins, ...compare(row) }],
  );
};

/**
 * What was predicted of answers, and what came: one for each item that was answered before on another study day.
 * Right by guessing counts as predicted: g + (1 - g) R.
 */
export const predictionsOf = (outcomes: Iterable<Pick<Outcome, 'predicted' | 'verdicts' | 'g'>>): Prediction[] => {
  const out: Prediction[] = [];
  for (const { predicted, verdicts, g } of outcomes)
    for (const [key, r] of Object.entries(predicted))
      out.push({ p: g + (1 - g) * r, right: verdicts[key] !== 'missed' });
  return out;
};

/** Of the items answered with Sure, how many were right. */
export const sureShare = (outcomes: Iterable<Pick<Outcome, 'sure' | 'verdicts'>>): Share => {
  let right = 0;
  let of = 0;
  for (const { sure, verdicts } of outcomes) {
    if (sure !== true) continue;
    for (const verdict of Object.values(verdicts)) {
      of += 1;
      if (verdict !== 'missed') right += 1;
    }
  }
  return shareOf(right, of);
};
