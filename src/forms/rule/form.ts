import type { RuleShown, ScenarioGiven } from '../../model/form.ts';
import type { Form } from '../contract.ts';

export const ruleForm: Form<RuleShown, ScenarioGiven> = {
  id: 'rule',
  offers: () => [],
  draw: () => null,
  mark: () => {
    throw new Error('not written');
  },
};
