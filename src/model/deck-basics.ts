/** The words of which procedures, limits and scenarios are made: ids, units, senses, what confines a thing. */

/** `[a-z0-9][a-z0-9-]*`, unique among all things of a deck, stable for ever: memory hangs on it. */
export type Id = string;
/** A formula in the confined CEL grammar (src/formula). Names match `[a-z][A-Za-z0-9]*`. */
export type FormulaText = string;
/** Text for people: plain, with `{name}` places for values of the day and drawn values, and the small CommonMark subset. */
export type Text = string;
/** ISO 8601 calendar date, `2026-11-25`. */
export type IsoDate = string;
/** `source-id` or `source-id#place`, for example `som#3.2`. */
export type SourceRef = string;

/** Where a thing stands in its source. */
export interface Cited {
  readonly source?: SourceRef;
  /** Edition of the source that the thing was checked against; absent: the source's own. */
  readonly edition?: string;
}

export const NATURES = ['fictional', 'public', 'operator'] as const;
export type Nature = (typeof NATURES)[number];

export const BASES = ['published', 'operator', 'common-practice', 'from-memory', 'invented'] as const;
export type Basis = (typeof BASES)[number];

export const DONE = ['memory', 'flow', 'read-and-do', 'challenge-response'] as const;
export type Done = (typeof DONE)[number];

export const SENSES = ['exactly', 'at least', 'at most', 'from-to', 'about'] as const;
export type Sense = (typeof SENSES)[number];

export const SHOWS = ['direction', 'runway', 'flight-level', 'mach'] as const;
/** Trade form of a number: direction 360 not 000, runway 07, FL 180, M 0.78. */
export type Show = (typeof SHOWS)[number];

/** What the trade writes; src/model/units.ts maps each to its UCUM code. */
export const UNITS = [
  'kt',
  'm/s',
  'km/h',
  'Mach',
  'ft',
  'm',
  'NM',
  'km',
  'FL',
  'ft/min',
  'ft/NM',
  '°',
  '°/s',
  '°C',
  'hPa',
  'inHg',
  'psi',
  'kg',
  't',
  'lb',
  'kg/h',
  'lb/h',
  'N·m',
  'rpm',
  's',
  'min',
  'h',
  'days',
  'months',
  '%',
  '% N1',
  'EPR',
  'g',
  'dot',
  'V',
  'SM',
  'MHz',
  '×',
] as const;
export type Unit = (typeof UNITS)[number];

/** Confines a thing to variants: per axis one option or several; all axes named must hold. `not` inverts. */
export type When = { readonly not: When } | { readonly [axis: Id]: Id | readonly Id[] };

/** Confines a case to named conditions: a choice by option id, a yes/no by truth value, a number by a half-open range [from, to). */
export type Given = { readonly [condition: string]: string | boolean | GivenRange };
export interface GivenRange {
  readonly from?: number;
  readonly to?: number;
}

/** Accepted distance from the value, absolute: symmetric number, or `{plus, minus}` (both ≥ 0). Default 0. */
export type Band = number | { readonly plus: number; readonly minus: number };
