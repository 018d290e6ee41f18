import type { Id } from '../model/deck.ts';
import type { Item, ItemKey } from '../model/item.ts';
import { recallChance } from './fsrs.ts';
import type { Memory } from './types.ts';

/** Before so much is known a forecast would be made up. */
export const FORECAST_ANSWERS = 30;
const FORECAST_DAYS = 2;

export interface GroupForecast {
  readonly deck: string;
  readonly group: Id;
  readonly kind: Item['groupKind'];
  /** Mean recall chance on the day asked for, those never met counted as not known; null where none was met. */
  readonly share: number | null;
  /** The same today. */
  readonly now: number | null;
  /** The one met that is least likely to be there on the day. */
  readonly weakest: { readonly key: ItemKey; readonly label: string; readonly chance: number } | null;
}

export interface Forecast {
  /** Mean over all items met. */
  readonly all: number;
  /** Of them those that must never be wrong; null where there is none. */
  readonly critical: number | null;
  readonly groups: readonly GroupForecast[];
}

/**
 * Recall predicted for a study day if nothing more is practised. A step's chance is that of its weakest facet.
 * @param onDay study day
 * @param today study day; a group's `now` is recall on it
 * @returns null before there are 30 answers on two days
 */
export const forecast = (
  items: Iterable<Item>,
  memory: Pick<Memory, 'items' | 'model' | 'answers' | 'days'>,
  onDay: number,
  today: number = onDay,
): Forecast | null => {
  if (memory.answers < FORECAST_ANSWERS || memory.days.size < FORECAST_DAYS) return null;
  const things = [...weakestFacets(items, memory, onDay, today).values()];
  const met = things.flatMap(({ item, chance }) => (chance === null ? [] : [{ item, chance: chance.later }]));
  if (met.length === 0) return null;
  const critical = met.filter(({ item }) => item.critical).map(({ chance }) => chance);
  const groups = new Map<string, Thing[]>();
  for (const thing of things) {
    const { item } = thing;
    const name = `${item.deck}#${item.groupKind === 'procedure' ? item.group : item.groupKind}`;
    const group = groups.get(name);
    if (group === undefined) groups.set(name, [thing]);
    else group.push(thing);
  }
  return {
    all: mean(met.map(({ chance }) => chance)),
    critical: critical.length === 0 ? null : mean(critical),
    groups: [...groups.values()].map(groupForecast),
  };
};

interface Thing {
  readonly item: Item;
  /** Recall chance of its weakest facet; null where it was never met. */
  readonly chance: { readonly later: number; readonly now: number } | null;
}

const mean = (list: readonly number[]) => list.reduce((sum, x) => sum + x, 0) / list.length;

/** The facets of a step are one thing; each case, rule and number is one of its own. */
const weakestFacets = (
  items: Iterable<Item>,
  memory: Pick<Memory, 'items' | 'model'>,
  onDay: number,
  today: number,
): Map<string, Thing> => {
  const things = new Map<string, Thing>();
  for (const item of items) {
    const name = item.groupKind === 'procedure' ? `${item.deck}#${item.thing}` : item.key;
    const known = memory.items.get(item.key);
    const chance =
      known === undefined
        ? null
        : { later: recallChance(known, onDay, memory.model), now: recallChance(known, today, memory.model) };
    const before = things.get(name);
    // A step that has another place in another variant: the place that was met, and of two the weaker.
    if (before === undefined || (chance !== null && (before.chance === null || chance.later < before.chance.later)))
      things.set(name, { item, chance });
  }
  return things;
};

const groupForecast = (things: readonly Thing[]): GroupForecast => {
  const { item } = things[0] as Thing;
  const met = things.flatMap(({ item: { key, label }, chance }) =>
    chance === null ? [] : [{ key, label, chance: chance.later }],
  );
  const about = { deck: item.deck, group: item.group, kind: item.groupKind };
  if (met.length === 0) return { ...about, share: null, now: null, weakest: null };
  return {
    ...about,
    share: mean(things.map(({ chance }) => chance?.later ?? 0)),
    now: mean(things.map(({ chance }) => chance?.now ?? 0)),
    weakest: met.reduce((weakest, one) => (one.chance < weakest.chance ? one : weakest)),
  };
};
