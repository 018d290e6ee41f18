import type { ChoiceGiven, CueShown } from '../../model/form.ts';
import type { Form } from '../contract.ts';

export const cueForm: Form<CueShown, ChoiceGiven> = {
  id: 'cue',
  offers: () => [],
  draw: () => null,
  mark: () => {
    throw new TypeError('not yet');
  },
};
