import type { CrewGiven, CrewShown } from '../../model/form.ts';
import type { Form } from '../contract.ts';
import { drawCrew } from './draw.ts';
import { markCrew } from './mark.ts';
import { crewOffers } from './offers.ts';

/** Say who does each step of a part of a procedure. Proves the crew of each. */
export const crewForm: Form<CrewShown, CrewGiven> = {
  id: 'crew',
  offers: (resolved, wanted) => crewOffers(resolved, wanted),
  draw: drawCrew,
  mark: markCrew,
};
