/**
 * Predicted answers before which a fit is not tried. At 100 it did not beat the defaults in simulated learners
 * (`npm run bench`, fit); at 200 to 300 it did.
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
