/**
 * A deck as one learner flies it: variants picked, references looked up, items named.
 * `src/deck/resolve.ts` makes it; forms read it.
 */
import type { Tree } from '../formula/tree.ts';
import type {
  ChooseAsk,
  Deck,
  Done,
  FactLimit,
  Id,
  NumberAsk,
  NumberLimit,
  Procedure,
  Rule,
  Scenario,
  Step,
  TableLimit,
} from '../model/deck.ts';
import type { Item, ItemKey } from '../model/item.ts';

/** axis → option, or null = not told yet: only what is common to all. */
export type Pick = Readonly<Record<Id, Id | null>>;
/** A learner's own variants: axis → options flown; empty or absent = not told yet. Under `LEFT_OUT`: what is not asked. */
export type Flown = Readonly<Record<Id, readonly Id[]>>;
/**
 * No axis can be named so. Facets of steps that a learner leaves out: cue, crew, words; and, as `#<id>`, procedures,
 * limits and scenarios that are not yet open.
 */
export const LEFT_OUT = '-';

/** A strict partial order on 0..n-1, transitively closed. */
export interface PartialOrder {
  readonly n: number;
  /** before[a][b]: a must come before b. */
  readonly before: readonly (readonly boolean[])[];
  /** Direct pairs (transitive reduction). */
  readonly covers: readonly (readonly [number, number])[];
  /** |P|: number of required pairs. */
  readonly pairs: number;
}

export interface RunStep {
  readonly step: Step;
  /** Procedure whose text holds it (another one's for a shared block). */
  readonly owner: Id;
  /** The words of `do` and `say`: what may be seen before the verdict. `say` in quotation marks. */
  readonly text: string;
  readonly critical: boolean;
  /** Only in memory and flow procedures of two steps and more. */
  readonly place: ItemKey | null;
  readonly cue: ItemKey | null;
  readonly crew: ItemKey | null;
  readonly words: ItemKey | null;
  /** Steps done together share a group number. */
  readonly together: number | null;
}

/** A procedure in one situation (truth of its `if`s). */
export interface Situation {
  /** '' where nothing is conditional, else one 0/1 a formula. */
  readonly id: string;
  /** Steps in authored order, which is a right order. */
  readonly steps: readonly RunStep[];
  readonly order: PartialOrder;
}

/** Of a list that is read: the words that call for it, who says them, and when (where some lists say so). */
export interface ListItems {
  readonly words: ItemKey | null;
  readonly crew: ItemKey | null;
  readonly cue: ItemKey | null;
}

export interface ResolvedProcedure {
  readonly procedure: Procedure;
  readonly done: Done;
  readonly situations: readonly Situation[];
  /** The `if`s of the procedure in order: `situation.id[i]` is the truth of `conditions[i]`. */
  readonly conditions: readonly Tree[];
  /** Items of the list itself; null where the procedure is recalled, not read. */
  readonly calls: ListItems | null;
  /** Texts of steps that do not belong: authored, of other situations and variants, of neighbours flown. */
  readonly strangers: readonly { readonly text: string; readonly note?: string }[];
}

export interface ResolvedCase {
  readonly id: Id;
  readonly key: ItemKey;
  readonly critical: boolean;
  /** Circumstances in words: "Flaps 2", "Input 10 000 ft"; '' for the default case. */
  readonly given: string;
  readonly source: string | null;
  /** Number: one value, or two for from-to. Fact: the option id. */
  readonly value: readonly number[] | Id;
}
export interface ResolvedLimit {
  readonly limit: NumberLimit | FactLimit | TableLimit;
  /** Cases that hold in this view; empty where a variant that matters is not told. */
  readonly cases: readonly ResolvedCase[];
}

export interface ResolvedRule {
  readonly rule: Rule;
  readonly if: Tree | null;
  readonly key: ItemKey;
}
export type ResolvedAsk =
  | {
      readonly ask: NumberAsk;
      readonly number: Tree;
      readonly if: Tree | null;
      readonly key: ItemKey;
      readonly slips: readonly { readonly number: Tree; readonly note: string }[];
    }
  | { readonly ask: ChooseAsk; readonly rules: readonly ResolvedRule[]; readonly if: Tree | null };
export interface ResolvedScenario {
  readonly scenario: Scenario;
  readonly lets: readonly { readonly name: string; readonly tree: Tree }[];
  readonly require: readonly Tree[];
  readonly asks: readonly ResolvedAsk[];
}

/** One variant combination. */
export interface View {
  /** `axis=option` joined by commas, axes in authored order, untold ones left out; '' where there is none. */
  readonly id: string;
  readonly pick: Pick;
  /** For people: "TK-11, Calder Coast". '' where there is none. */
  readonly label: string;
  readonly procedures: readonly ResolvedProcedure[];
  readonly limits: readonly ResolvedLimit[];
  readonly scenarios: readonly ResolvedScenario[];
  /** What the values of the day require of one another. */
  readonly requires: readonly Tree[];
  /** Value of a limit for formulas. NaN where there is none, or more than one and none given. */
  limitValue(id: Id): number;
  lookup(id: Id, x: number): number;
}

/** Another revision of a deck, whose answers are, were or will be right. */
export interface OtherRevision {
  readonly deck: Deck;
  /** As the same learner flies it; worked out when first asked for. */
  resolved(): Resolved;
  /** past: it was right. now: it is in force, though another one is asked. coming: it will be. */
  readonly when: 'past' | 'now' | 'coming';
  /** Its last day, of a coming one its first; days from 1 January 1970, null where none is named. */
  readonly day: number | null;
  /** Of a past one: what came after it. */
  readonly next?: Deck;
}

export interface Resolved {
  readonly deck: Deck;
  /** `<deck id>@<16 hex of content id>` */
  readonly ref: string;
  readonly views: readonly View[];
  readonly items: ReadonlyMap<ItemKey, Item>;
  /** Old item keys that an author joined to new ones with `keeps` → the key of today. */
  readonly aliases: ReadonlyMap<ItemKey, ItemKey>;
  /** Does the view's name have to be said for this item (its answer differs among the views flown)? */
  readonly namesView: (key: ItemKey) => boolean;
  /** Other revisions on the device, the newest first; absent: none. */
  readonly others?: readonly OtherRevision[];
}
