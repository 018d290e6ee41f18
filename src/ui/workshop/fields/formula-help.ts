import { keysOf, valueAt } from '../../../draft/change.ts';
import { typeOf } from '../../../formula/check.ts';
import { parse } from '../../../formula/parse.ts';
import type { Kind } from '../../../formula/tree.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import { isList, isMembers, type Members } from '../../../lib/json.ts';
import { objectsAt, thingPath } from './choices.ts';

/** Something that can be put into a formula. */
export interface Offer {
  readonly text: string;
  /** What it is, for people. */
  readonly words: string;
  /** Part of the text to be typed over, from and to. */
  readonly over?: readonly [number, number];
}

/** A name that a formula may use, with what its values are. */
export interface Value {
  readonly name: string;
  readonly words: string;
  readonly kind: Kind;
  /** Of an event or a choice: its name in formulas, and what is shown. */
  readonly choices: readonly (readonly [id: string, words: string])[];
}

export interface FormulaHelp {
  readonly values: readonly Value[];
  /** Limits with a single value. */
  readonly limits: readonly Offer[];
  readonly tables: readonly Offer[];
}

const said = (value: Json | undefined, other: string): string =>
  typeof value === 'string' && value.trim() !== '' ? value : other;

const choicesOf = (record: Json | undefined): Value['choices'] =>
  isMembers(record) ? Object.entries(record).map(([id, words]) => [id, said(words, 'nothing to show')] as const) : [];

const drawnValue = (name: string, draw: Json | undefined): Value => {
  const one: Members = isMembers(draw) ? draw : {};
  const events = isMembers(one.oneOf);
  return {
    name,
    words: said(one.label, 'drawn'),
    kind: events ? 'string' : 'number',
    choices: events ? choicesOf(one.oneOf) : [],
  };
};

const conditionValue = (one: Members): Value => {
  const kind = 'options' in one ? 'string' : 'from' in one || 'unit' in one ? 'number' : 'boolean';
  const words = kind === 'boolean' ? said(one.yes, said(one.label, 'a condition')) : said(one.label, 'a condition');
  return { name: said(one.id, ''), words, kind, choices: choicesOf(one.options) };
};

/** The kind of what is worked out; a number where that cannot be told yet. */
const kindOf = (formula: Json | undefined, known: readonly Value[]): Kind => {
  const read = parse(typeof formula === 'string' ? formula : '');
  const typed = read.ok && typeOf(read.tree, (name) => known.find((one) => one.name === name)?.kind);
  return typed !== false && typed.ok ? typed.kind : 'number';
};

/** Names that the formula at a place may use; what is worked out may use what stands above it. */
const valuesAt = (doc: Json, path: string): Value[] => {
  const day = objectsAt(doc, '/day').map(
    (one): Value => ({ name: said(one.id, ''), words: said(one.label, 'of the day'), kind: 'number', choices: [] }),
  );
  const keys = keysOf(path);
  if (keys[0] === 'day') return day;
  const shared = [...day, ...objectsAt(doc, '/conditions').map(conditionValue)];
  if (keys[0] !== 'scenarios') return shared;
  const own = valueAt(doc, thingPath(path));
  const { draw, let: lets }: Members = isMembers(own) ? own : {};
  const values = isMembers(draw) ? Object.entries(draw).map(([name, one]) => drawnValue(name, one)) : [];
  for (const [name, formula] of isMembers(lets) ? Object.entries(lets) : []) {
    if (keys[2] === 'let' && keys[3] === name) break;
    const kind = kindOf(formula, [...values, ...shared]);
    values.push({ name, words: said(formula, 'worked out'), kind, choices: [] });
  }
  return [...values, ...shared];
};

/** Has the limit one number, whatever the conditions? */
const isSole = (limit: Members): boolean =>
  limit.sense !== undefined &&
  limit.sense !== 'from-to' &&
  !('table' in limit || 'options' in limit) &&
  !(isList(limit.cases) && limit.cases.some((one) => isMembers(one) && one.given !== undefined));

