import type { Tree } from '../formula/tree.ts';
import { canonicalJson, type Json } from '../lib/canonical-json.ts';
import { fnv36 } from '../lib/hash.ts';
import type { FormulaText, Id, VariantAxis } from '../model/deck.ts';
import type { Facet, Item, ItemKey } from '../model/item.ts';
import type { Pick, ResolvedLimit } from './resolved.ts';
import type { Things } from './things.ts';

/** An item as a subject names it; the deck's resolver adds deck, key, rank and views. */
export interface ItemDraft {
  readonly thing: Id;
  readonly facet: Facet;
  /** place | cue | crew | words | value.<case> | <ask>.<rule> | <ask>.number */
  readonly facetKey: string;
  /** What must be recalled. */
  readonly meaning: Json;
  readonly group: Id;
  readonly groupKind: Item['groupKind'];
  readonly critical: boolean;
  readonly label: string;
}

/** 32-bit FNV-1a in base 36 over RFC 8785 JSON of what must be recalled. */
export const stampOf = (meaning: Json): string => fnv36(canonicalJson(meaning));

/** One variant combination while it is being resolved. */
export interface ViewContext {
  readonly things: Things;
  readonly pick: Pick;
  readonly axes: readonly VariantAxis[];
  /** Facets of steps that the learner leaves out. */
  readonly leftOut: ReadonlySet<string>;
  /** Limits of this view, resolved first: cues, rules and formulas use them. */
  readonly limits: ReadonlyMap<Id, ResolvedLimit>;
  /** null where it cannot be parsed (the checker refuses such a deck; a resolver never throws). */
  readonly parse: (text: FormulaText) => Tree | null;
  /** Value of a limit for formulas; NaN where there is none, or more than one and none given. */
  readonly limitValue: (id: Id) => number;
  readonly lookup: (id: Id, x: number) => number;
  readonly register: (draft: ItemDraft) => ItemKey;
}
