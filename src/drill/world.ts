import { eachOffer } from '../forms/registry.ts';
import { READING } from '../memory/plan/shares.ts';
import type { Plan } from '../memory/plan/types.ts';
import { timed } from '../memory/timed.ts';
import type { Memory } from '../memory/types.ts';
import type { Offer } from '../model/form.ts';
import type { Item, ItemKey } from '../model/item.ts';
import type { Resolved } from '../subjects/resolved.ts';

/** What a drill looks at from outside: changes between two questions, never by the drill itself. */
export interface World {
  /** Decks as the learner flies them; of another course than the drill's are left aside. */
  readonly decks: readonly Resolved[];
  readonly memory: Memory;
  /** Study day. */
  readonly day: number;
  /** Study day of the check, or null. */
  readonly checkDay: number | null;
  /** Study days of checks before it, by `<deck id>#<procedure>`. */
  readonly ownCheckDays?: ReadonlyMap<string, number>;
  /** Items with another answer than in an older revision, and not answered since: read anew, and first of all. */
  readonly amended?: ReadonlySet<ItemKey>;
  /** Items that a later revision takes out before the check: no business of the plan. */
  readonly leaving?: ReadonlySet<ItemKey>;
  /** The plan for the check, once there is one. Of another check day, or of days gone by, it is left aside. */
  readonly plan?: Plan | null;
}

/** Invented content never shares a drill with real content, whatever decks are handed in. */
export const ofCourse = (world: World, course: string): World => {
  const fits = ({ deck }: Resolved) => (deck.nature === 'fictional') === (course === 'fictional');
  return world.decks.every(fits) ? world : { ...world, decks: world.decks.filter(fits) };
};

export interface DeckOffer {
  readonly deck: string;
  readonly offer: Offer;
}

interface Making {
  readonly list: DeckOffer[];
  readonly rest: Generator<Offer | null, void>;
}
const known = new WeakMap<Resolved, Making>();

const makingOf = (resolved: Resolved): Making => {
  const made = known.get(resolved) ?? { list: [], rest: eachOffer(resolved, null, 1) };
  known.set(resolved, made);
  return made;
};

/**
 * Makes the questions of decks ahead, one at a time: all at once they take a slow phone a tenth of a second. Left half
 * done, the rest is made when it is needed.
 */
export function* offersAhead(decks: readonly Resolved[]): Generator<void> {
  for (const resolved of decks) {
    const { list, rest } = makingOf(resolved);
    try {
      for (let next = rest.next(); next.done !== true; next = rest.next()) {
        // What is not yet open is in the views, and no item.
        if (next.value?.proves.every((key) => resolved.items.has(key)))
          list.push({ deck: resolved.ref, offer: next.value });
        yield;
      }
    } catch (error) {
      // Half a list must not pass for a whole one.
      known.delete(resolved);
      throw error;
    }
  }
}

/** Every question of a deck. It depends on the deck alone, so it is made once. */
const offersOf = (resolved: Resolved): readonly DeckOffer[] => {
  for (const _ of offersAhead([resolved]));
  return makingOf(resolved).list;
};

interface Timed {
  readonly memory: Memory;
  readonly answers: number;
  readonly list: readonly DeckOffer[];
}
const timings = new WeakMap<Resolved, Timed>();

/** With the seconds of this learner: they change with each answer, and with nothing else. */
const timedOf = (resolved: Resolved, memory: Memory): readonly DeckOffer[] => {
  const before = timings.get(resolved);
  if (before?.memory === memory && before.answers === memory.answers) return before.list;
  const list = offersOf(resolved).map(({ deck, offer }) => ({ deck, offer: timed(offer, memory) }));
  timings.set(resolved, { memory, answers: memory.answers, list });
  return list;
};

/** Study day of the check that an item is for; null without one, or where the item goes before. */
export const checkDayOf = (
  { checkDay, ownCheckDays, leaving }: Pick<World, 'checkDay' | 'ownCheckDays' | 'leaving'>,
  item: Item,
): number | null => {
  const { key, deck, group, groupKind } = item;
  if (leaving?.has(key)) return null;
  return (groupKind === 'procedure' ? ownCheckDays?.get(`${deck}#${group}`) : undefined) ?? checkDay;
};

