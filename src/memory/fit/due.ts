/**
 * Predicted answers before which a fit is not tried. What it gained in log loss, in 50 simulated learners of
 * bench/learner.ts whose weights lie 0.6 apart: 0.0004 ± 0.0007 nats after 120 answers, 0.0009 ± 0.0004 after 200,
 * 0.0021 ± 0.0008 after 300 (mean and its standard error).
 */
export const FIT_FROM = 200;

/** Predicted answers after which it is tried again, whatever came of it. */
const FIT_EVERY = 100;

/**
 * Is it time for a fit?
 * @param answers predicted ones (`Memory.predicted`)
 * @param last predicted answers at the last one, null: there was none
 */
export const fitIsDue = (answers: number, last: number | null): boolean =>
  answers >= FIT_FROM && (last === null || answers - last >= FIT_EVERY);
