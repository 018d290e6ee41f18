import type { Item, ItemKey } from '../../model/item.ts';
import { type DayOrder, dayOrder, whyDue } from '../day-order.ts';
import type { Memory } from '../types.ts';
import type { Plan } from './types.ts';
import { covers, worthOf } from './worth.ts';

export interface PlanOrder extends DayOrder {
  /**
   * By the plan: worth of a second of asking each item now, those never met and those that are due among them. Null
   * where there is no plan for the day; then the rest of the order is that of day-order.ts.
   */
  readonly worth: ReadonlyMap<ItemKey, number> | null;
  /** Price of a second today: above it the plan wants an item asked. Nought where there is none. */
  readonly price: number;
}

/**
 * What today is for, by the plan where it covers the day, else by `dayOrder`. Due is then what the plan wants asked
 * today, most worth for a second first; what was sure and wrong, or missed last time, comes before it as ever.
 * @param secondsOf s of asking an item, > 0
 * @param day study day
 * @param checkDay study day of the check, null without one
 */
export const planOrder = (
  plan: Plan | null,
  items: Iterable<Item>,
  memory: Pick<Memory, 'items' | 'model'>,
  day: number,
  checkDay: number | null,
  secondsOf: (item: Item) => number,
): PlanOrder => {
  const list = [...items];
  const plain = dayOrder(list, memory, day, checkDay);
  if (plan === null || plan.checkDay !== checkDay || !covers(plan, day)) return { ...plain, worth: null, price: 0 };
  const today = plan.prices[day - plan.day] ?? 0;
  const price = Number.isFinite(today) ? today : 0;
  const worth = new Map<ItemKey, number>();
  const rate = (item: Item): number => {
    const memoryOf = memory.items.get(item.key) ?? null;
    const rated = worthOf(plan, { memory: memoryOf, critical: item.critical, seconds: secondsOf(item) }, day);
    worth.set(item.key, rated);
    return rated;
  };
  for (const item of plain.fresh) rate(item);
  const first: Item[] = [];
  const wanted: Item[] = [];
  const rest: Item[] = [];
  for (const item of plain.due) {
    const known = memory.items.get(item.key);
    const why = known === undefined ? null : whyDue(item, known, day, memory.model);
    const isWanted = rate(item) > price;
    if (why === 'alert' || why === 'missed') first.push(item);
    else if (isWanted) wanted.push(item);
    else rest.push(item);
  }
  for (const item of plain.rest) (rate(item) > price ? wanted : rest).push(item);
  const most = (a: Item, b: Item) => (worth.get(b.key) ?? 0) - (worth.get(a.key) ?? 0);
  // Sorting keeps what is equal in the order of dayOrder: the least certain first.
  return { ...plain, due: [...first, ...wanted.sort(most)], rest: rest.sort(most), worth, price };
};
