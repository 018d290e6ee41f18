import { foldText } from '../../lib/fold-text.ts';
import { DEFAULT_CREW, type Deck, isBlock, isStep, type Node } from '../../model/deck.ts';
import type { Choice } from '../../model/form.ts';
import type { Resolved } from '../../subjects/resolved.ts';
import { crewLabel } from '../run/extras.ts';

const known = new WeakMap<Deck, readonly Choice[]>();

/**
 * Who does something in the deck: those that every deck has, then its own, in authored order.
 * @returns none where two of them read alike: either would be right
 */
export function seatsOf({ deck }: Pick<Resolved, 'deck'>): readonly Choice[] {
  const before = known.get(deck);
  if (before !== undefined) return before;
  const busy = new Set((deck.procedures ?? []).flatMap(({ steps }) => [...doers(steps)]));
  const ids = new Set([...DEFAULT_CREW, ...(deck.crew ?? [])].map(({ id }) => id));
  const all = [...ids].filter((id) => busy.has(id)).map((id) => ({ id, text: crewLabel({ deck }, id) }));
  const words = new Set(all.map(({ text }) => foldText(text)).filter((text) => text !== ''));
  const seats = words.size < all.length ? [] : all;
  known.set(deck, seats);
  return seats;
}

function* doers(nodes: readonly Node[]): Generator<string> {
  for (const node of nodes) {
    if (isStep(node)) {
      if (node.by !== undefined) yield node.by;
    } else if (isBlock(node)) for (const list of node.lanes ?? [node.steps ?? []]) yield* doers(list);
  }
}

/** Does a text say by itself who it is? By the label or the id, as words of their own: "RPM" names no PM. */
export const namesSeat = (text: string, { id, text: label }: Choice): boolean => {
  const words = ` ${foldText(text)} `;
  return [id, label].map(foldText).some((name) => name !== '' && words.includes(` ${name} `));
};
