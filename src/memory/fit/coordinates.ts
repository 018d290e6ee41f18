import { DEFAULT_WEIGHTS, WEIGHT_RANGES } from '../fsrs.ts';

/** One direction in which weights may leave the defaults: 0 is the default, the prior is normal with deviation 1. */
interface Coordinate {
  readonly weight: number;
  /** `factor`: w = default · exp(spread · x). `sum`: w = default + spread · x. */
  readonly how: 'factor' | 'sum';
  /** Deviation between learners before anything is known of this one. */
  readonly spread: number;
}

const factor = (weight: number, spread: number): Coordinate => ({ weight, how: 'factor', spread });
const sum = (weight: number, spread: number): Coordinate => ({ weight, how: 'sum', spread });

/**
 * The weights that answers tell of. Of all 21 these have the most Fisher information, in units of the prior, in logs
 * of simulated learners (100 to 10,000 answers); to fit the others too gained nothing at 100 and 1,000 answers.
 * Left at the defaults: w3, since no first answer is fluent; w4, w5, w7 (difficulty at first, and its way back),
 * w12, w14 (stability after a miss: w11 and w13 say enough), w16 (few answers are fluent), w17 to w19 (repeats on the
 * same day, of which nothing is predicted).
 *
 * The spreads are about half of those that the optimizer of the model's authors uses for its own penalty
 * (github.com/open-spaced-repetition/fsrs-rs, src/training.rs), less where the range allows no more, as factors where
 * a weight must be positive: the answers of one run or one day hang together and tell less than they are counted for.
 */
export const COORDINATES: readonly Coordinate[] = [
  // Stability after a first answer that was missed, unsure, sound.
  factor(0, 0.5),
  factor(1, 0.5),
  factor(2, 0.5),
  // How far an answer moves difficulty.
  sum(6, 0.4),
  // Growth of stability: how much, less where it is great already, more where it was nearly forgotten.
  sum(8, 0.25),
  sum(9, 0.08),
  sum(10, 0.22),
  // What a miss leaves.
  sum(11, 0.2),
  sum(13, 0.07),
  // How much less an unsure answer is worth.
  sum(15, 0.13),
  // How flat forgetting is.
  factor(20, 0.35),
];

/** The weights at a place, each within its range. */
export const weightsAt = (x: ArrayLike<number>): Float64Array => {
  const w = Float64Array.from(DEFAULT_WEIGHTS);
  for (const [i, { weight, how, spread }] of COORDINATES.entries()) {
    const usual = w[weight] as number;
    const by = spread * (x[i] as number);
    const [low, high] = WEIGHT_RANGES[weight] as readonly [number, number];
    w[weight] = Math.min(high, Math.max(low, how === 'factor' ? usual * Math.exp(by) : usual + by));
  }
  return w;
};

/**
 * Derivatives by the coordinates.
 * @param byWeight those by w0..w20
 * @param w the weights there
 * @param out written into
 */
export const byCoordinates = (byWeight: Float64Array, w: Float64Array, out: Float64Array): void => {
  for (const [i, { weight, how, spread }] of COORDINATES.entries()) {
    const [low, high] = WEIGHT_RANGES[weight] as readonly [number, number];
    const now = w[weight] as number;
    const free = now > low && now < high;
    out[i] = free ? (byWeight[weight] as number) * spread * (how === 'factor' ? now : 1) : 0;
  }
};
