import { canonicalJson, type Json } from '../../lib/canonical-json.ts';
import type { Condition, Given, GivenRange, Id, Limit, When } from '../../model/deck.ts';
import { isTable } from '../../model/deck.ts';
import type { Checking } from '../check.ts';
import { at } from '../finding.ts';
import type { View } from '../resolved.ts';
import { holds } from '../when.ts';
import { givenWords } from './cases.ts';

interface Case {
  readonly id: Id;
  readonly when?: When;
  readonly given?: Given;
}

/** More cells than this of circumstances are not tried for gaps. */
const MOST_CELLS = 5000;

/**
 * Cases that can hold at once, circumstances in which none does, and variants without any. Only cases over the same
 * conditions are compared: a case without `given` is the default, and one confined to a variant goes before one that
 * is not.
 */
export function checkCases(c: Checking, limit: Limit, path: string, views: readonly View[]): void {
  if (isTable(limit) || !limit.cases) return;
  const axes = c.deck.variants ?? [];
  const cases: readonly Case[] = limit.cases;
  const told = new Set<string>();
  for (const view of views) {
    if (holds(limit.when, view.pick, axes) !== true) continue;
    const here = cases.filter((one) => holds(one.when, view.pick, axes) === true);
    if (here.length === 0) {
      c.add('variant-no-case', at(path, 'cases'), { variant: view.label || 'any flight' });
      continue;
    }
    overlaps(c, cases, here, path, told);
    gap(c, here, path, view, told);
  }
}

const breadth = (one: Case): number => Object.keys(one.when ?? {}).length;

function overlaps(c: Checking, all: readonly Case[], here: readonly Case[], path: string, told: Set<string>): void {
  here.forEach((first, i) => {
    for (const second of here.slice(i + 1)) {
      const key = `${first.id} ${second.id}`;
      // The narrower confinement goes first: only equals contend.
      if (told.has(key) || breadth(first) !== breadth(second) || !meet(first.given, second.given)) continue;
      told.add(key);
      const where = givenWords(c.deck, first.given);
      c.add('case-overlap', at(path, 'cases', all.indexOf(second)), { first: first.id, second: second.id, where });
    }
  });
}

/** Do two cases name the same conditions, and is there a circumstance that both hold in? */
function meet(a: Given = {}, b: Given = {}): boolean {
  const names = Object.keys(a);
  if (names.length !== Object.keys(b).length) return false;
  return names.every((name) => {
    const [x, y] = [a[name], b[name]];
    if (typeof x !== 'object' || typeof y !== 'object') return x === y && x !== undefined;
    return (x.from ?? -Infinity) < (y.to ?? Infinity) && (y.from ?? -Infinity) < (x.to ?? Infinity);
  });
}

/** Told once a circumstance: the first that no case holds in. */
function gap(c: Checking, here: readonly Case[], path: string, view: View, told: Set<string>): void {
  if (here.some((one) => Object.keys(one.given ?? {}).length === 0)) return;
  const names = [...new Set(here.flatMap((one) => Object.keys(one.given ?? {})))];
  const conditions = names.map((name) => c.deck.conditions?.find((one) => one.id === name));
  if (conditions.includes(undefined)) return;
  const axes = (conditions as Condition[]).map((one) => ({ one, cells: cellsOf(one, here) }));
  const size = axes.reduce((n, a) => n * a.cells.length, 1);
  if (size > MOST_CELLS) return;
  for (let i = 0; i < size; i++) {
    let rest = i;
    const point: Record<string, string | boolean | number> = {};
    for (const { one, cells } of axes) {
      point[one.id] = cells[rest % cells.length] as string | boolean | number;
      rest = Math.floor(rest / cells.length);
    }
    if (here.some((one) => inside(one.given ?? {}, point))) continue;
    const words = axes.map(({ one }) => words1(c, one, point[one.id])).join('; ');
    const key = canonicalJson(point as Json);
    if (told.has(key)) return;
    told.add(key);
    c.add('case-gap', at(path, 'cases'), { where: view.label === '' ? words : `${view.label}: ${words}` });
    return;
  }
}

const words1 = (c: Checking, one: Condition, value: string | boolean | number | undefined): string =>
  typeof value === 'number' ? `${one.label} ${value}` : givenWords(c.deck, { [one.id]: value as string | boolean });

/** One value for each part of a condition that cases tell apart. */
function cellsOf(one: Condition, cases: readonly Case[]): readonly (string | boolean | number)[] {
  if ('yes' in one) return [true, false];
  if ('options' in one) return Object.keys(one.options);
  const ends = cases.flatMap((k) => {
    const range = k.given?.[one.id] as GivenRange | undefined;
    return range ? [range.from ?? one.from, range.to ?? one.from] : [];
  });
  return [...new Set([one.from, one.to, ...ends])].filter((x) => x >= one.from && x <= one.to).sort((a, b) => a - b);
}

const inside = (given: Given, point: Readonly<Record<string, string | boolean | number>>): boolean =>
  Object.entries(given).every(([name, wanted]) => {
    const value = point[name];
    if (typeof wanted !== 'object') return value === wanted;
    return typeof value === 'number' && value >= (wanted.from ?? -Infinity) && value < (wanted.to ?? Infinity);
  });
