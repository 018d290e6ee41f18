import type { PacedGiven, PacedShown } from '../../model/form-paced.ts';
import type { Form } from '../contract.ts';
import { markPaced } from './mark.ts';

/** A take-off played in time. The learner starts it: no drill puts it, so that it offers and draws nothing. */
export const pacedForm: Form<PacedShown, PacedGiven> = {
  id: 'paced',
  offers: () => [],
  draw: () => null,
  mark: markPaced,
};
