import type { Deck, Id, Node } from '../../model/deck.ts';
import { isBlock, isUse } from '../../model/deck.ts';

/**
 * Steps that stand elsewhere among those that both decks have: of each procedure the fewest that explain the new order,
 * and those that changed procedures.
 */
export function movedSteps(before: Deck, after: Deck): ReadonlySet<Id> {
  const old = orders(before);
  const moved = new Set<Id>();
  const holder = new Map([...old].flatMap(([p, ids]) => ids.map((id): [Id, Id] => [id, p])));
  for (const [p, ids] of orders(after)) {
    const known = ids.filter((id) => holder.has(id));
    for (const id of known) if (holder.get(id) !== p) moved.add(id);
    const place = new Map((old.get(p) ?? []).map((id, i) => [id, i]));
    const stayed = known.filter((id) => place.has(id));
    const kept = new Set(longestRise(stayed.map((id) => place.get(id) as number)));
    stayed.forEach((id, i) => {
      if (!kept.has(i)) moved.add(id);
    });
  }
  return moved;
}

/** Steps of each procedure as written. */
function orders(deck: Deck): Map<Id, Id[]> {
  const below = (nodes: readonly Node[]): Id[] =>
    nodes.flatMap((n) => (isUse(n) ? [] : isBlock(n) ? [n.steps ?? [], ...(n.lanes ?? [])].flatMap(below) : [n.id]));
  return new Map((deck.procedures ?? []).map((p) => [p.id, below(p.steps)]));
}

/** Indices of a longest rising subsequence of distinct numbers, rising (patience sorting, Fredman 1975: from memory). */
function longestRise(list: readonly number[]): number[] {
  const ends: number[] = [];
  const before: number[] = [];
  list.forEach((x, i) => {
    let at = ends.findIndex((end) => (list[end] as number) > x);
    if (at < 0) at = ends.length;
    before.push(at === 0 ? -1 : (ends[at - 1] as number));
    ends[at] = i;
  });
  const out: number[] = [];
  for (let i = ends.at(-1) ?? -1; i >= 0; i = before[i] as number) out.unshift(i);
  return out;
}
