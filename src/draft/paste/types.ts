import type { Id } from '../../model/deck.ts';

/** A pasted text or a file, taken apart (src/exchange/rows.ts). */
export interface Rows {
  /** As they stand, blank ones too: row n of the text is `rows[n - 1]`. A list has one cell a row, its line. */
  readonly rows: readonly (readonly string[])[];
  readonly kind: 'list' | 'table';
  /** With an error there are no rows. */
  readonly findings: readonly RowsFinding[];
}

export interface RowsFinding {
  readonly severity: 'error' | 'warning';
  /** From 1; null: the text as a whole. */
  readonly row: number | null;
  /** For people: what is wrong, and what to do. */
  readonly message: string;
}

/** What a row says of a step, cleaned. What it does not say is absent. */
export interface Fields {
  /** An id that the row brings along, from a list that was once written here. */
  readonly id?: Id;
  /** Id of a member of the crew; as it stands where the deck has none such. */
  readonly by?: string;
  readonly do?: string;
  readonly say?: string;
  /** As written by `cueCell`, or free words. */
  readonly cue?: string;
  /** The cue stood in the words of the line, in no column of its own. */
  readonly cueInWords?: true;
  readonly limit?: string;
  readonly why?: string;
  readonly slip?: string;
  readonly where?: string;
  readonly source?: string;
  readonly if?: string;
  readonly critical?: true;
  readonly answers?: string;
}

/** Where a row of a table with a column for each pilot stands. */
export interface Lane {
  /** Rows without a blank or a common row between them. */
  readonly section: number;
  /** From 0, left to right. */
  readonly column: number;
}

/** What a row (or a cell of it) was read as. */
export interface Reading {
  /** Of the pasted text, from 1; of several joined lines the first. */
  readonly row: number;
  /** As it was pasted. */
  readonly text: string;
  /** Why it is not taken; null: taken. */
  readonly skip: string | null;
  readonly fields: Fields;
  readonly lane: Lane | null;
  /** The row says that it responds to the callout before it. */
  readonly responds?: true;
  /** What the author should look at. */
  readonly notes: readonly string[];
}

export interface Read {
  readonly readings: readonly Reading[];
  /** What seems to be the title above the list. */
  readonly title: string | null;
  /** Columns that were not read, and the like. */
  readonly notes: readonly string[];
}

/** Things of the deck that a row may name. */
export interface Known {
  readonly crew: readonly Named[];
  readonly limits: readonly Named[];
  readonly sources: readonly Named[];
  /** Yes/no conditions: label and the words for yes. */
  readonly conditions: readonly Named[];
  readonly day: readonly Named[];
}

export interface Named {
  readonly id: string;
  /** Other names it goes by. */
  readonly names: readonly string[];
}
