/**
 * Ways to ask that stand inside a procedure, or beside it: what is shown and what is given.
 */
import type { Id } from './deck.ts';
import type { Choice, Drawn, InProcedure, LimitShown, NumberField, NumberGiven, ScenarioShown } from './form.ts';
import type { ItemKey } from './item.ts';

/** What is said, and by whom where that is asked. */
export interface CalloutShown extends InProcedure {
  readonly form: 'callout';
  readonly ask: string;
  /** Texts of the last steps done. */
  readonly before: readonly string[];
  /** Cue of the callout, or what was said that it answers; '' where neither is authored. */
  readonly cue: string;
  /** Near misses among them; empty: it is typed. */
  readonly choices: readonly Choice[];
  /** Who might say it; empty: not asked. */
  readonly seats: readonly Choice[];
}
/** Typed words, or one of the choices; and who. */
export type WordsGiven = ({ readonly said: string } | { readonly choice: Id }) & { readonly by?: Id };

/** A read list: which one, who calls for it and how; of a challenge the response, and who gives it. */
export interface ListShown extends InProcedure {
  readonly form: 'list';
  /** caller: who alone, where what is shown says the words. */
  readonly way: 'which' | 'call' | 'caller' | 'response';
  readonly ask: string;
  /** Challenge as read out; '' but for `response`. */
  readonly challenge: string;
  /** Empty: it is typed. */
  readonly choices: readonly Choice[];
  /** Empty: not asked. */
  readonly seats: readonly Choice[];
}

/** Who does what: each row to one of the seats. */
export interface CrewShown extends InProcedure {
  readonly form: 'crew';
  readonly before: readonly string[];
  readonly rows: readonly Choice[];
  readonly seats: readonly Choice[];
}
export interface CrewGiven {
  /** Row id → seat id; every row. */
  readonly deal: Readonly<Record<string, Id>>;
}

/** One line of a run as another crew flies it. */
export interface SlipLine {
  /** `line-<n>` in the order shown. */
  readonly id: string;
  readonly text: string;
  readonly by?: string;
  readonly value?: string;
}
export type FaultKind = 'swapped' | 'missing' | 'stranger' | 'value' | 'crew' | 'variant';
/** Planted, and kept in the log: what marking needs, never shown before the verdict. */
export interface Fault {
  readonly kind: FaultKind;
  /**
   * Lines of which any one finds it: of two exchanged both, of what is left out each that waits for it directly (in
   * older logs the first of them alone); else one.
   */
  readonly lines: readonly string[];
  /** The step that is meant, and the item that finding it proves. */
  readonly step: Id;
  readonly item: ItemKey;
  /** stranger, variant: `stranger-<n>`, n = place in the procedure's list. */
  readonly of?: string;
}
export interface SlipShown extends InProcedure {
  readonly form: 'slip';
  readonly before: readonly string[];
  readonly lines: readonly SlipLine[];
  readonly faults: readonly Fault[];
}
export interface SlipGiven {
  /** Lines at which the learner speaks up. */
  readonly lines: readonly string[];
}

/** A limit inside its step. */
export interface ValueShown extends Omit<LimitShown, 'form'> {
  readonly form: 'value';
  readonly title: string;
  readonly before: readonly string[];
  /** The step, its number left out. */
  readonly step: string;
}
/** A scenario's rule inside the step that it decides; or the step that is done in these circumstances and no others. */
export interface RuleShown extends Omit<ScenarioShown, 'form'> {
  readonly form: 'rule';
  readonly title: string;
  readonly before: readonly string[];
  /** '' where the step itself is asked. */
  readonly step: string;
}

/** The same limit, or who does a step, in two variants: one row for each. */
export interface DifferenceShown {
  readonly form: 'difference';
  readonly ask: string;
  readonly scene: readonly string[];
  readonly drawn: Drawn;
  /** A field for each variant, labelled by it; of a range two. Empty: `rows` are dealt. */
  readonly fields: readonly NumberField[];
  /** A row for each variant, dealt among `seats` (crew or the options of a fact). */
  readonly rows: readonly Choice[];
  readonly seats: readonly Choice[];
}
export type DifferenceGiven = NumberGiven | CrewGiven;
