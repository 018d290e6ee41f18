/** A prediction and what came of it. */
export interface Prediction {
  /** Chance to be right that was predicted, 0..1: with guessing, g + (1 - g) R. */
  readonly p: number;
  readonly right: boolean;
}

/** What is predicted for certain and does not come costs -ln 1e-15, as in scikit-learn's log_loss before 1.3. */
const SURE = 1e-15;

/** Mean logarithmic loss, nats (Good 1952); 0 is perfect, ln 2 a coin. Null where there is nothing. */
export const logLoss = (list: readonly Prediction[]): number | null =>
  meanOf(list, ({ p, right }) => -Math.log(Math.min(1, Math.max(SURE, right ? p : 1 - p))));

/** Mean squared error of the predicted chance (Brier 1950), 0..1; 0.25 is a coin. Null where there is nothing. */
export const brier = (list: readonly Prediction[]): number | null =>
  meanOf(list, ({ p, right }) => (p - (right ? 1 : 0)) ** 2);

/** A prediction's bin of so many of equal width; 1 belongs to the last. */
export const binOf = (p: number, bins: number): number => Math.min(bins - 1, Math.max(0, Math.floor(p * bins)));

/**
 * RMSE(bins): root of the mean, over answers, of the squared difference between mean prediction and share right of
 * the answer's bin; the reliability part of the Brier score (Murphy 1973). Null where there is nothing.
 */
export const rmseBins = (list: readonly Prediction[], bins = 20): number | null => {
  if (list.length === 0) return null;
  const off = new Float64Array(bins);
  const count = new Float64Array(bins);
  for (const { p, right } of list) {
    const bin = binOf(p, bins);
    off[bin] = (off[bin] as number) + p - (right ? 1 : 0);
    count[bin] = (count[bin] as number) + 1;
  }
  const squares = off.reduce((sum, one, bin) => sum + (one === 0 ? 0 : (one * one) / (count[bin] as number)), 0);
  return Math.sqrt(squares / list.length);
};

const meanOf = <T>(list: readonly T[], value: (one: T) => number): number | null =>
  list.length === 0 ? null : list.reduce((sum, one) => sum + value(one), 0) / list.length;
