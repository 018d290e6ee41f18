import type { BeforeShown, ChoiceGiven } from '../../model/form.ts';
import type { Form } from '../contract.ts';
import { drawBefore } from './draw.ts';
import { markBefore } from './mark.ts';
import { beforeOffers } from './offers.ts';

/** Say what must be done before a step: for a single weak step, from the other side than `next`. Proves its place. */
export const beforeForm: Form<BeforeShown, ChoiceGiven> = {
  id: 'before',
  offers: (resolved, wanted) => beforeOffers(resolved, wanted),
  draw: drawBefore,
  mark: markBefore,
};
