import { foldText } from '../../lib/fold-text.ts';
import type { Deck, Step } from '../../model/deck.ts';
import type { About } from '../../model/form.ts';
import { withLabels } from '../../subjects/fill.ts';
import { asksOrder } from '../../subjects/procedure/words.ts';
import type { Resolved, ResolvedProcedure, RunStep, Situation, View } from '../../subjects/resolved.ts';
import { procedureIn, viewOf } from '../look-up.ts';

/** A step in which something else is asked: its limit, the rule that decides it. */
export interface Holder {
  readonly view: View;
  readonly p: ResolvedProcedure;
  readonly situation: Situation;
  /** Place in the situation's steps. */
  readonly k: number;
  readonly step: RunStep;
}

/** Steps just before, so that it is clear where one is. */
const CONTEXT = 2;

/**
 * The first step of a procedure done from memory or as a flow that is meant, in a situation that has it. A step that
 * only some circumstances have is passed over where `always` is asked for.
 */
export function* holdersOf(view: View, is: (step: Step) => boolean, always: boolean): Generator<Holder, void> {
  for (const p of view.procedures) {
    if (!asksOrder(p.procedure)) continue;
    for (const situation of p.situations) {
      for (const [k, step] of situation.steps.entries()) {
        if (!is(step.step)) continue;
        if (always && !p.situations.every(({ steps }) => steps.some((one) => one.step.id === step.step.id))) continue;
        yield { view, p, situation, k, step };
      }
    }
  }
}

/** As the offer names it; null where the deck no longer holds it. */
export function holderIn(resolved: Resolved, variant: string, { procedure, situation, part }: About): Holder | null {
  const view = viewOf(resolved, variant);
  const p = view && procedure !== undefined ? procedureIn(view, procedure) : undefined;
  const found = p?.situations.find(({ id }) => id === (situation ?? ''));
  const k = found?.steps.findIndex(({ step }) => step.id === part?.[0]) ?? -1;
  const step = found?.steps[k];
  return view && p && found && step ? { view, p, situation: found, k, step } : null;
}

/** What an offer says of it. */
export const aboutHolder = ({ p, situation, step }: Holder): Pick<About, 'procedure' | 'situation' | 'part'> => ({
  procedure: p.procedure.id,
  situation: situation.id,
  part: [step.step.id],
});

/** The last steps done before it. */
export const contextOf = ({ situation, k }: Holder): readonly RunStep[] =>
  situation.steps.slice(Math.max(0, k - CONTEXT), k);

/** Numbers written in a text, values of the day left out: thin and plain spaces may part thousands. */
const numbersIn = (text: string): number[] =>
  [...text.matchAll(/\d+(?:[\s\u00a0\u202f]\d{3})*(?:[.,]\d+)?/g)].map(([found]) =>
    Number(found.replace(/[\s\u00a0\u202f]/g, '').replace(',', '.')),
  );

/** Does a text say one of these numbers? */
export const saysNumber = (deck: Deck, text: string, values: readonly number[]): boolean =>
  numbersIn(withLabels(deck, text)).some((one) => values.includes(one));

/** Does a text say one of these words, or they it? */
export const saysWords = (deck: Deck, text: string, options: readonly string[]): boolean => {
  const said = ` ${foldText(withLabels(deck, text))} `;
  return options.some((option) => {
    const words = ` ${foldText(option)} `;
    return words.trim() !== '' && (said.includes(words) || words.includes(said));
  });
};
