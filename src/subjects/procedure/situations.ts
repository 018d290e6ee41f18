import type { Tree } from '../../formula/tree.ts';
import { below, type Random, seeded, shuffled } from '../../lib/random.ts';
import type { Deck } from '../../model/deck.ts';
import type { Drawn } from '../../model/form.ts';
import { isTrue, type Lookups, namesIn } from '../formulas.ts';

/** Up to here every combination of values is tried, beyond it seeded draws. */
const GRID = 2000;
const DRAWS = 500;
const MOST = 64;

interface Axis {
  readonly name: string;
  readonly count: number;
  readonly value: (i: number) => number | string | boolean;
}

const steps = (from: number, to: number, step = 1): number => Math.max(1, Math.floor((to - from) / step + 1e-9) + 1);
/** Rounded so that 0.1 + 0.2 is drawn as 0.3. */
export const gridValue = (from: number, i: number, step = 1): number => {
  const value = from + i * step;
  return Number.isInteger(value) && Number.isInteger(step) ? value : Number(value.toPrecision(12));
};

function axisOf(deck: Deck, name: string): Axis | null {
  const day = deck.day?.find((d) => d.id === name);
  if (day) return { name, count: steps(day.from, day.to, day.step), value: (i) => gridValue(day.from, i, day.step) };
  const c = deck.conditions?.find((x) => x.id === name);
  if (!c) return null;
  if ('yes' in c) return { name, count: 2, value: (i) => i === 1 };
  if ('options' in c) {
    const ids = Object.keys(c.options);
    return { name, count: ids.length, value: (i) => ids[i] as string };
  }
  return { name, count: steps(c.from, c.to, c.step), value: (i) => gridValue(c.from, i, c.step) };
}

/** The names wanted, and every value of the day that a requirement ties to one of them. */
function tied(deck: Deck, wanted: Iterable<string>, requires: readonly Tree[]): string[] {
  const names = new Set(wanted);
  const sets = requires.map(namesIn);
  for (let before = -1; before !== names.size; ) {
    before = names.size;
    for (const set of sets) if (set.some((n) => names.has(n))) for (const n of set) names.add(n);
  }
  const authored = [...(deck.day ?? []), ...(deck.conditions ?? [])].map((x) => x.id);
  return authored.filter((n) => names.has(n));
}

const sizeOf = (axes: readonly Axis[]): number =>
  axes.reduce((n, a) => Math.min(n * a.count, Number.MAX_SAFE_INTEGER), 1);

function at(axes: readonly Axis[], index: number): Drawn {
  const out: Record<string, number | string | boolean> = {};
  let rest = index;
  for (const a of axes) {
    out[a.name] = a.value(rest % a.count);
    rest = Math.floor(rest / a.count);
  }
  return out;
}

const anywhere = (axes: readonly Axis[], random: Random): Drawn =>
  Object.fromEntries(axes.map((a) => [a.name, a.value(below(random, a.count))]));

/** Circumstances of a deck: values of the day and conditions, with what the day requires. */
export interface Circumstances {
  readonly deck: Deck;
  readonly requires: readonly Tree[];
  readonly lookups: Lookups;
}

/** '' without conditions, else one 0/1 a condition; null where one of them has no truth value. */
function vector(conditions: readonly Tree[], drawn: Drawn, lookups: Lookups): string | null {
  let out = '';
  for (const c of conditions) {
    const truth = isTrue(c, drawn, lookups);
    if (truth === null) return null;
    out += truth ? '1' : '0';
  }
  return out;
}

const allowed = (c: Circumstances, requires: readonly Tree[], drawn: Drawn): boolean =>
  requires.every((r) => isTrue(r, drawn, c.lookups) === true);

const concerning = (requires: readonly Tree[], names: readonly string[]): readonly Tree[] =>
  requires.filter((r) => namesIn(r).every((n) => names.includes(n)));

/**
 * The truths that the conditions of a procedure can take together: over the whole grid of their values
 * up to 2,000 points, else 500 seeded draws; at most 64, in a stable order.
 */
export function situationIds(c: Circumstances, conditions: readonly Tree[]): string[] {
  if (conditions.length === 0) return [''];
  const names = tied(c.deck, conditions.flatMap(namesIn), c.requires);
  const axes = names.map((n) => axisOf(c.deck, n)).filter((a) => a !== null);
  const requires = concerning(c.requires, names);
  const size = sizeOf(axes);
  const random = seeded(`situations ${names.join()}`);
  const found = new Set<string>();
  for (let i = 0; i < (size <= GRID ? size : DRAWS); i++) {
    const drawn = size <= GRID ? at(axes, i) : anywhere(axes, random);
    if (!allowed(c, requires, drawn)) continue;
    const id = vector(conditions, drawn, c.lookups);
    if (id !== null) found.add(id);
  }
  return [...found].sort().slice(0, MOST);
}

/**
 * Values of the day and conditions for one situation, seeded.
 * @param names values wanted besides those that the conditions name
 * @returns null where 2,000 tries find none
 */
export function drawCircumstances(
  c: Circumstances,
  conditions: readonly Tree[],
  situation: string,
  names: readonly string[],
  seed: number,
): Drawn | null {
  const all = tied(c.deck, [...conditions.flatMap(namesIn), ...names], c.requires);
  const axes = all.map((n) => axisOf(c.deck, n)).filter((a) => a !== null);
  const requires = concerning(c.requires, all);
  const random = seeded(seed);
  const size = sizeOf(axes);
  const order = size <= GRID ? shuffled(random, [...Array(size).keys()]) : null;
  for (let i = 0; i < (order ? order.length : GRID); i++) {
    const drawn = order ? at(axes, order[i] as number) : anywhere(axes, random);
    if (allowed(c, requires, drawn) && vector(conditions, drawn, c.lookups) === situation) return drawn;
  }
  return null;
}