/** What may be written in the formula at a place. */
export const formulaHelp = (doc: Json, path: string): FormulaHelp => {
  const limits = objectsAt(doc, '/limits').filter(({ id }) => said(id, '') !== '');
  return {
    values: valuesAt(doc, path).filter(({ name }) => name !== ''),
    limits: limits.filter(isSole).map(({ id, ask }) => ({ text: `limit("${id}")`, words: said(ask, 'a limit') })),
    tables: limits
      .filter((limit) => 'table' in limit)
      .map(({ id, ask }) => call(`lookup("${id}", value)`, said(ask, 'a table'), 'value')),
  };
};

const call = (text: string, words: string, over: string): Offer => {
  const from = text.lastIndexOf(over);
  return { text, words, over: [from, from + over.length] };
};

/** Of an event or a choice each, ready to be put in. */
export const comparedChoices = ({ name, choices }: Value): Offer[] =>
  choices.map(([id, words]) => ({ text: `${name} == "${id}"`, words }));

const fun = (name: string, takes: string, words: string): Offer => call(`${name}(${takes})`, words, takes);

/** All functions of the formula language but those that name a limit. */
export const FUNCTION_OFFERS: readonly Offer[] = [
  fun('crosswind', 'windDir, windSpeed, runway', 'kt across the runway, from the left below 0; all in degrees and kt'),
  fun('headwind', 'windDir, windSpeed, runway', 'kt along the runway, a tailwind below 0; all in degrees and kt'),
  fun('abs', 'number', 'its size, without the sign'),
  fun('min', 'a, b', 'the smallest'),
  fun('max', 'a, b', 'the greatest'),
  fun('round', 'number', 'the nearest whole number'),
  fun('floor', 'number', 'the whole number below'),
  fun('ceil', 'number', 'the whole number above'),
  fun('sqrt', 'number', 'the square root'),
  fun('pressureAltitude', 'elevation, qnh', 'ft, of ft and hPa'),
  fun('densityAltitude', 'pressureAltitude, oat', 'ft, of ft and °C'),
  fun('isaTemperature', 'pressureAltitude', '°C of the standard atmosphere, of ft'),
  fun('trueAirspeed', 'eas, pressureAltitude, oat', 'kt, of kt, ft and °C'),
  fun('sin', 'radians', 'the sine'),
  fun('cos', 'radians', 'the cosine'),
  fun('tan', 'radians', 'the tangent'),
  fun('atan2', 'y, x', 'the angle of y over x, in radians'),
  fun('toRadians', 'degrees', 'degrees in radians'),
  fun('toDegrees', 'radians', 'radians in degrees'),
];

/** A text put in place of a part of another, set off from a word before it, with what is then to be typed over. */
export const putIn = (
  whole: string,
  from: number,
  to: number,
  { text, over }: Offer,
): { readonly text: string; readonly from: number; readonly to: number } => {
  const [before, after] = [whole.slice(0, from), whole.slice(to)];
  const gap = /[\w")]$/.test(before) ? ' ' : '';
  const start = before.length + gap.length;
  const [first, last] = over ?? [text.length, text.length];
  return { text: `${before}${gap}${text}${after}`, from: start + first, to: start + last };
};

/** A comparison, with what is written already: "and" binds tighter than "or", and a choice by "?" takes all behind it. */
export const joined = (whole: string, by: '&&' | '||', comparison: string): string => {
  if (whole.trim() === '') return comparison;
  const loose = whole.includes('?') || (by === '&&' && whole.includes('||'));
  return `${loose ? `(${whole.trim()})` : whole.trim()} ${by} ${comparison}`;
};

/** Is a formula at this place held against true and false? */
export const isCondition = (path: string): boolean => /\/(if|require\/\d+)$/.test(path);
