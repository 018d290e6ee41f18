/** What the checks of all subjects share: references, formulas and texts, each held against what the deck names. */
import { callsOf, typeOf } from '../formula/check.ts';
import { parse } from '../formula/parse.ts';
import type { Kind, Tree } from '../formula/tree.ts';
import { nodesOf } from '../formula/walk.ts';
import type { Cited, Deck, FormulaText, Given, Id, Unit, VariantAxis, When } from '../model/deck.ts';
import { isNumberLimit, isTable } from '../model/deck.ts';
import { placesIn } from './fill.ts';
import { type Add, at, short } from './finding.ts';
import { nearest } from './shape.ts';
import type { Things } from './things.ts';

/** A name that formulas may use; `words` are the choices that it can be. */
export interface Named {
  readonly kind: Kind;
  readonly words?: readonly string[];
}
export type Names = ReadonlyMap<string, Named>;

/** Longest texts that a phone shows without scrolling past what is asked, in characters: 320 px wide, 16 px type. */
export const MOST = {
  label: 48,
  title: 80,
  step: 120,
  cue: 100,
  option: 110,
  ask: 160,
  situation: 360,
  note: 600,
} as const;

export interface Checking {
  readonly deck: Deck;
  readonly things: Things;
  /** Values of the day and conditions. */
  readonly names: Names;
  readonly add: Add;
}

export function namesOf(deck: Deck): Map<string, Named> {
  const names = new Map<string, Named>();
  for (const d of deck.day ?? []) names.set(d.id, { kind: 'number' });
  for (const c of deck.conditions ?? [])
    names.set(
      c.id,
      'yes' in c
        ? { kind: 'boolean' }
        : 'options' in c
          ? { kind: 'string', words: Object.keys(c.options) }
          : { kind: 'number' },
    );
  return names;
}

/** Says so where an id is not among those known; true where it is. */
export function refer(c: Checking, what: string, id: string, known: Iterable<string>, path: string): boolean {
  const list = [...known];
  if (list.includes(id)) return true;
  c.add('unknown-reference', path, { what, id: short(id), near: nearest(id, list) });
  return false;
}

/**
 * A formula: read, its kinds fitted, and every limit, table and choice word in it looked up.
 * @returns its tree where nothing is wrong with it
 */
export function checkFormula(c: Checking, text: FormulaText, path: string, wanted: Kind, names: Names): Tree | null {
  const parsed = parse(text);
  if (!parsed.ok) {
    const { code, at: place, args } = parsed.error;
    c.add('formula-syntax', path, { ...args, reason: code, at: place + 1 });
    return null;
  }
  const { tree, places } = parsed;
  const where = (part: Tree): { at: number } => ({ at: (places.get(part) ?? 0) + 1 });
  const typed = typeOf(tree, (name) => names.get(name)?.kind);
  if (!typed.ok) {
    if (typed.code === 'unknown-name') {
      const name = typed.args.name ?? '';
      c.add('formula-name', path, { name: short(name), near: nearest(name, [...names.keys()]), ...where(typed.part) });
    } else c.add('formula-kind', path, { ...typed.args, ...where(typed.part) });
    return null;
  }
  let sound = true;
  const complain: Add = (...all) => {
    sound = false;
    c.add(...all);
  };
  if (typed.kind !== wanted) complain('formula-result', path, { wanted, found: typed.kind });
  for (const call of callsOf(tree)) {
    const [first] = call.args;
    if ((call.name !== 'limit' && call.name !== 'lookup') || first?.kind !== 'string') continue;
    const limit = c.things.limits.get(first.value);
    if (!limit) sound = refer(c, 'limit', first.value, c.things.limits.keys(), path) && sound;
    else if (call.name === 'lookup') {
      if (!isTable(limit)) complain('formula-table', path, { id: limit.id, ...where(call) });
    } else if (!isNumberLimit(limit) || limit.sense === 'from-to' || limit.cases?.some((one) => one.given)) {
      complain('formula-limit', path, { id: limit.id, ...where(call) });
    }
  }
  for (const part of nodesOf(tree)) {
    if (part.kind !== 'binary') continue;
    for (const [one, other] of [
      [part.left, part.right],
      [part.right, part.left],
    ] as const) {
      const words = one.kind === 'name' ? names.get(one.name)?.words : undefined;
      if (words && one.kind === 'name' && other.kind === 'string')
        sound = refer(c, `choice of ${one.name}`, other.value, words, path) && sound;
    }
  }
  return sound ? tree : null;
}

