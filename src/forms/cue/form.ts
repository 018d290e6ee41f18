import type { ChoiceGiven, CueShown } from '../../model/form.ts';
import type { Form } from '../contract.ts';
import { drawCue } from './draw.ts';
import { markCue } from './mark.ts';
import { cueOffers } from './offers.ts';

/** Say what a step waits for, or what a cue calls for. Proves the step's cue. */
export const cueForm: Form<CueShown, ChoiceGiven> = {
  id: 'cue',
  offers: (resolved, wanted) => cueOffers(resolved, wanted),
  draw: drawCue,
  mark: markCue,
};
