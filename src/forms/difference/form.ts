import type { DifferenceGiven, DifferenceShown } from '../../model/form.ts';
import type { Form } from '../contract.ts';
import { drawDifference } from './draw.ts';
import { markDifference } from './mark.ts';
import { differenceOffers } from './offers.ts';

/**
 * Say what changes from one option of a variant to another: a limit, a fact, or who does a step. Proves the answer of
 * both.
 */
export const differenceForm: Form<DifferenceShown, DifferenceGiven> = {
  id: 'difference',
  offers: (resolved, wanted) => differenceOffers(resolved, wanted),
  draw: drawDifference,
  mark: markDifference,
};
