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
 * @param checkDay study day of the check, of the last one if there are several; null without one
 * @param checkDayOf study day of the check of an item, if not all have the same; null: none. After it, an item is no
 * business of the plan: it is due at its target, and then comes after what the plan wants
 */
export const planOrder = (
  plan: Plan | null,
  items: Iterable<Item>,
  memory: Pick<Memory, 'items' | 'model'>,
  day: number,
  checkDay: number | null,
  secondsOf: (item: Item) => number,
  checkDayOf: (item: Item) => number | null = () => checkDay,
): PlanOrder => {
  const list = [...items];
  const plain = dayOrder(list, memory, day, checkDay);
  if (plan === null || plan.checkDay !== checkDay || !covers(plan, day)) return { ...plain, worth: null, price: 0 };
  const today = plan.prices[day - plan.day] ?? 0;
  const price = Number.isFinite(today) ? today : 0;
  const worth = new Map<ItemKey, number>();
  const rate = (item: Item): number => {
    const memoryOf = memory.items.get(item.key) ?? null;
    const own = checkDayOf(item) ?? day;
    const asked = { memory: memoryOf, critical: item.critical, seconds: secondsOf(item), checkDay: own };
    const rated = worthOf(plan, asked, day);
    worth.set(item.key, rated);
    return rated;
  };
  for (const item of plain.fresh) rate(item);
  const first: Item[] = [];
  const wanted: Item[] = [];
  const over: Item[] = [];
  const rest: Item[] = [];
  for (const item of plain.due) {
    const known = memory.items.get(item.key);
    const why = known === undefined ? null : whyDue(item, known, day, memory.model);
    const isWanted = rate(item) > price;
    if (why === 'alert' || why === 'missed') first.push(item);
    else if (isWanted) wanted.push(item);
    else ((checkDayOf(item) ?? day) <= day ? over : rest).push(item);
  }
  for (const item of plain.rest) (rate(item) > price ? wanted : rest).push(item);
  // Of what waits in any case the worth is −∞: a difference would be none.
  const worthIn = ({ key }: Item): number => worth.get(key) ?? 0;
  const most = (a: Item, b: Item): number => (worthIn(a) === worthIn(b) ? 0 : worthIn(a) < worthIn(b) ? 1 : -1);
  // Sorting keeps what is equal in the order of dayOrder: the least certain first.
  return { ...plain, due: [...first, ...wanted.sort(most), ...over], rest: rest.sort(most), worth, price };
};
