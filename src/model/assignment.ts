/**
 * What an instructor hands out: which decks, as which variants, by when, how long a day. A file (`.assignment.json`), a
 * link (`open.html#assignment=…`) or its QR code; without a server, so that it carries all it needs but the decks' text.
 */
import type { Id, IsoDate, Nature } from './deck.ts';

export interface AssignedDeck {
  readonly id: string;
  /** SHA-256 of the canonical JSON, 64 hex: this revision is meant. */
  readonly contentId: string;
  readonly title: string;
  readonly version: string;
  /** Invented decks are practised, dated and marked apart from all others: also while the deck is not here yet. */
  readonly nature: Nature;
  /** https address of the deck's file; absent: the trainee gets it another way. */
  readonly address?: string;
  /** axis → options to be flown; an axis left out is the trainee's own choice. */
  readonly variants?: Readonly<Record<Id, readonly Id[]>>;
}

/** Some procedures, limits or scenarios with days of their own; each of them in one group at most. */
export interface AssignedGroup {
  readonly id: string;
  readonly name: string;
  /** `<deck id>#<procedure, limit or scenario id>` */
  readonly things: readonly string[];
  /** Day on which its procedures are checked, before the check of all; absent: with all. */
  readonly checkDate?: IsoDate;
  /** First day on which they are asked; absent: at once. */
  readonly opens?: IsoDate;
}

export interface Assignment {
  readonly recency: 'assignment';
  readonly v: 1;
  /** 128 random bits, base64url: the same in every later amendment. */
  readonly id: string;
  /** From 1; the one with the greatest `n` holds. */
  readonly n: number;
  /** For people: "Type rating, group 3". */
  readonly title: string;
  /** Day on which it was made. */
  readonly made: IsoDate;
  readonly decks: readonly AssignedDeck[];
  readonly checkDate?: IsoDate;
  readonly groups?: readonly AssignedGroup[];
  /** Of each day. */
  readonly minutes?: number;
  /** For the trainee; plain text. */
  readonly note?: string;
}

export interface AssignmentFinding {
  /** Line and column where the text cannot be read, else the JSON Pointer of the member. */
  readonly where: string;
  /** What is wrong and what to do. */
  readonly text: string;
}

export interface ReadAssignment {
  /** Absent where there is a finding. */
  readonly assignment?: Assignment;
  readonly findings: readonly AssignmentFinding[];
}
