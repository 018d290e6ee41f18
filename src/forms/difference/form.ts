import type { DifferenceGiven, DifferenceShown } from '../../model/form.ts';
import type { Form } from '../contract.ts';

export const differenceForm: Form<DifferenceShown, DifferenceGiven> = {
  id: 'difference',
  offers: () => [],
  draw: () => null,
  mark: () => {
    throw new Error('not written');
  },
};
