import type { CrewGiven, CrewShown } from '../../model/form.ts';
import type { Form } from '../contract.ts';

export const crewForm: Form<CrewShown, CrewGiven> = {
  id: 'crew',
  offers: () => [],
  draw: () => null,
  mark: () => {
    throw new Error('not written');
  },
};
