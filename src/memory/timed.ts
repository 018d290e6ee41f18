import type { FormId, Offer } from '../model/form.ts';
import { LEAST } from './pace.ts';
import type { Memory } from './types.ts';

/**
 * s that reading a verdict takes, which nobody measures: by form, and for each row. First estimates, a part of those of
 * the forms.
 */
const VERDICT: Readonly<Record<FormId, readonly [fixed: number, row: number]>> = {
  run: [3, 0.8],
  next: [4, 0],
  limit: [4, 0],
  scenario: [8, 0],
  before: [4, 0],
  slip: [6, 0.8],
  cue: [4, 0],
  callout: [4, 0],
  list: [4, 0],
  crew: [3, 0.8],
  value: [4, 0],
  rule: [6, 0],
  difference: [5, 0],
  paced: [0, 0],
};

/**
 * Expected s of a question for this learner: the median of the answers of its form and row count, and the reading of
 * the verdict. Until there are eight it is drawn, in its logarithm, towards the first estimate by those that are missing.
 */
const secondsOf = (
  { form, rows, seconds }: Pick<Offer, 'form' | 'rows' | 'seconds'>,
  { pace }: Pick<Memory, 'pace'>,
): number => {
  const known = rows === undefined ? undefined : pace.get(`${form}/${rows}`);
  if (rows === undefined || known === undefined || known.middle === null || !(seconds > 0)) return seconds;
  const [fixed, row] = VERDICT[form];
  const measured = Math.exp(known.middle) / 1000 + fixed + row * rows;
  const share = Math.min(1, known.last.length / LEAST);
  return measured ** share * seconds ** (1 - share);
};

/** The question with the time that it takes this learner: for a drill, and for `itemSeconds` of a plan. */
export const timed = <T extends Pick<Offer, 'form' | 'rows' | 'seconds'>>(
  offer: T,
  memory: Pick<Memory, 'pace'>,
): T => {
  const seconds = secondsOf(offer, memory);
  return seconds === offer.seconds ? offer : { ...offer, seconds };
};
