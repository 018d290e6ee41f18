import { DEFAULT_CREW, type Deck, type Id, isBlock, isUse, type Node } from '../../model/deck.ts';
import type { Choice } from '../../model/form.ts';
import { crewLabel } from '../run/extras.ts';

/** "Both" and "either" are no seats. */
const isSingle = (id: Id): boolean => id !== 'both' && id !== 'either';

const known = new WeakMap<Deck, readonly Choice[]>();

/** Who sits in the cockpit or is spoken of: the deck's own crew, and PF and PM where one of them does anything. */
function seatsOf(deck: Deck): readonly Choice[] {
  const before = known.get(deck);
  if (before !== undefined) return before;
  const used = new Set<string>();
  const visit = (nodes: readonly Node[]): void => {
    for (const node of nodes) {
      if (isUse(node)) continue;
      if (isBlock(node)) for (const list of node.lanes ?? [node.steps ?? []]) visit(list);
      else if (node.by !== undefined) used.add(node.by);
    }
  };
  for (const { steps, calledBy } of deck.procedures ?? []) {
    visit(steps);
    if (calledBy !== undefined) used.add(calledBy);
  }
  const pilots = DEFAULT_CREW.map(({ id }) => id).filter(isSingle);
  const ids = [
    ...(pilots.some((id) => used.has(id)) ? pilots : []),
    ...(deck.crew ?? []).map(({ id }) => id).filter(isSingle),
  ];
  const list = [...new Set(ids)].map((id) => ({ id, text: crewLabel({ deck }, id) }));
  known.set(deck, list);
  return list;
}

/** The seats among which one is asked for; none where it is not one of two and more, or not asked. */
export function seatsAsked(deck: Deck, by: Id | undefined): readonly Choice[] {
  const seats = seatsOf(deck);
  return by !== undefined && seats.length >= 2 && seats.some(({ id }) => id === by) ? seats : [];
}
