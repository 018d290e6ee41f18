import type { Sense, Unit } from '../../model/deck.ts';
import { UNITS } from '../../model/deck.ts';
import { UNIT_FACTS } from '../../model/units.ts';

/** What one line says of a limit: "Lowest height to engage the autopilot: at least 200 ft AAL". */
export interface LimitLine {
  readonly ask: string;
  readonly unit: Unit;
  readonly sense: Sense;
  readonly strict?: true;
  readonly reference?: string;
  readonly value?: number;
  readonly from?: number;
  readonly to?: number;
}

/** Longest signs first: "at least" before "at", ">=" before ">". */
const SENSES: readonly (readonly [RegExp, Sense, 'strict'?])[] = [
  [/^(?:at least|no less than|not less than|not below|min(?:imum|\.)?|>=|≥)\s*/i, 'at least'],
  [/^(?:at most|no more than|not more than|not above|up to|max(?:imum|\.)?|<=|≤)\s*/i, 'at most'],
  [/^(?:above|more than|over|>)\s*/i, 'at least', 'strict'],
  [/^(?:below|less than|under|<)\s*/i, 'at most', 'strict'],
  [/^(?:about|approximately|approx\.?|ca\.?|~|≈)\s*/i, 'about'],
  [/^(?:exactly|=)\s*/i, 'exactly'],
];

const NUMBER = String.raw`[-−+]?\d(?:[\d.,'’]|\s(?=\d{3}(?!\d)))*`;
const VALUE = new RegExp(String.raw`^(${NUMBER})(?:\s*(?:–|—|-|to|\.\.|…)\s*(${NUMBER}))?\s*(.*)$`, 's');

const LONGEST_FIRST = [...UNITS].sort((a, b) => b.length - a.length);
/** Beginning of a text, but not of a longer word. */
const begins = (text: string, unit: string): boolean =>
  text.startsWith(unit) && !/^[\p{L}\d/]/u.test(text.slice(unit.length));

const unitIn = (text: string): Unit | null => {
  const lower = text.toLowerCase();
  return (
    LONGEST_FIRST.find((unit) => begins(text, unit)) ??
    LONGEST_FIRST.find((unit) => begins(lower, unit.toLowerCase())) ??
    null
  );
};

/** A mark before exactly three digits is for thousands where the trade counts the unit in whole numbers. */
const numberIn = (text: string, unit: Unit): number => {
  let plain = text
    .replace('−', '-')
    .replace(/[\s'’]/g, '')
    .replace(/[.,]$/, '');
  const isGrouped = /^[-+]?[1-9]\d{0,2}([.,])\d{3}(?:\1\d{3})*$/.test(plain);
  if (isGrouped && (UNIT_FACTS[unit].whole || (plain.match(/[.,]/g)?.length ?? 0) > 1))
    plain = plain.replace(/[.,]/g, '');
  return Number(plain.replace(',', '.'));
};

/** A longer line is no limit: letters (UTF-16 code units). */
export const MOST_LETTERS = 1000;
/** Places tried, from the end: a question has fewer colons of its own. */
const MOST_CUTS = 10;

/** Each run of spaces as one letter, a tab where it holds one: signs need not be looked for across long runs. */
const plainSpaces = (text: string): string => text.replace(/\s{2,}/g, (run) => (run.includes('\t') ? '\t' : ' '));

/**
 * Reads one line: a question, a colon (or a tab, or a sign of equality), and the value with its unit. Takes time in
 * proportion to the length of the line, whatever stands in it.
 * @returns null where no question, number or unit of the trade is found, and of a line of more than 1,000 letters
 */
export const readLimitLine = (line: string): LimitLine | null => {
  if (line.length > MOST_LETTERS) return null;
  const text = plainSpaces(line.trim()).replace(/^(?:[-–•*]|\d+[.)])\s/, '');
  // The last that a value follows: a question may hold a colon of its own.
  const cuts = [...text.matchAll(/\s?(?::\s|\t|\s=\s|\s(?=[≥≤<>≈~]))/g)].slice(-MOST_CUTS).reverse();
  for (const cut of cuts) {
    const ask = text.slice(0, cut.index).trim();
    const read = ask === '' ? null : valueIn(text.slice(cut.index + cut[0].length).trim());
    if (read !== null) return { ask, ...read };
  }
  return null;
};

/** Without the signs around a reference. Letter by letter: a pattern bound to the end is tried at each of them. */
const withoutSigns = (text: string): string => {
  let end = text.length;
  while (end > 0 && /[\s).;]/.test(text.charAt(end - 1))) end--;
  return text.slice(0, end).replace(/^[\s,;(]+/, '');
};

const valueIn = (text: string): Omit<LimitLine, 'ask'> | null => {
  const found = SENSES.find(([sign]) => sign.test(text));
  const [, first, second, behind = ''] = VALUE.exec(found === undefined ? text : text.replace(found[0], '')) ?? [];
  const unit = unitIn(behind);
  if (first === undefined || unit === null) return null;
  const reference = withoutSigns(behind.slice(unit.length));
  const rest = { unit, ...(reference !== '' && { reference }) };
  const value = numberIn(first, unit);
  if (second !== undefined) {
    const to = numberIn(second, unit);
    return Number.isNaN(value) || Number.isNaN(to) ? null : { ...rest, sense: 'from-to', from: value, to };
  }
  if (Number.isNaN(value)) return null;
  const [, sense, strict] = found ?? [null, 'exactly' as const];
  return { ...rest, sense, ...(strict !== undefined && { strict: true as const }), value };
};
