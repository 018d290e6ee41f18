import type { Verdicts } from '../drill/tally.ts';
import type { Item, ItemKey } from '../model/item.ts';
import type { Resolved } from '../subjects/resolved.ts';

/** What belongs together in a deck: a procedure, its limits, its scenarios. */
export interface DeckPart {
  readonly title: string;
  readonly items: readonly Item[];
}

/** In the deck's order. */
export const partsOf = ({ deck }: Pick<Resolved, 'deck'>, items: readonly Item[]): readonly DeckPart[] => {
  const parts = new Map<string, Item[]>();
  for (const item of items) {
    const name = item.groupKind === 'procedure' ? `procedure ${item.group}` : item.groupKind;
    const part = parts.get(name);
    if (part === undefined) parts.set(name, [item]);
    else part.push(item);
  }
  return [...parts.values()].map((list) => ({ title: titleOf(deck, list[0] as Item), items: list }));
};

const titleOf = (deck: Resolved['deck'], { group, groupKind }: Item): string => {
  if (groupKind === 'limit') return 'Limits';
  if (groupKind === 'scenario') return 'Scenarios';
  return deck.procedures?.find(({ id }) => id === group)?.title ?? group;
};

/** @param of verdicts of an item; undefined where there are none */
export const verdictsOf = (keys: Iterable<ItemKey>, of: (key: ItemKey) => Verdicts | undefined): Verdicts => {
  const total: [number, number, number, number] = [0, 0, 0, 0];
  for (const key of keys) for (const [i, n] of (of(key) ?? []).entries()) total[i as 0] += n;
  return total;
};
