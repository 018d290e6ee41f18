import { minimize } from '../../lib/bfgs.ts';
import { DEFAULT_WEIGHTS } from '../fsrs.ts';
import { byCoordinates, COORDINATES, weightsAt } from './coordinates.ts';
import type { History } from './histories.ts';
import { type Flat, flatten, logLossSum } from './likelihood.ts';

/** Fewer predicted answers leave too few to try the weights on. */
const FIT_LEAST = 100;

/** More predicted answers than these tell nothing new: then only every second, third … item is taken. */
const FIT_MOST = 20_000;

/**
 * Shares of the log, by time, from which it is predicted on: fitted to what was before 60 %, tried on the next 20 %;
 * fitted to what was before 80 %, tried on the last 20 %. Simulated learners lost less to wrong refusals by the two
 * tries than by the last one alone (1,000 answers: 0.0013 against 0.0026 nats over the truth; 100 answers: no
 * difference that could be seen).
 */
const HELD_OUT = [
  [0.6, 0.8],
  [0.8, 1],
] as const;

/** JSON. */
export interface Fit {
  /** w0..w20 to be used: the fitted ones where they were accepted, else the defaults. */
  readonly weights: readonly number[];
  readonly accepted: boolean;
  /** `few`: not 100 predicted answers yet. `worse`: later answers were predicted no better than by the defaults. */
  readonly why: 'better' | 'worse' | 'few' | 'stopped';
  /** Answers of which something was predicted, and so many of them the fit looked at. */
  readonly answers: number;
  readonly used: number;
  /** Later answers on which it was tried. */
  readonly heldOut: number;
  /** Mean of the held-out answers, natural logarithm; null where it was not tried. */
  readonly logLoss: { readonly default: number; readonly fitted: number } | null;
}

export interface FitOptions {
  /** Asked some hundred times: true gives up. */
  readonly stopped?: () => boolean;
  /** Predicted answers that are looked at, at most. */
  readonly most?: number;
}

/** Answers of which something was predicted: neither the first of an item, nor a repeat on the same day. */
export const predictedAnswers = (histories: readonly History[]): number => {
  let count = 0;
  for (const one of flatten(histories).scored) count += one;
  return count;
};

/**
 * A learner's own weights of memory: the most likely ones after the answers (MAP), with a normal prior around the
 * defaults. They are accepted only where, fitted to the earlier part of the log, they predict the later part better
 * than the defaults do; then they are fitted again to all of it.
 */
export const fitWeights = (
  histories: readonly History[],
  { stopped = () => false, most = FIT_MOST }: FitOptions = {},
): Fit => {
  const answers = predictedAnswers(histories);
  const stride = Math.max(1, Math.ceil(answers / most));
  const flat = flatten(stride === 1 ? histories : histories.filter((_, i) => i % stride === 0));
  const times = flat.at.filter((_, i) => flat.scored[i] === 1).sort();
  const refused = (why: Fit['why'], tried: Partial<Fit> = {}): Fit => ({
    weights: DEFAULT_WEIGHTS,
    accepted: false,
    why,
    answers,
    used: times.length,
    heldOut: 0,
    logLoss: null,
    ...tried,
  });
  if (times.length < FIT_LEAST) return refused('few');

  const usual = Float64Array.from(DEFAULT_WEIGHTS);
  const timeAt = (share: number): number => times[Math.floor(share * times.length)] ?? Number.POSITIVE_INFINITY;
  let start: Float64Array = new Float64Array(COORDINATES.length);
  let heldOut = 0;
  let byDefault = 0;
  let byFit = 0;
  for (const [from, until] of HELD_OUT) {
    const at = mostLikely(flat, timeAt(from), start, stopped);
    if (stopped()) return refused('stopped');
    start = at;
    byDefault += logLossSum(flat, usual, timeAt(from), timeAt(until), null, () => {
      heldOut += 1;
    });
    byFit += logLossSum(flat, weightsAt(at), timeAt(from), timeAt(until), null);
  }
  const logLoss = { default: byDefault / heldOut, fitted: byFit / heldOut };
  // Also where it is no number.
  if (!(byFit < byDefault)) return refused('worse', { heldOut, logLoss: heldOut === 0 ? null : logLoss });

  const weights = weightsAt(mostLikely(flat, Number.POSITIVE_INFINITY, start, stopped));
  if (stopped()) return refused('stopped');
  return { weights: [...weights], accepted: true, why: 'better', answers, used: times.length, heldOut, logLoss };
};

/** Coordinates that are most likely after all answers before a time. */
const mostLikely = (flat: Flat, until: number, start: Float64Array, stopped: () => boolean): Float64Array => {
  const byWeight = new Float64Array(DEFAULT_WEIGHTS.length);
  const { x } = minimize(
    (place, gradient) => {
      byWeight.fill(0);
      const w = weightsAt(place);
      let loss = logLossSum(flat, w, Number.NEGATIVE_INFINITY, until, byWeight);
      byCoordinates(byWeight, w, gradient);
      for (const [i, one] of place.entries()) {
        loss += (one * one) / 2;
        gradient[i] = (gradient[i] as number) + one;
      }
      return loss;
    },
    start,
    // A thousandth of a nat over the whole log changes no prediction.
    { flat: 1e-2, least: 1e-3, stopped },
  );
  return x;
};
