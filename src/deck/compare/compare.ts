import { canonicalJson } from '../../lib/canonical-json.ts';
import { foldText } from '../../lib/fold-text.ts';
import type { Deck } from '../../model/deck.ts';
import type { Answer } from './answers.ts';
import { fieldName } from './field-words.ts';
import type { Field } from './fields.ts';
import { compareItems, type ItemDifference, type Side, sideOf } from './items.ts';
import { movedSteps } from './moved.ts';
import { type Part, partsOf } from './parts.ts';
import type { Comparison, Difference, Keeps } from './types.ts';
import { everyView } from './views.ts';

/**
 * Two versions of a deck, item by item, in every combination of variants, and field by field what has no memory of its
 * own. Answers are held against each other by their stamps: renaming, moving things in the file, or splitting lanes
 * without another order changes no answer. In the order of the file. Decks of different ids are compared as well.
 * A deck that the checker does not pass may lack what cannot be resolved.
 */
export function compareDecks(before: Deck, after: Deck): Comparison {
  const [old, now] = [lookedThrough(before), lookedThrough(after)];
  const items = compareItems(old.side, now.side);
  const [oldParts, nowParts] = [old.parts, now.parts];
  const places = placesOf(oldParts, nowParts);
  const moved = movedSteps(before, after);
  const sides: Sides = { oldParts, nowParts, moved, today: items.today };
  const told = new Set(items.differences.map((d) => d.name));
  const differences = [
    ...wholeParts(sides),
    ...items.differences.flatMap((d) => itemDifference(sides, d) ?? []),
    ...[...nowParts.values()].flatMap((part) =>
      fieldDifferences(oldParts.get(part.key), part, told).map((d) => ({ ...d, ...weight(sides, part) })),
    ),
  ];
  const rank = (d: Difference): number => places.get(`${d.gone ? '-' : '+'}${d.path}`) ?? 0;
  return {
    differences: differences
      .map((d, i) => ({ d, i }))
      .sort((a, b) => rank(a.d) - rank(b.d) || a.i - b.i)
      .map(({ d }) => d),
    same: items.same,
    whole: old.side.every.whole && now.side.every.whole,
  };
}

type Parts = ReadonlyMap<string, Part>;

interface LookedThrough {
  readonly side: Side;
  readonly parts: Parts;
}

/** While an author works, the version before is compared with one draft after another. Decks are never changed. */
const known = new WeakMap<Deck, LookedThrough>();

function lookedThrough(deck: Deck): LookedThrough {
  const before = known.get(deck);
  if (before !== undefined) return before;
  const side = sideOf(everyView(deck));
  const found = { side, parts: partsOf(deck, side.every.views[0]) };
  known.set(deck, found);
  return found;
}

interface Sides {
  readonly oldParts: Parts;
  readonly nowParts: Parts;
  readonly moved: ReadonlySet<string>;
  readonly today: ReadonlyMap<string, ReadonlySet<string>>;
}

/** Where each pointer stands in the file, for the order in which it is said; what is gone stands at its old place. */
function placesOf(old: Parts, now: Parts): Map<string, number> {
  const places = new Map<string, number>();
  const put = (parts: Parts, sign: string): void => {
    [...parts.values()].forEach((part, i) => {
      places.set(`${sign}${part.path}`, i);
      for (const field of part.fields.values())
        if (!places.has(`${sign}${field.path}`)) places.set(`${sign}${field.path}`, i);
    });
  };
  put(old, '-');
  put(now, '+');
  return places;
}

/** Parts that came or went; what stood within them goes without saying. */
function wholeParts(sides: Sides): Difference[] {
  const { oldParts: old, nowParts: now } = sides;
  const only = (parts: Parts, other: Parts): Part[] =>
    [...parts.values()].filter((p) => !other.has(p.key) && (p.parent === null || other.has(p.parent)));
  return [...only(old, now).map((p) => ({ p, gone: true })), ...only(now, old).map((p) => ({ p, gone: false }))].map(
    ({ p, gone }) => ({ ...wholePart(p, gone), ...weight(sides, p) }),
  );
}

/** Is a part critical in either deck, by itself or by the innermost that it is in and that says so? */
function weight({ oldParts, nowParts }: Sides, { key }: Part): Pick<Difference, 'critical'> {
  const isCritical = (parts: Parts, at: string): boolean => {
    const part = parts.get(at);
    const own = part?.fields.get('critical')?.raw;
    return own === undefined ? part?.parent != null && isCritical(parts, part.parent) : own === true;
  };
  return isCritical(oldParts, key) || isCritical(nowParts, key) ? { critical: true } : {};
}

function wholePart(part: Part, gone: boolean): Difference {
  return {
    kind: part.of === 'things' ? (gone ? 'removed' : 'added') : 'head',
    path: part.path,
    gone,
    thing: part.label,
    what: '',
    old: gone ? part.says : '',
    now: gone ? '' : part.says,
    variants: part.variants,
    rise: part.of === 'head' ? 'patch' : gone || part.displaces ? 'major' : 'minor',
  };
}

/** The part that holds an item, by its name `thing.facet`. */
function holderOf(parts: Parts, name: string): Part | undefined {
  const cut = name.indexOf('.');
  const [thing, facet] = [name.slice(0, cut), name.slice(cut + 1)];
  if (facet.startsWith('value.')) return parts.get(`limit ${thing} ${facet.slice(6)}`);
  const step = parts.get(`step ${thing}`) ?? parts.get(`procedure ${thing}`);
  if (step && !facet.includes('.')) return step;
  return facet.endsWith('.number') ? parts.get(`ask ${thing}.${facet.slice(0, -7)}`) : parts.get(`rule ${name}`);
}

