import type { Id } from '../model/deck.ts';
import type { Item } from '../model/item.ts';
import { ASKED_FACETS } from './day-order.ts';
import { recallChance } from './fsrs.ts';
import type { Memory } from './types.ts';

/** Before so much is known a forecast would be made up. */
export const FORECAST_ANSWERS = 30;
export const FORECAST_DAYS = 2;

export interface GroupForecast {
  readonly deck: string;
  readonly group: Id;
  readonly kind: Item['groupKind'];
  /** Mean recall chance of its items, those never met counted as not known; null where none was met. */
  readonly share: number | null;
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
 * @returns null before there are 30 answers on two days
 */
export const forecast = (items: Iterable<Item>, memory: Memory, onDay: number): Forecast | null => {
  if (memory.answers < FORECAST_ANSWERS || memory.days.size < FORECAST_DAYS) return null;
  const things = new Map<string, { item: Item; chance: number | null }>();
  for (const item of items) {
    if (!ASKED_FACETS.has(item.facet)) continue;
    // The facets of a step are one thing; each case and rule is one of its own.
    const name = item.facet === 'place' ? `${item.deck}#${item.thing}` : item.key;
    const known = memory.items.get(item.key);
    const chance = known === undefined ? null : recallChance(known, onDay);
    const before = things.get(name);
    if (before === undefined) things.set(name, { item, chance });
    else if (chance !== null && (before.chance === null || chance < before.chance)) things.set(name, { item, chance });
  }
  const met = [...things.values()].flatMap(({ item, chance }) => (chance === null ? [] : [{ item, chance }]));
  if (met.length === 0) return null;
  const mean = (list: readonly number[]) => list.reduce((sum, x) => sum + x, 0) / list.length;
  const critical = met.filter(({ item }) => item.critical).map(({ chance }) => chance);
  const groups = new Map<string, { item: Item; chances: (number | null)[] }>();
  for (const { item, chance } of things.values()) {
    const name = `${item.deck}#${item.groupKind === 'procedure' ? item.group : item.groupKind}`;
    const group = groups.get(name) ?? { item, chances: [] };
    group.chances.push(chance);
    groups.set(name, group);
  }
  return {
    all: mean(met.map(({ chance }) => chance)),
    critical: critical.length === 0 ? null : mean(critical),
    groups: [...groups.values()].map(({ item, chances }) => ({
      deck: item.deck,
      group: item.group,
      kind: item.groupKind,
      share: chances.every((chance) => chance === null) ? null : mean(chances.map((chance) => chance ?? 0)),
    })),
  };
};