/** A text of a deck: its `{name}` places, its length, and marks of HTML, which are shown as they are written. */
export function checkText(c: Checking, text: string | undefined, path: string, most: number, names: Names): void {
  if (text === undefined) return;
  for (const name of placesIn(text))
    if (!names.has(name)) c.add('place-unknown', path, { name: short(name), near: nearest(name, [...names.keys()]) });
  if (text.length > most) c.add('text-long', path, { length: text.length, most });
  if (/<\/?[a-zA-Z][^<>]*>/.test(text)) c.add('text-html', path);
}

/** @param when What confines a thing to variants, if anything does. */
export function checkWhen(c: Checking, when: When | undefined, path: string): void {
  if (!when) return;
  const { not } = when;
  if (typeof not === 'object' && !Array.isArray(not)) {
    checkWhen(c, not as When, at(path, 'not'));
    return;
  }
  const axes = new Map((c.deck.variants ?? []).map((a): [Id, VariantAxis] => [a.id, a]));
  for (const [axis, wanted] of Object.entries(when as Readonly<Record<Id, Id | readonly Id[]>>)) {
    const here = at(path, axis);
    if (!refer(c, 'variant axis', axis, axes.keys(), here)) continue;
    const options = Object.keys(axes.get(axis)?.options ?? {});
    for (const option of typeof wanted === 'string' ? [wanted] : wanted)
      refer(c, `option of ${axis}`, option, options, here);
  }
}

export function checkGiven(c: Checking, given: Given | undefined, path: string): void {
  for (const [name, wanted] of Object.entries(given ?? {})) {
    const here = at(path, name);
    const conditions = c.deck.conditions ?? [];
    const known = conditions.map((one) => one.id);
    if (!refer(c, 'condition', name, known, here)) continue;
    const condition = conditions.find((one) => one.id === name);
    if (!condition) continue;
    if ('yes' in condition) {
      if (typeof wanted !== 'boolean') c.add('given-unfit', here, { name, wanted: 'boolean' });
    } else if ('options' in condition) {
      if (typeof wanted !== 'string') c.add('given-unfit', here, { name, wanted: 'string' });
      else refer(c, `choice of ${name}`, wanted, Object.keys(condition.options), here);
    } else if (typeof wanted !== 'object') c.add('given-unfit', here, { name, wanted: 'number' });
    else if ((wanted.from ?? Number.NEGATIVE_INFINITY) >= (wanted.to ?? Number.POSITIVE_INFINITY))
      c.add('range-empty', here, { from: wanted.from ?? '', to: wanted.to ?? '' });
  }
}

/** Does the trade write this unit so? Direction and runway in degrees, flight levels in FL or ft, Mach in Mach. */
export function checkShow(c: Checking, show: string | undefined, unit: Unit | undefined, path: string): void {
  if (show === undefined || unit === undefined) return;
  const fits = show === 'flight-level' ? ['FL', 'ft'] : show === 'mach' ? ['Mach'] : ['°'];
  if (!fits.includes(unit)) c.add('show-unit', at(path, 'show'), { show, unit, fits: fits.join(', ') });
}

/** The ends and the step of what is drawn. @returns whether it can be drawn */
export function checkRange(
  c: Checking,
  range: { readonly from: number; readonly to: number; readonly step?: number },
  path: string,
): boolean {
  if (range.from > range.to) c.add('range-empty', path, { from: range.from, to: range.to });
  else if (range.step !== undefined && (range.step <= 0 || (range.to - range.from) / range.step > 1e6))
    c.add('step-size', path, { step: range.step });
  else return true;
  return false;
}

/** A source is named and known, and an edition stands beside one; `inherited` is the source of the thing around it. */
export function checkSource(
  c: Checking,
  { source, edition }: Cited,
  path: string,
  inherited: string | undefined | null,
): void {
  checkEdition(c, edition, source, path);
  if (source !== undefined) {
    const known = c.deck.sources.map((s) => s.id);
    refer(c, 'source', source.split('#', 1)[0] as string, known, at(path, 'source'));
  } else if (inherited === undefined) c.add('source-missing', path);
}

function checkEdition(c: Checking, edition: string | undefined, source: string | undefined, path: string): void {
  if (edition === undefined) return;
  const here = at(path, 'edition');
  if (source === undefined) c.add('edition-alone', here, { edition: short(edition) });
  checkText(c, edition, here, MOST.label, new Map());
}

/** Equal ids in one list. */
export function checkIds(c: Checking, list: readonly { readonly id: string }[], path: string): void {
  const seen = new Set<string>();
  list.forEach(({ id }, i) => {
    if (seen.has(id)) c.add('id-twice', at(path, i, 'id'), { id });
    seen.add(id);
  });
}
