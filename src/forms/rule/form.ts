import type { ChoiceGiven, Offer, RuleShown, ScenarioGiven } from '../../model/form.ts';
import { withLabels } from '../../subjects/fill.ts';
import type { Resolved } from '../../subjects/resolved.ts';
import type { Form } from '../contract.ts';
import { contextOf, holderIn } from '../in-step/holder.ts';
import { drawScenarioQuestion } from '../scenario/draw.ts';
import { markScenario } from '../scenario/mark.ts';
import { BRANCH, drawBranch, markBranch } from './branch.ts';
import { ruleOffers } from './offers.ts';

/** Say which rule applies where it is needed: given the wind, what is done. Proves the rule, or the step's place. */
export const ruleForm: Form<RuleShown, ScenarioGiven> = {
  id: 'rule',
  offers: (resolved, wanted) => ruleOffers(resolved, wanted),
  draw: (resolved, offer, seed) =>
    offer.about.way === BRANCH ? drawBranch(resolved, offer, seed) : drawInStep(resolved, offer, seed),
  mark: (resolved, question, shown, given) => {
    if (question.about.way === BRANCH) return markBranch(resolved, question, shown, given as ChoiceGiven | null);
    const marked = markScenario(resolved, question, { ...shown, form: 'scenario' }, given);
    return { ...marked, detail: { ...marked.detail, form: 'rule' } as typeof marked.detail };
  },
};

/** The step's own values of the day are not those that the scenario draws: they are named, not given. */
function drawInStep(resolved: Resolved, offer: Offer, seed: number): RuleShown | null {
  const holder = holderIn(resolved, offer.variant, offer.about);
  const shown = drawScenarioQuestion(resolved, offer, seed);
  if (!holder || !shown) return null;
  const named = ({ text }: { readonly text: string }): string => withLabels(resolved.deck, text);
  return {
    ...shown,
    form: 'rule',
    title: holder.p.procedure.title,
    before: contextOf(holder).map(named),
    step: named(holder.step),
  };
}
