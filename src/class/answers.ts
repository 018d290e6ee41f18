import type { ItemKey } from '../model/item.ts';
import { withLabels } from '../subjects/fill.ts';
import { formulaWords } from '../subjects/formula-words.ts';
import { caseWords } from '../subjects/limit/words.ts';
import type { Resolved } from '../subjects/resolved.ts';

/**
 * The right answers of a deck in words, as far as they are always the same: values of limits, outcomes of rules with
 * when they hold, steps by their place. What is computed of drawn numbers has none.
 */
export const rightAnswers = ({ deck, views }: Resolved): ReadonlyMap<ItemKey, string> => {
  const found = new Map<ItemKey, string>();
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
    for (const { situations } of view.procedures)
      for (const { steps } of situations) for (const { place, text } of steps) put(place, () => withLabels(deck, text));
  }
  return found;
};
