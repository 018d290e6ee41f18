import { olderFirst } from '../deck/amend.ts';
import { MOST_VIEWS, resolveInSteps } from '../deck/resolve.ts';
import { type Deck, isFact } from '../model/deck.ts';
import { type Facet, type Item, type ItemKey, parseItemKey, withoutStamp } from '../model/item.ts';
import type { StoredDeck } from '../model/ports.ts';
import type { Flown } from '../subjects/resolved.ts';
import { rightAnswers } from './answers.ts';
import { type Named, namesIn, toldApart } from './apart.ts';
import type { FlownDeck } from './types.ts';

/** What a deck that is installed here says of an item; without one, what the key says. */
export interface KnownItem {
  /** No other item of its deck has the same. */
  readonly label: string;
  readonly critical: boolean;
  readonly facet: Facet;
  /** Of several answers one is chosen. */
  readonly choice: boolean;
  /** The right answer in words; null where it is not known, or not always the same. */
  readonly right: string | null;
  readonly column: string;
  /** Place in the deck, rising. */
  readonly rank: number;
}

export interface KnownDeck {
  readonly title: string;
  readonly language: string;
  /** The newest revision here. */
  readonly newest: Pick<StoredDeck, 'version' | 'contentId'>;
  readonly items: ReadonlyMap<ItemKey, KnownItem>;
  /** Column → title, in the order of the deck. */
  readonly columns: ReadonlyMap<string, string>;
}

/** By deck id; of decks that are not here there is nothing. */
export type KnownDecks = ReadonlyMap<string, KnownDeck>;

/** Of each deck reported: contentId → view ids flown. */
export type Reported = ReadonlyMap<string, ReadonlyMap<string, ReadonlySet<string>>>;

export const reportedIn = (reports: Iterable<{ readonly decks: readonly FlownDeck[] }>): Reported => {
  const found = new Map<string, Map<string, Set<string>>>();
  for (const { decks } of reports)
    for (const { id, contentId, variants } of decks) {
      const revisions = found.get(id) ?? new Map<string, Set<string>>();
      found.set(id, revisions);
      const views = revisions.get(contentId) ?? new Set<string>();
      revisions.set(contentId, views);
      for (const view of variants) views.add(view);
    }
  return found;
};

const KINDS = { limit: 'Limits', scenario: 'Scenarios' } as const;

/** All variants, where they are few enough to be asked side by side; else those that somebody flies. */
const flownOf = (deck: Deck, views: ReadonlySet<string>): Flown => {
  const axes = deck.variants ?? [];
  const all = axes.reduce((product, { options }) => product * Object.keys(options).length, 1);
  if (all <= MOST_VIEWS) return Object.fromEntries(axes.map(({ id, options }) => [id, Object.keys(options)]));
  const flown: Record<string, string[]> = {};
  for (const view of views)
    for (const part of view.split(',')) {
      const [axis = '', option = ''] = part.split('=');
      if (option !== '') flown[axis] = [...(flown[axis] ?? []), option];
    }
  return flown;
};

const columnOf = ({ deck, group, groupKind }: Item): string =>
  groupKind === 'procedure' ? `${deck}#${group}` : `${deck}#${KINDS[groupKind]}`;

/**
 * What the decks here say of the items reported: the newest revision, and each other one that somebody reports of. A
 * generator, for a large deck takes a slow machine a tenth of a second.
 */
export function* knowInSteps(stored: readonly StoredDeck[], reported: Reported): Generator<void, KnownDecks> {
  const known = new Map<string, KnownDeck>();
  for (const [id, revisions] of reported) {
    const here = stored.filter((one) => one.id === id).sort(olderFirst);
    const newest = here.at(-1);
    if (newest === undefined) continue;
    const items = new Map<ItemKey, KnownItem>();
    const named: Named[] = [];
    const columns = new Map<string, string>();
    let language = 'en';
    // What the newest says of an item counts.
    for (const one of here.filter((each) => each === newest || revisions.has(each.contentId)).reverse()) {
      const deck = JSON.parse(one.text) as Deck;
      if (one === newest) language = deck.language;
      const views = new Set([...revisions.values()].flatMap((each) => [...each]));
      const resolved = yield* resolveInSteps(deck, one.contentId, flownOf(deck, views));
      const facts = new Set((deck.limits ?? []).filter(isFact).map((limit) => limit.id));
      const titles = new Map((deck.procedures ?? []).map((procedure) => [`${id}#${procedure.id}`, procedure.title]));
      const nameOf = namesIn(resolved, one === newest ? '' : `version ${one.version}`);
      const right = rightAnswers(resolved);
      for (const item of resolved.items.values()) {
        if (items.has(item.key)) continue;
        const column = columnOf(item);
        if (!columns.has(column))
          columns.set(column, titles.get(column) ?? KINDS[item.groupKind as keyof typeof KINDS] ?? item.group);
        named.push(nameOf(item));
        items.set(item.key, {
          label: item.label,
          critical: item.critical,
          facet: item.facet,
          choice: facts.has(item.thing) || !['place', 'value', 'number'].includes(item.facet),
          right: right.get(item.key) ?? null,
          column,
          rank: item.rank,
        });
      }
      yield;
    }
    const labels = toldApart(named);
    for (const [key, item] of items) items.set(key, { ...item, label: labels.get(key) ?? item.label });
    const inOrder = [...columns].sort(([a], [b]) => Number(isKind(id, a)) - Number(isKind(id, b)));
    known.set(id, { title: newest.title, language, newest, items, columns: new Map(inOrder) });
  }
  return known;
}

const isKind = (deck: string, column: string): boolean =>
  Object.values(KINDS).some((kind) => column === `${deck}#${kind}`);

const byThing = new WeakMap<KnownDeck, ReadonlyMap<string, KnownItem>>();

/** The same thing and facet here, as the newest revision that has it: its answer may be another. */
export const sameThing = (deck: KnownDeck | undefined, key: ItemKey): KnownItem | undefined => {
  if (deck === undefined) return undefined;
  const found = byThing.get(deck) ?? new Map([...deck.items].reverse().map(([own, item]) => [withoutStamp(own), item]));
  byThing.set(deck, found);
  return found.get(withoutStamp(key));
};

/** What is known of an item; of one whose answer a revision changed, and which no revision here has, no more than its name. */
export const itemOf = (deck: KnownDeck | undefined, key: ItemKey): KnownItem => {
  const known = deck?.items.get(key);
  if (known !== undefined) return known;
  const [bare, same] = [byKeyAlone(key), sameThing(deck, key)];
  return same === undefined ? bare : { ...bare, label: `${same.label} · another revision` };
};

const FACETS: readonly Facet[] = ['place', 'cue', 'crew', 'words', 'value'];

/** Of an item that no deck here knows: nothing says whether it is critical, nor to which procedure it belongs. */
export const byKeyAlone = (key: ItemKey): KnownItem => {
  const parts = parseItemKey(key);
  const facet = parts?.facet ?? 'place';
  const [first = ''] = facet.split('.');
  const own = FACETS.find((one) => one === first) ?? (facet.endsWith('.number') ? 'number' : 'rule');
  return {
    label: parts === undefined ? key : `${parts.thing}, ${facet.replace('.', ' ')}`,
    critical: false,
    facet: own,
    choice: !['place', 'value', 'number'].includes(own),
    right: null,
    column: `${parts?.deck ?? ''}#`,
    rank: Number.MAX_SAFE_INTEGER,
  };
};
