import type { Deck } from '../../model/deck.ts';
import type { Drawn } from '../../model/form.ts';
import { at } from '../../subjects/finding.ts';
import { evaluate, isTrue } from '../../subjects/formulas.ts';
import type { ResolvedAsk, ResolvedScenario, View } from '../../subjects/resolved.ts';
import { nearV1 } from '../../subjects/scenario/check-draws.ts';
import { planDraw } from '../../subjects/scenario/draw.ts';
import { numberOf } from '../../subjects/scenario/values.ts';
import { NO_RULE, NO_VALUE, NOT_ASKED } from './types.ts';

type Values = Record<string, number | string | boolean>;

/** A draw with the values of `let` written into it, or why it is never asked. */
export type Judged =
  | { readonly is: 'met' }
  /** `require`: place among what is required, the day's own behind the scenario's. */
  | { readonly is: 'refused'; readonly require: number }
  | { readonly is: 'near-v1' }
  /** `at`: pointer within the scenario to the formula without a value. */
  | { readonly is: 'broken'; readonly at: string };

const MET: Judged = { is: 'met' };
const NEAR: Judged = { is: 'near-v1' };

/** Judges draws as the checker does. @returns a function that completes the draw it is given */
export function judge(deck: Deck, resolved: ResolvedScenario, view: View): (drawn: Values) => Judged {
  const { scenario } = resolved;
  const own = scenario.require?.length ?? 0;
  const plan = planDraw(deck, resolved, scenario.asks[0]?.id ?? '', null, view);
  return (drawn) => {
    let without: string | null = null;
    for (const { name, tree } of resolved.lets) {
      const value = evaluate(tree, drawn, view);
      if (value === null) {
        // A name without a value is one that no formula can use.
        delete drawn[name];
        without ??= at('/let', name);
      } else drawn[name] = value;
    }
    for (const [k, tree] of resolved.require.entries()) {
      const truth = isTrue(tree, drawn, view);
      if (truth === false) return { is: 'refused', require: k };
      if (truth === null && k < own) without ??= at('/require', k);
    }
    if (plan && nearV1(plan, drawn, view)) return NEAR;
    return without === null ? MET : { is: 'broken', at: without };
  };
}

export interface AskOutcome {
  /** As in `SurveyTask.ask`. */
  readonly outcome: number;
  /** Of a number ask that has a value. */
  readonly number: number | null;
}

/** What one question comes to in a draw that meets everything. */
export function outcomeOf(ask: ResolvedAsk, values: Drawn, view: View): AskOutcome {
  if (ask.if && isTrue(ask.if, values, view) !== true) return { outcome: NOT_ASKED, number: null };
  if ('number' in ask) {
    const number = numberOf(ask.number, values, view);
    return { outcome: number === null ? NO_VALUE : 0, number };
  }
  for (const [k, rule] of ask.rules.entries()) {
    const truth = rule.if ? isTrue(rule.if, values, view) : true;
    if (truth === null) return { outcome: NO_VALUE, number: null };
    if (truth) return { outcome: k, number: null };
  }
  return { outcome: NO_RULE, number: null };
}
