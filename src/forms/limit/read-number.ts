import { plainDigits } from '../../lib/plain-digits.ts';
import type { Show, Unit } from '../../model/deck.ts';
import { tradeForm } from '../../model/trade-form.ts';
import { UNIT_FACTS } from '../../model/units.ts';

export type ReadCode =
  /** Nothing typed yet. */
  | 'empty'
  /** No number can be read from it. */
  | 'not-a-number'
  /** Marks between groups that are not of three digits, or two decimal marks. */
  | 'marks'
  /** Another unit, FL or Mach written where that is not asked. */
  | 'unit'
  /** A direction beyond 360 or a runway beyond 36. */
  | 'range';

export type ReadNumber =
  | { readonly ok: true; readonly value: number; readonly echo: string }
  | { readonly ok: false; readonly code: ReadCode };

const no = (code: ReadCode): ReadNumber => ({ ok: false, code });

/**
 * Reads a number as it is typed on a phone.
 *
 * One decimal mark, point or comma. One mark before exactly three digits, in a unit counted in whole
 * numbers, is thousands ("1.500" ft is 1500; "0.750" is not, nothing thousands starts with 0). Several
 * equal marks, spaces and apostrophes between groups of three are thousands. Minus as "-", U+2212 or a dash. Digits and
 * marks of any script and width.
 * FL and M or Mach may stand before the number, the unit behind it.
 * @returns the value in `unit`; a direction of 0 as 360; a runway in degrees ("07L" → 70);
 *   and an echo in trade form to be shown before it is marked
 */
export function readNumber(text: string, unit: Unit, show?: Show): ReadNumber {
  let t = plainDigits(text.normalize('NFKC'))
    .replace(/[\u2212\u2013\u2014]/g, '-')
    .replaceAll('\u066b', '.')
    .replaceAll('\u066c', ',')
    .replace(/[\u00a0\u2009\u202f\s]+/g, ' ')
    .replace(/[\u2019]/g, "'")
    .trim();
  if (t === '') return no('empty');
  if (show === 'runway') return readRunway(t);

  const level = unit === 'FL' || show === 'flight-level';
  const mach = unit === 'Mach' || show === 'mach';
  const front = /^(fl|mach|m)\s*(?=[-\d.,])/i.exec(t);
  if (front) {
    const isLevel = /^fl/i.test(front[0]);
    if (isLevel ? !level : !mach) return no('unit');
    t = t.slice(front[0].length);
  }
  const tail = /\s*([^\d\s.,'+-][^\d]*\d?)$/.exec(t);
  if (tail) {
    const said = (tail[1] as string).trim().toLowerCase();
    const known = [unit.toLowerCase(), ...(show === 'direction' ? ['°'] : [])];
    // "kt" where ft is asked is another unit; "1e5" and "2/1" are no numbers at all.
    const another = /^[\d.,' +-]+$/.test(t.slice(0, tail.index)) && /\p{L}$|[°%"]$/u.test(said) && /\d/.test(t);
    if (!known.includes(said)) return no(another ? 'unit' : 'not-a-number');
    t = t.slice(0, tail.index).trim();
  }
  const number = plainNumber(t, UNIT_FACTS[unit].whole);
  if (typeof number === 'string') return no(number);
  let value = number;
  // A level is typed as hundreds of feet also where the answer is kept in feet.
  if (show === 'flight-level' && unit === 'ft' && value < 1000) value *= 100;
  if (show === 'direction') {
    if (value < 0 || value > 360) return no('range');
    if (value === 0) value = 360;
  }
  return { ok: true, value, echo: tradeForm(value, unit, show) };
}

function readRunway(text: string): ReadNumber {
  const m = /^(?:rwy\s*|runway\s*)?(\d{1,3})\s*([lrc])?$/i.exec(text);
  if (!m) return no('not-a-number');
  const n = Number(m[1]);
  // Two digits are tens of degrees, as painted; three digits are degrees.
  const degrees = (m[1] as string).length === 3 ? n : n * 10;
  if (degrees > 360) return no('range');
  const value = degrees === 0 ? 360 : degrees;
  return { ok: true, value, echo: `${tradeForm(value, '°', 'runway')}${(m[2] ?? '').toUpperCase()}` };
}

/** @returns a number, or why there is none */
function plainNumber(text: string, whole: boolean): number | ReadCode {
  const sign = /^[-+]\s*/.exec(text);
  const body = sign ? text.slice(sign[0].length) : text;
  const factor = sign?.[0].startsWith('-') ? -1 : 1;
  if (!/\d/.test(body) || /[^\d.,' ]/.test(body)) return 'not-a-number';
  const marks = body.match(/[.,]/g) ?? [];
  const spaced = /[' ]/.test(body);
  const kinds = new Set(marks);

  let groups = body;
  let part = '';
  const last = Math.max(body.lastIndexOf('.'), body.lastIndexOf(','));
  const decimalMark = marks.length === 1 ? spaced || !thousands(body, whole) : kinds.size === 2 && lastIsAlone(marks);
  if (decimalMark) {
    groups = body.slice(0, last);
    part = body.slice(last + 1);
    if (!/^\d*$/.test(part)) return 'marks';
  } else if (kinds.size === 2) return 'marks';
  const separators = groups.match(/[.,' ]/g) ?? [];
  if (separators.length > 0) {
    if (new Set(separators).size > 1 || !/^\d{1,3}([.,' ]\d{3})+$/.test(groups)) return 'marks';
    if (groups.startsWith('0')) return 'marks';
  }
  const digits = groups.replace(/[.,' ]/g, '');
  if (digits === '' && part === '') return 'not-a-number';
  const value = factor * Number(`${digits || '0'}.${part || '0'}`);
  return value === 0 ? 0 : value;
}

const thousands = (body: string, whole: boolean): boolean => whole && /^[1-9]\d{0,2}[.,]\d{3}$/.test(body);

/** "1,500.5": the last mark is of the other kind than all before it. */
const lastIsAlone = (marks: readonly string[]): boolean => marks.slice(0, -1).every((m) => m !== marks.at(-1));
