/** Procedures of a deck: steps, blocks, lanes, shared blocks. */
import type { Cited, Done, FormulaText, Id, Text, Unit, When } from './deck-basics.ts';

export interface Cue {
  readonly text?: Text;
  /** A limit whose value is the cue (a gate height is written once). */
  readonly limit?: Id;
  /** A value of the day that is the cue, such as V1. */
  readonly day?: string;
  /** A yes/no condition whose coming true is the cue. */
  readonly event?: string;
}

/** Where an action that is held starts or ends. */
export interface Bound {
  readonly text?: Text;
  readonly limit?: Id;
  readonly day?: string;
}

export interface Amount {
  readonly limit?: Id;
  readonly value?: number;
  readonly unit?: Unit;
}

export interface Wait {
  readonly step: Id;
  readonly atLeast?: Amount;
  readonly atMost?: Amount;
}

export interface Step extends Cited {
  readonly id: Id;
  readonly do?: Text;
  readonly say?: Text;
  readonly by?: string;
  readonly cue?: Cue;
  readonly from?: Bound;
  readonly until?: Bound;
  /** A wait after another step; also a precedence. */
  readonly after?: Wait;
  /** The limit that holds this step's number. */
  readonly limit?: Id;
  /** `scenario#ask` that gives its amount. */
  readonly rule?: string;
  /** The step this one responds to; also a precedence. */
  readonly answers?: Id;
  readonly ifNoAnswer?: Text;
  /** Steps (or blocks) that must be done before, across lanes. */
  readonly needs?: readonly Id[];
  readonly why?: Text;
  /** The usual wrong habit, perhaps from another type. */
  readonly slip?: Text;
  readonly alsoSay?: readonly Text[];
  readonly alsoDo?: readonly Text[];
  /** Panel area: where the deck has `areas`, the label of one. */
  readonly where?: string;
  readonly when?: When;
  readonly if?: FormulaText;
  readonly critical?: boolean;
  /** `facet~stamp`: old stamps that this thing's memory is kept from. */
  readonly keeps?: readonly string[];
}

/** Exactly one of `steps` and `lanes`. `together`: done at once, any order is right. */
export interface Block {
  readonly id?: Id;
  readonly if?: FormulaText;
  readonly when?: When;
  readonly together?: boolean;
  readonly steps?: readonly Node[];
  readonly lanes?: readonly (readonly Node[])[];
}

/** Takes a named block of another procedure together with its memory. */
export interface Use {
  readonly use: Id;
  readonly if?: FormulaText;
  readonly when?: When;
}

export type Node = Step | Block | Use;

/** A step that does not belong, with the reason if there is one. */
export interface Stranger {
  readonly text: Text;
  readonly note?: Text;
}

export interface Procedure extends Cited {
  readonly id: Id;
  readonly title: string;
  /** The state of affairs in which it starts. */
  readonly starts?: Text;
  readonly done: Done;
  /** Who calls for it, and with which words (read-and-do and challenge-response lists). */
  readonly calledBy?: string;
  readonly called?: Text;
  readonly steps: readonly Node[];
  readonly strangers?: readonly (Text | Stranger)[];
  readonly why?: Text;
  readonly critical?: boolean;
  readonly when?: When;
}

/** Field-presence tests, so that nobody spells them twice. */
export const isUse = (n: Node): n is Use => 'use' in n;
export const isBlock = (n: Node): n is Block => 'steps' in n || 'lanes' in n;
export const isStep = (n: Node): n is Step => !isUse(n) && !isBlock(n);
