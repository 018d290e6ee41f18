import type { CalloutShown, WordsGiven } from '../../model/form.ts';
import type { Form } from '../contract.ts';

export const calloutForm: Form<CalloutShown, WordsGiven> = {
  id: 'callout',
  offers: () => [],
  draw: () => null,
  mark: () => {
    throw new Error('not written');
  },
};
