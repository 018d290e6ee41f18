import { offers } from '../forms/registry.ts';
import type { Memory } from '../memory/types.ts';
import type { Offer } from '../model/form.ts';
import type { Item, ItemKey } from '../model/item.ts';
import type { Resolved } from '../subjects/resolved.ts';

/** What a drill looks at from outside: changes between two questions, never by the drill itself. */
export interface World {
  /** Decks of one course, as the learner flies them. */
  readonly decks: readonly Resolved[];
  readonly memory: Memory;
  /** Study day. */
  readonly day: number;
  /** Study day of the check, or null. */
  readonly checkDay: number | null;
}

export interface DeckOffer {
  readonly deck: string;
  readonly offer: Offer;
}

const known = new WeakMap<Resolved, readonly DeckOffer[]>();

/** Every question of a deck. It depends on the deck alone, so it is made once. */
const offersOf = (resolved: Resolved): readonly DeckOffer[] => {
  const before = known.get(resolved);
  if (before !== undefined) return before;
  const list = offers(resolved, null, 1).map((offer) => ({ deck: resolved.ref, offer }));
  known.set(resolved, list);
  return list;
};

export const allOffers = ({ decks }: World): readonly DeckOffer[] => decks.flatMap(offersOf);

export const itemsOf = (decks: readonly Resolved[]): Item[] => decks.flatMap(({ items }) => [...items.values()]);

export const deckOf = ({ decks }: World, ref: string): Resolved | undefined => decks.find((deck) => deck.ref === ref);

export const itemIn = ({ decks }: World, key: ItemKey): Item | undefined => {
  for (const { items } of decks) {
    const item = items.get(key);
    if (item !== undefined) return item;
  }
  return undefined;
};

/** How reading is remembered. */
export const readKey = (deckId: string, thing: string): string => `${deckId}#${thing}`;

/** Was everything that an offer asks read, or answered, before? */
export const mayAsk = (world: World, items: ReadonlyMap<ItemKey, Item>, offer: Offer): boolean =>
  offer.proves.every((key) => meets(world, items.get(key), key, offer.needs));

const meets = ({ memory }: World, item: Item | undefined, key: ItemKey, needs: Offer['needs']): boolean => {
  const met = memory.items.get(key);
  const rightDays = met?.rightDays ?? 0;
  switch (needs) {
    case 'read':
      return met !== undefined || (item !== undefined && memory.read.has(readKey(item.deck, item.thing)));
    case 'right-once':
      return rightDays >= 1;
    case 'two-days':
      return rightDays >= 2;
  }
};
