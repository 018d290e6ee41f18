import type { Item } from '../../model/item.ts';
import type { Practised } from './learner.ts';

/** What a learner calls the group of an item: a procedure by its title; limits and scenarios by their deck, where there are several. */
export const groupTitle = (decks: readonly Practised[], item: Pick<Item, 'deck' | 'group' | 'groupKind'>): string => {
  const found = decks.find(({ deck }) => deck.id === item.deck);
  if (item.groupKind === 'procedure')
    return found?.deck.procedures?.find(({ id }) => id === item.group)?.title ?? item.group;
  const kind = item.groupKind === 'limit' ? 'Limits' : 'Scenarios';
  return decks.length > 1 && found !== undefined ? `${kind}: ${found.deck.title}` : kind;
};
