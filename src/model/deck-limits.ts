/** Limits of a deck: numbers, facts, tables. */
import type { Band, Cited, Given, Id, Sense, Show, Text, Unit, When } from './deck-basics.ts';

/** pitch: the value is shown as the attitude of the aeroplane, nose against horizon, too. */
export const LIMIT_PICTURES = ['pitch'] as const;
export type LimitPicture = (typeof LIMIT_PICTURES)[number];

export interface LimitSlip {
  readonly value: number;
  readonly note: Text;
}

export interface LimitCase extends Cited {
  readonly id: Id;
  readonly when?: When;
  readonly given?: Given;
  /** For every sense but from-to. */
  readonly value?: number;
  /** For sense from-to. */
  readonly from?: number;
  readonly to?: number;
  readonly critical?: boolean;
  readonly note?: Text;
}

interface LimitBase extends Cited {
  readonly id: Id;
  readonly ask: Text;
  readonly why?: Text;
  readonly slip?: Text;
  readonly critical?: boolean;
  readonly when?: When;
  readonly keeps?: readonly string[];
}

/** A number. Either `cases`, or `value` / `from`+`to` directly (one case named `standard`). */
export interface NumberLimit extends LimitBase {
  readonly unit: Unit;
  /** Datum or qualifier: AAL, IAS, MSL. */
  readonly reference?: string;
  readonly sense: Sense;
  /** "below" and "above" instead of "at most" and "at least". */
  readonly strict?: boolean;
  readonly show?: Show;
  readonly picture?: LimitPicture;
  readonly accept?: Band;
  readonly value?: number;
  readonly from?: number;
  readonly to?: number;
  readonly cases?: readonly LimitCase[];
  readonly slips?: readonly LimitSlip[];
}

export interface FactCase extends Cited {
  readonly id: Id;
  readonly when?: When;
  readonly given?: Given;
  /** Option id. */
  readonly is: Id;
  readonly critical?: boolean;
  readonly note?: Text;
}

/** A limit whose value is one of named choices. Either `cases` or `is` (one case named `standard`). */
export interface FactLimit extends LimitBase {
  readonly options: { readonly [option: Id]: string };
  readonly is?: Id;
  readonly cases?: readonly FactCase[];
  readonly slips?: readonly { readonly is: Id; readonly note: Text }[];
}

/** What is read from a table; usable in formulas by `lookup("id", x)`. Asked row by row only when `asked`. */
export interface TableLimit extends LimitBase {
  readonly unit: Unit;
  readonly reference?: string;
  readonly accept?: Band;
  readonly table: {
    readonly input: { readonly label: string; readonly unit: Unit };
    /** step: the row with the greatest input not above x; linear: between rows. Outside the rows: not a number. */
    readonly method: 'step' | 'linear';
    /** [input, value], inputs strictly rising, at least two. */
    readonly rows: readonly (readonly [number, number])[];
  };
  readonly asked?: boolean;
  /** Of every value of the table; `exactly` where absent. */
  readonly sense?: TableSense;
}

/** Senses that each value of a table can have. */
export const TABLE_SENSES = ['exactly', 'at least', 'at most'] as const satisfies readonly Sense[];
export type TableSense = (typeof TABLE_SENSES)[number];

export type Limit = NumberLimit | FactLimit | TableLimit;

/** Field-presence tests, so that nobody spells them twice. */
export const isFact = (l: Limit): l is FactLimit => 'options' in l;
export const isTable = (l: Limit): l is TableLimit => 'table' in l;
export const isNumberLimit = (l: Limit): l is NumberLimit => 'sense' in l && !('table' in l);
