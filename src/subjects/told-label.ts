import type { Item, ItemKey } from '../model/item.ts';
import { withLabels } from './fill.ts';
import type { Resolved } from './resolved.ts';

const known = new WeakMap<Resolved, ReadonlyMap<ItemKey, string>>();

/**
 * What an item is called where its answer is known already, as after a verdict: a callout by its own words, since
 * "Callout at step 2" names little to whoever missed it. Never before a question.
 */
export const toldLabel = (resolved: Resolved, { key, label, facet }: Pick<Item, 'key' | 'label' | 'facet'>): string =>
  facet === 'words' ? (wordsOf(resolved).get(key) ?? label) : label;

/** Of callouts that are all of their step, and of calls for a list: other labels say what is done there. */
const wordsOf = (resolved: Resolved): ReadonlyMap<ItemKey, string> => {
  const before = known.get(resolved);
  if (before !== undefined) return before;
  const found = new Map<ItemKey, string>();
  const put = (key: ItemKey | null | undefined, what: string, words: string, title: string): void => {
    if (key != null && !found.has(key)) found.set(key, `${what} “${withLabels(resolved.deck, words)}”: ${title}`);
  };
  for (const { procedures } of resolved.views)
    for (const { procedure, situations, calls } of procedures) {
      const { title, called } = procedure;
      if (called !== undefined) put(calls?.words, 'Call', called, title);
      for (const { steps } of situations)
        for (const { step, words } of steps)
          if (step.say !== undefined && step.do === undefined) put(words, 'Callout', step.say, title);
    }
  known.set(resolved, found);
  return found;
};
