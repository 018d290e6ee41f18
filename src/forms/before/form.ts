import type { BeforeShown, ChoiceGiven } from '../../model/form.ts';
import type { Form } from '../contract.ts';

export const beforeForm: Form<BeforeShown, ChoiceGiven> = {
  id: 'before',
  offers: () => [],
  draw: () => null,
  mark: () => {
    throw new TypeError('not yet');
  },
};
