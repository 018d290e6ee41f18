import type { Block, Cited, CrewMember, Deck, Id, Limit, Node, Procedure, Scenario } from '../model/deck.ts';
import { DEFAULT_CREW, isBlock } from '../model/deck.ts';

/** Where each id of a deck is authored: looked up once. First of equal ids wins (the checker refuses them). */
export interface Things {
  readonly deck: Deck;
  readonly procedures: ReadonlyMap<Id, Procedure>;
  readonly limits: ReadonlyMap<Id, Limit>;
  readonly scenarios: ReadonlyMap<Id, Scenario>;
  /** Named blocks: what `use` and `needs` may name. */
  readonly blocks: ReadonlyMap<Id, { readonly owner: Id; readonly block: Block }>;
  readonly crew: ReadonlyMap<string, CrewMember>;
}

export function thingsOf(deck: Deck): Things {
  const blocks = new Map<Id, { owner: Id; block: Block }>();
  const visit = (owner: Id, nodes: readonly Node[]): void => {
    for (const node of nodes) {
      if (!isBlock(node)) continue;
      if (node.id !== undefined && !blocks.has(node.id)) blocks.set(node.id, { owner, block: node });
      visit(owner, node.steps ?? []);
      for (const lane of node.lanes ?? []) visit(owner, lane);
    }
  };
  for (const p of deck.procedures ?? []) visit(p.id, p.steps);
  return {
    deck,
    procedures: byId(deck.procedures ?? []),
    limits: byId(deck.limits ?? []),
    scenarios: byId(deck.scenarios ?? []),
    blocks,
    crew: byId([...DEFAULT_CREW, ...(deck.crew ?? [])]),
  };
}

function byId<T extends { readonly id: string }>(list: readonly T[]): Map<string, T> {
  const map = new Map<string, T>();
  for (const x of list) if (!map.has(x.id)) map.set(x.id, x);
  return map;
}

/**
 * "Title, edition, place" of what a thing cites; the reference itself where the source is unknown, null without one.
 * @param cited the thing, then those around it: the first that names a source counts, with the edition beside it
 */
export function sourceLine(deck: Deck, ...cited: readonly Cited[]): string | null {
  const { source: ref, edition } = cited.find((one) => one.source !== undefined) ?? {};
  if (ref === undefined) return null;
  const cut = ref.indexOf('#');
  const id = cut < 0 ? ref : ref.slice(0, cut);
  const place = cut < 0 ? undefined : ref.slice(cut + 1);
  const source = deck.sources.find((s) => s.id === id);
  if (!source) return ref;
  return [source.title, edition ?? source.edition, place].filter((x) => x !== undefined && x !== '').join(', ');
}
