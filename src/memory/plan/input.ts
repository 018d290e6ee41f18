import type { Offer } from '../../model/form.ts';
import type { Item, ItemKey } from '../../model/item.ts';
import type { Memory } from '../types.ts';
import type { PlanItems } from './types.ts';

/**
 * s of a drill that go by for each second of a question that the plan counts: what was missed comes back the same day,
 * others are asked along with what is wanted, and the last minute fits nothing. Measured in composed drills
 * (`npm run simulate -- --composed`): with it what is forecast on the first day is what is recalled.
 */
export const DRILLED = 1.5;

/**
 * s that asking each item takes: its share of the question that asks it in the least time. Items that no question asks
 * are left out.
 */
export const itemSeconds = (offers: Iterable<Pick<Offer, 'proves' | 'seconds'>>): Map<ItemKey, number> => {
  const least = new Map<ItemKey, number>();
  for (const { proves, seconds } of offers)
    for (const key of proves)
      least.set(key, Math.min(least.get(key) ?? Number.POSITIVE_INFINITY, seconds / proves.length));
  return least;
};

export interface PlanRows {
  /** Of each row its item. */
  readonly keys: readonly ItemKey[];
  readonly items: PlanItems;
}

/**
 * The items of a plan, in authored order, deck after deck as they come. What no question asks has no row.
 * @param seconds of `itemSeconds`; the rows say what goes by in a drill
 * @param day study day of today
 * @param checkDayOf study day of the check of an item, if not all have the same
 */
export const planRows = (
  items: Iterable<Item>,
  memory: Pick<Memory, 'items'>,
  seconds: ReadonlyMap<ItemKey, number>,
  day: number,
  checkDayOf?: (item: Item) => number,
): PlanRows => {
  const rows = [...items].filter(({ key }) => seconds.has(key));
  const known = rows.map(({ key }) => memory.items.get(key));
  return {
    keys: rows.map(({ key }) => key),
    items: {
      s: Float64Array.from(known, (m) => m?.s ?? 0),
      d: Float64Array.from(known, (m) => m?.d ?? 0),
      // A clock that was set back makes no day of the future.
      gap: Int32Array.from(known, (m) => (m === undefined ? -1 : Math.max(0, day - m.day))),
      critical: Uint8Array.from(rows, ({ critical }) => (critical ? 1 : 0)),
      seconds: Float64Array.from(rows, ({ key }) => DRILLED * (seconds.get(key) ?? 0)),
      ...(checkDayOf !== undefined && { checkDay: Int32Array.from(rows, checkDayOf) }),
    },
  };
};