const FACETS: Readonly<Record<string, readonly [string, readonly string[]]>> = {
  place: ['place', []],
  cue: ['cue', ['cue']],
  crew: ['who', ['by']],
  words: ['callout', ['say']],
};
/** Of a list that is read. */
const LIST_FACETS: typeof FACETS = {
  cue: [fieldName('starts'), ['starts']],
  crew: [fieldName('calledBy'), ['calledBy']],
  words: [fieldName('called'), ['called']],
};

function itemDifference(s: Sides, d: ItemDifference): Difference | null {
  const { oldParts, nowParts } = s;
  const [was, is] = [holderOf(oldParts, d.name), holderOf(nowParts, d.name)];
  // What came or went with its whole part was said with it.
  if (was === undefined || is === undefined) return null;
  const facet = d.name.slice(d.name.indexOf('.') + 1);
  const [what, keys] = (is.key.startsWith('procedure ') ? LIST_FACETS : FACETS)[facet] ?? [
    facet.startsWith('value.') ? 'value' : facet.endsWith('.number') ? 'number' : 'rule',
    [],
  ];
  const [old, now] = wordsOf(d);
  const because = facet === 'place' ? causeOf(s, d, is) : undefined;
  const keeps = keepsOf(s, d, is);
  return {
    kind: d.kind,
    path: fieldPath(is, facet, keys),
    gone: false,
    thing: is.label,
    what,
    old,
    now,
    variants: d.variants,
    rise: d.kind === 'answer' || d.kind === 'removed' ? 'major' : d.kind === 'added' ? 'minor' : 'patch',
    ...(because !== undefined && { because }),
    ...weight(s, is),
    ...(keeps !== undefined && { keeps }),
  };
}

function fieldPath(part: Part, facet: string, keys: readonly string[]): string {
  const wanted = facet.startsWith('value.') ? ['value', 'from', 'is'] : facet.endsWith('.number') ? ['number'] : keys;
  for (const key of wanted) {
    const field = part.fields.get(key);
    if (field) return field.path;
  }
  return part.path;
}

/** Old and new in words; where they read the same, that something behind them is another. */
function wordsOf({ name, kind, old, now }: ItemDifference): readonly [string, string] {
  const said = (answers: ReadonlyMap<string, Answer>): string =>
    [...new Set([...answers.values()].map((a) => a.words))].join('; or ');
  const [was, is] = [said(old), said(now)];
  if (was !== is || kind === 'same-answer') return [was, is];
  const behind = name.endsWith('.place') ? 'another step with the same words' : 'computed otherwise';
  return [was, `${is} (${behind})`];
}

/** Of a step that stayed where it was: the one beside it that came, went or moved. */
function causeOf(
  { oldParts, nowParts, moved }: Sides,
  { name, old, now }: ItemDifference,
  part: Part,
): string | undefined {
  const step = (id: string): string => `step ${id}`;
  const stirred = (id: string): boolean => moved.has(id) || !oldParts.has(step(id)) || !nowParts.has(step(id));
  if (stirred(name.slice(0, name.indexOf('.')))) return undefined;
  const near = (answers: ReadonlyMap<string, Answer>): string[] => [...answers.values()].flatMap((a) => a.near ?? []);
  const [was, is] = [near(old), near(now)];
  const cause = [...is.filter((id) => !was.includes(id)), ...was.filter((id) => !is.includes(id))].find(stirred);
  const found = cause === undefined ? undefined : (nowParts.get(step(cause)) ?? oldParts.get(step(cause)));
  return found === undefined || found === part ? undefined : found.says;
}

/**
 * `keeps` joins an old stamp to the item of today with the same facet: that is plain only where all variants and
 * situations of today have one and the same.
 */
function keepsOf({ today }: Sides, d: ItemDifference, { keeps }: Part): Keeps | undefined {
  if ((d.kind !== 'answer' && d.kind !== 'same-answer') || keeps === undefined || today.get(d.name)?.size !== 1)
    return undefined;
  const facet = d.name.slice(d.name.indexOf('.') + 1);
  return { path: keeps, stamps: [...d.old.keys()].map((stamp) => `${facet}~${stamp}`) };
}

/** Fields of a part that both decks have, but for those whose items say what changed. */
function fieldDifferences(old: Part | undefined, now: Part, told: ReadonlySet<string>): Difference[] {
  if (old === undefined) return [];
  return [...new Set([...now.fields.keys(), ...old.fields.keys()])].flatMap((key): Difference | readonly [] => {
    const [was, is] = [old.fields.get(key), now.fields.get(key)];
    const field = (is ?? was) as Field;
    if (isSame(was, is)) return [];
    const items = [...(was?.items ?? []), ...(is?.items ?? [])];
    const meaning = !(field.folded && was && is && foldText(was.words) === foldText(is.words));
    if (meaning && items.some((name) => told.has(name))) return [];
    const [before, after] = [was?.words ?? '', is?.words ?? ''];
    return {
      kind: now.of === 'things' ? 'words' : 'head',
      path: is?.path ?? now.path,
      gone: false,
      thing: now.label,
      what: field.name,
      old: before,
      now: before === after ? `${after} (written otherwise)` : after,
      variants: now.variants,
      rise: field.weighty ? 'major' : 'patch',
    };
  });
}

function isSame(was: Field | undefined, is: Field | undefined): boolean {
  if (was === undefined || is === undefined) return false;
  if (canonicalJson(was.raw) === canonicalJson(is.raw)) return true;
  if (!was.sequence || !is.sequence) return false;
  // Those that came and went are said by themselves.
  const [a, b] = [was.raw as readonly string[], is.raw as readonly string[]];
  const line = (list: readonly string[], other: readonly string[]): string =>
    list.filter((x) => other.includes(x)).join(' ');
  return line(a, b) === line(b, a);
}
