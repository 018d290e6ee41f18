import type { CalloutShown, WordsGiven } from '../../model/form.ts';
import type { Form } from '../contract.ts';
import { drawCallout } from './draw.ts';
import { markCallout } from './mark.ts';
import { calloutOffers } from './offers.ts';

/** Say what is said at a step, and who says it. Proves the step's words: right only from the right seat. */
export const calloutForm: Form<CalloutShown, WordsGiven> = {
  id: 'callout',
  offers: (resolved, wanted) => calloutOffers(resolved, wanted),
  draw: drawCallout,
  mark: markCallout,
};
