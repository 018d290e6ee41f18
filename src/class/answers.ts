import { crewWords } from '../deck/compare/answers.ts';
import type { ItemKey } from '../model/item.ts';
import { withLabels } from '../subjects/fill.ts';
import { formulaWords } from '../subjects/formula-words.ts';
import { caseWords, cueWords } from '../subjects/limit/words.ts';
import type { Resolved } from '../subjects/resolved.ts';
import { thingsOf } from '../subjects/things.ts';

/**
 * The right answers of a deck in words, as far as they are always the same: values of limits, outcomes of rules with
 * when they hold, of steps their place, cue, crew and words. What is computed of drawn numbers has none.
 */
export const rightAnswers = ({ deck, views }: Resolved): ReadonlyMap<ItemKey, string> => {
  const found = new Map<ItemKey, string>();
  const things = thingsOf(deck);
  const put = (key: ItemKey | null, words: () => string) => {
    if (key !== null && !found.has(key)) found.set(key, words());
  };
  for (const view of views) {
    for (const limit of view.limits) for (const one of limit.cases) put(one.key, () => caseWords(limit, one));
    for (const scenario of view.scenarios)
      for (const ask of scenario.asks) {
        if ('number' in ask) continue;
        for (const { rule, if: holds, key } of ask.rules)
          put(key, () => {
            const { options } = ask.ask.choose;
            const then = rule.then.map((id) => withLabels(deck, options[id] ?? id)).join(' or ');
            if (holds === null) return ask.rules.length === 1 ? then : `${then}, where no other rule holds`;
            return `${then}, where ${formulaWords(deck, view, scenario, holds)}`;
          });
      }
    for (const { situations, procedure, calls } of view.procedures) {
      const { called = '', calledBy = '', starts = '' } = procedure;
      put(calls?.words ?? null, () => `“${withLabels(deck, called)}”`);
      put(calls?.crew ?? null, () => crewWords(things, calledBy));
      put(calls?.cue ?? null, () => withLabels(deck, starts));
      for (const { steps } of situations)
        for (const { place, cue, crew, words, step, text } of steps) {
          put(place, () => withLabels(deck, text));
          put(cue, () => cueWords(deck, view, step.cue));
          put(crew, () => crewWords(things, step.by ?? ''));
          put(words, () => `“${withLabels(deck, step.say ?? '')}”`);
        }
    }
  }
  return found;
};
