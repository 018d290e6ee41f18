import type { Deck, Id, Node } from '../model/deck.ts';
import { isBlock, isStep } from '../model/deck.ts';
import { type Item, type ItemKey, itemKey, parseItemKey } from '../model/item.ts';

/**
 * `keeps: ["facet~stamp"]` joins an old stamp of a thing to its item of today with the same facet.
 * @returns old key → key of today. Where several items of today share the facet (variants, situations), the first
 *   in authored order goes on with the old memory. Old stamps that are still items of today are not joined.
 */
export function aliasesOf(deck: Deck, items: ReadonlyMap<ItemKey, Item>): Map<ItemKey, ItemKey> {
  const out = new Map<ItemKey, ItemKey>();
  const today = new Map<string, ItemKey>();
  for (const key of items.keys()) {
    const parts = parseItemKey(key);
    const name = parts && `${parts.thing}.${parts.facet}`;
    if (name !== undefined && !today.has(name)) today.set(name, key);
  }
  const join = (thing: Id, keeps: readonly string[] | undefined, ask?: Id): void => {
    for (const kept of keeps ?? []) {
      const cut = kept.lastIndexOf('~');
      if (cut <= 0) continue;
      const said = kept.slice(0, cut);
      // An ask may name its facet with or without its own id.
      const facet = ask !== undefined && !said.startsWith(`${ask}.`) ? `${ask}.${said}` : said;
      const old = itemKey(deck.id, thing, facet, kept.slice(cut + 1));
      const now = today.get(`${thing}.${facet}`);
      if (now !== undefined && !items.has(old) && !out.has(old)) out.set(old, now);
    }
  };
  const visit = (nodes: readonly Node[]): void => {
    for (const node of nodes) {
      if (isStep(node)) join(node.id, node.keeps);
      else if (isBlock(node)) for (const list of node.lanes ?? [node.steps ?? []]) visit(list);
    }
  };
  for (const p of deck.procedures ?? []) visit(p.steps);
  for (const l of deck.limits ?? []) join(l.id, l.keeps);
  for (const s of deck.scenarios ?? []) for (const a of s.asks) join(s.id, a.keeps, a.id);
  return out;
}
