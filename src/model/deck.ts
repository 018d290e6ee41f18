/**
 * What a deck can say: the authored file, as TypeScript types.
 *
 * The valibot schema (src/subjects/<subject>/shape.ts, src/deck/schema.ts) is held to these types by
 * the compiler, and the JSON Schema in shared/ is generated from the valibot schema.
 */
import type { Area } from './deck-areas.ts';
import type { Basis, FormulaText, Id, IsoDate, Nature, Show, Text, Unit } from './deck-basics.ts';
import type { Limit } from './deck-limits.ts';
import type { Paced } from './deck-paced.ts';
import type { Procedure } from './deck-procedures.ts';
import type { Scenario } from './deck-scenarios.ts';

export * from './deck-areas.ts';
export * from './deck-basics.ts';
export * from './deck-limits.ts';
export * from './deck-paced.ts';
export * from './deck-procedures.ts';
export * from './deck-scenarios.ts';

export interface Source {
  readonly id: Id;
  readonly title: string;
  readonly edition?: string;
  readonly issued?: IsoDate;
  readonly basis: Basis;
  readonly url?: string;
}

export interface VariantAxis {
  readonly id: Id;
  readonly label: string;
  /** option id → label; at least two. */
  readonly options: { readonly [option: Id]: string };
}

export interface CrewMember {
  readonly id: string;
  readonly label: string;
}

/** A value the day gives (V1, QNH): drawn, shown, never asked. */
export interface DayValue {
  /** A formula name. */
  readonly id: string;
  readonly label: string;
  readonly unit: Unit;
  readonly from: number;
  readonly to: number;
  /** Default 1. */
  readonly step?: number;
  readonly show?: Show;
  /** Truth formulas over values of the day, such as `v1 <= vr`. */
  readonly require?: readonly FormulaText[];
}

/** A circumstance drawn for a question: yes/no, one of some choices, or a number. */
export type Condition = YesNoCondition | ChoiceCondition | NumberCondition;
interface ConditionBase {
  /** A formula name. */
  readonly id: string;
  readonly label: string;
}
export interface YesNoCondition extends ConditionBase {
  /** How each is put to the learner. */
  readonly yes: string;
  readonly no: string;
}
export interface ChoiceCondition extends ConditionBase {
  readonly options: { readonly [option: string]: string };
}
export interface NumberCondition extends ConditionBase {
  readonly unit: Unit;
  readonly from: number;
  readonly to: number;
  readonly step?: number;
}

export interface Deck {
  readonly format: 1;
  /** `publisher/name`, both slugs, stable for ever. */
  readonly id: string;
  /** SemVer of content: major = an answer changed, minor = something added, patch = wording. */
  readonly version: string;
  readonly title: string;
  /** BCP 47. */
  readonly language: string;
  readonly nature: Nature;
  readonly about?: Text;
  readonly madeBy?: string;
  /** The second person who checked it, if there was one. */
  readonly checkedBy?: string;
  readonly effective?: IsoDate;
  /** Of a bulletin: its last day. After it the revision before it is asked again. */
  readonly until?: IsoDate;
  /** For the learner: what changed against the revision before it, and why. */
  readonly amendment?: Text;
  readonly reviewBy?: IsoDate;
  readonly sources: readonly Source[];
  readonly variants?: readonly VariantAxis[];
  readonly crew?: readonly CrewMember[];
  readonly day?: readonly DayValue[];
  readonly conditions?: readonly Condition[];
  readonly procedures?: readonly Procedure[];
  readonly limits?: readonly Limit[];
  readonly scenarios?: readonly Scenario[];
  /** Take-offs that are played in time. */
  readonly paced?: readonly Paced[];
  /** A plan of the flight deck; where there is one, `where` of each step names an area of it. */
  readonly areas?: readonly Area[];
  /**
   * Detached signatures (RFC 7515, Appendix F; EdDSA of RFC 8037) over all other members (src/exchange/signature.ts).
   * No part of the content id.
   */
  readonly signatures?: readonly string[];
}

/** A deck is signed by its author and those who checked it. */
export const MOST_SIGNATURES = 8;

/** Crew a deck has without saying so. */
export const DEFAULT_CREW: readonly CrewMember[] = [
  { id: 'PF', label: 'PF' },
  { id: 'PM', label: 'PM' },
  { id: 'both', label: 'Both' },
  { id: 'either', label: 'Either' },
];
