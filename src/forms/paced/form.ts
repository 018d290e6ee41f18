import type { PacedGiven, PacedShown } from '../../model/form.ts';
import type { Form } from '../contract.ts';

export const pacedForm: Form<PacedShown, PacedGiven> = {
  id: 'paced',
  offers: () => [],
  draw: () => null,
  mark: () => {
    throw new TypeError('not yet');
  },
};
