import type { ChoiceGiven, NextShown } from '../../model/form.ts';
import type { Form } from '../contract.ts';
import { drawNext } from './draw.ts';
import { markNext } from './mark.ts';
import { nextOffers } from './offers.ts';

/** Say which step comes next: for a single weak step. Proves its place. */
export const nextForm: Form<NextShown, ChoiceGiven> = {
  id: 'next',
  offers: (resolved, wanted) => nextOffers(resolved, wanted),
  draw: drawNext,
  mark: markNext,
};
