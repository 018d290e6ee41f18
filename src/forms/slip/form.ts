import type { SlipGiven, SlipShown } from '../../model/form.ts';
import type { Form } from '../contract.ts';
import { drawSlip } from './draw.ts';
import { markSlip } from './mark.ts';
import { slipOffers } from './offers.ts';

/**
 * Speak up where another crew's run goes wrong. Proves the place of what is out of order, left out or does not belong,
 * who does a step, and the number of a limit.
 */
export const slipForm: Form<SlipShown, SlipGiven> = {
  id: 'slip',
  offers: (resolved, wanted) => slipOffers(resolved, wanted),
  draw: drawSlip,
  mark: markSlip,
};
