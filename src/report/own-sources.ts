import type { Deck, Source, When } from '../model/deck.ts';
import type { Resolved } from '../subjects/resolved.ts';
import { holds } from '../subjects/when.ts';

/**
 * Sources of what a learner flies: without those that are cited for other variants alone. What nothing cites stays,
 * since it may be about all of the deck.
 */
export const ownSources = ({ deck, views }: Pick<Resolved, 'deck' | 'views'>): readonly Source[] => {
  const all = citedIn(deck, () => true);
  const own = citedIn(deck, (when) => views.some(({ pick }) => holds(when, pick, deck.variants ?? []) === true));
  return deck.sources.filter(({ id }) => own.has(id) || !all.has(id));
};

/** Ids of sources that its things name. @param isIn of a thing that is for some variants: is it wanted? */
const citedIn = (deck: Deck, isIn: (when: When) => boolean): ReadonlySet<string> => {
  const found = new Set<string>();
  const visit = (value: unknown): void => {
    if (typeof value !== 'object' || value === null) return;
    const { when, source } = value as { readonly when?: When; readonly source?: unknown };
    if (when !== undefined && !isIn(when)) return;
    if (typeof source === 'string') found.add(source.replace(/#.*/, ''));
    for (const part of Object.values(value)) visit(part);
  };
  for (const things of [deck.procedures, deck.limits, deck.scenarios, deck.paced]) visit(things);
  return found;
};
