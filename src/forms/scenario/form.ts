import type { ScenarioGiven, ScenarioShown } from '../../model/form.ts';
import type { Form } from '../contract.ts';
import { drawScenarioQuestion } from './draw.ts';
import { markScenario } from './mark.ts';
import { scenarioOffers } from './offers.ts';

/** A situation with drawn values: compute a number, or choose what the rule gives. */
export const scenarioForm: Form<ScenarioShown, ScenarioGiven> = {
  id: 'scenario',
  offers: (resolved, wanted) => scenarioOffers(resolved, wanted),
  draw: drawScenarioQuestion,
  mark: markScenario,
};