/** Every question of the decks, with the seconds that this learner needs. */
export const allOffers = ({ decks, memory }: Pick<World, 'decks' | 'memory'>): readonly DeckOffer[] =>
  decks.flatMap((resolved) => timedOf(resolved, memory));

export const itemsOf = (decks: readonly Resolved[]): Item[] => decks.flatMap(({ items }) => [...items.values()]);

const askable = new WeakMap<Resolved, readonly Item[]>();

/** Items that some question asks: a cue among too few to choose from, say, is asked by none. */
export const askedItems = (decks: readonly Resolved[]): Item[] =>
  decks.flatMap((resolved) => {
    let list = askable.get(resolved);
    if (list === undefined) {
      const proved = new Set(offersOf(resolved).flatMap(({ offer }) => offer.proves));
      list = [...resolved.items.values()].filter(({ key }) => proved.has(key));
      askable.set(resolved, list);
    }
    return list;
  });

export const deckOf = ({ decks }: World, ref: string): Resolved | undefined => decks.find((deck) => deck.ref === ref);

export const itemIn = ({ decks }: World, key: ItemKey): Item | undefined => {
  for (const { items } of decks) {
    const item = items.get(key);
    if (item !== undefined) return item;
  }
  return undefined;
};

/** How reading is remembered. @param deck id of the deck, or ref of a revision */
export const readKey = (deck: string, thing: string): string => `${deck}#${thing}`;

const STEP_FACETS: ReadonlySet<Item['facet']> = new Set(['place', 'cue', 'crew', 'words']);

/** What is met at once: a step with all its facets; of limits and scenarios each case, rule and number. */
export const newName = ({ key, deck, thing, facet }: Item): string =>
  STEP_FACETS.has(facet) ? `${deck}#${thing}` : key;

/** s that reading takes for each item never met, on average: a step is read once, whatever is asked of it. */
export const readingOf = (items: readonly Item[], memory: Pick<Memory, 'items'>): number => {
  const unmet = items.filter(({ key }) => !memory.items.has(key));
  return unmet.length === 0 ? READING : (READING * new Set(unmet.map(newName)).size) / unmet.length;
};

const places = new WeakMap<ReadonlyMap<ItemKey, Item>, ReadonlySet<string>>();

/** Comes behind the place of its step: cue, crew and words of a step that has one. */
export const isBehind = ({ decks }: Pick<World, 'decks'>, item: Item): boolean =>
  item.facet !== 'place' &&
  STEP_FACETS.has(item.facet) &&
  decks.some(({ deck, items }) => {
    if (deck.id !== item.deck) return false;
    let placed = places.get(items);
    if (placed === undefined) {
      placed = new Set([...items.values()].flatMap(({ facet, thing }) => (facet === 'place' ? [thing] : [])));
      places.set(items, placed);
    }
    return placed.has(item.thing);
  });

/**
 * Study day on which an item was first read, undefined where it was not. What has another answer than in an older
 * revision counts as read only by this one.
 */
export const readDay = ({ memory, decks, amended }: World, { key, deck, thing }: Item): number | undefined => {
  const by = amended?.has(key) ? decks.find((one) => one.deck.id === deck)?.ref : deck;
  return memory.read.get(readKey(by ?? deck, thing));
};

export const wasRead = (world: World, item: Item): boolean => readDay(world, item) !== undefined;

/** Was everything that an offer asks read, or answered, before; what was amended read anew; and right as often as it needs? */
export const mayAsk = (world: World, { needs, proves, behind = [] }: Offer): boolean =>
  behind.every((key) => (world.memory.items.get(key)?.rightDays ?? 0) >= 1) &&
  proves.every((key) => {
    const met = world.memory.items.get(key);
    if (met === undefined || world.amended?.has(key)) {
      const item = itemIn(world, key);
      if (item === undefined || !wasRead(world, item)) return false;
    }
    return needs === 'read' || (met?.rightDays ?? 0) >= (needs === 'right-once' ? 1 : 2);
  });
