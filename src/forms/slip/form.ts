import type { SlipGiven, SlipShown } from '../../model/form.ts';
import type { Form } from '../contract.ts';

export const slipForm: Form<SlipShown, SlipGiven> = {
  id: 'slip',
  offers: () => [],
  draw: () => null,
  mark: () => {
    throw new Error('not written');
  },
};
