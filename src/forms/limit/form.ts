import type { LimitGiven, LimitShown } from '../../model/form.ts';
import type { Form } from '../contract.ts';
import { drawLimit } from './draw.ts';
import { markLimit } from './mark.ts';
import { limitOffers } from './offers.ts';

/** Enter a number, or choose what a fact says. Proves the value of one case. */
export const limitForm: Form<LimitShown, LimitGiven> = {
  id: 'limit',
  offers: (resolved, wanted) => limitOffers(resolved, wanted),
  draw: drawLimit,
  mark: markLimit,
};
