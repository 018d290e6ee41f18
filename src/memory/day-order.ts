import type { Item, ItemKey } from '../model/item.ts';
import { type MemoryModel, recallChance } from './fsrs.ts';
import type { ItemMemory, Memory } from './types.ts';

/** Recall chance below which an item is due. */
export const TARGET = 0.9;
export const TARGET_CRITICAL = 0.97;
export const targetOf = (item: Pick<Item, 'critical'>): number => (item.critical ? TARGET_CRITICAL : TARGET);

/** Without a check date, and after it, what counts is recall so many days on. */
const HORIZON = 30;

/** So many days before a check what gains most comes before what is due. */
export const GREEDY_DAYS = 5;

/** Why an item is due: sure and wrong before and not yet put right; missed last time; below its target. */
export type WhyDue = 'alert' | 'missed' | 'faded';

/**
 * @param day study day
 * @param model that of the memory which the item is in (`Memory.model`)
 * @returns null where it is not due
 */
export const whyDue = (
  item: Pick<Item, 'critical'>,
  known: ItemMemory,
  day: number,
  model: MemoryModel,
): WhyDue | null => {
  // Right today is enough for today.
  if (known.alert !== null && known.lastRightDay !== day) return 'alert';
  if (known.verdict === 'missed') return 'missed';
  return known.day < day && recallChance(known, day, model) < targetOf(item) ? 'faded' : null;
};

export interface DayOrder {
  /** Due, the most urgent first: sure and wrong, missed last time, then the least certain. */
  readonly due: readonly Item[];
  /** Never answered, in authored order. */
  readonly fresh: readonly Item[];
  /** Met and not due, by what asking them now gains on the day that counts, most first. */
  readonly rest: readonly Item[];
  /** Worth of asking an item now: what its recall on the day that counts gains, 0..1, times its weight. */
  readonly gain: ReadonlyMap<ItemKey, number>;
}

/** Critical items count so many times. */
export const CRITICAL_WEIGHT = 3;

/** The study day on which recall counts. */
export const horizonOf = (day: number, checkDay: number | null): number =>
  checkDay !== null && checkDay > day ? checkDay : day + HORIZON;

/**
 * Gain in expected recall on the horizon from asking once now: with chance R it is answered, soundly, else missed and
 * learnt anew; against leaving it.
 */
const gainOf = (
  known: ItemMemory,
  item: Pick<Item, 'critical'>,
  day: number,
  horizon: number,
  model: MemoryModel,
): number => {
  const r = recallChance(known, day, model);
  const gap = Math.max(0, day - known.day);
  const later = horizon - day;
  const asked =
    r * model.chance(model.next(known, gap, 'sound').s, later) +
    (1 - r) * model.chance(model.next(known, gap, 'missed').s, later);
  const left = recallChance(known, horizon, model);
  return Math.max(0, asked - left) * (item.critical ? CRITICAL_WEIGHT : 1);
};

/**
 * What today is for. O(n log n).
 * @param items those that some question asks
 * @param day study day
 * @param checkDay study day of the check, null without one
 */
export const dayOrder = (
  items: Iterable<Item>,
  memory: Pick<Memory, 'items' | 'model'>,
  day: number,
  checkDay: number | null,
): DayOrder => {
  const horizon = horizonOf(day, checkDay);
  const { model } = memory;
  const due: { item: Item; urgency: number }[] = [];
  const fresh: Item[] = [];
  const rest: Item[] = [];
  const gain = new Map<ItemKey, number>();
  for (const item of items) {
    const known = memory.items.get(item.key);
    if (known === undefined) {
      fresh.push(item);
      continue;
    }
    gain.set(item.key, gainOf(known, item, day, horizon, model));
    const why = whyDue(item, known, day, model);
    if (why === null) rest.push(item);
    else due.push({ item, urgency: URGENCY[why] + 1 - recallChance(known, day, model) });
  }
  due.sort((a, b) => b.urgency - a.urgency || authored(a.item, b.item));
  fresh.sort(authored);
  const worth = (item: Item) => gain.get(item.key) ?? 0;
  rest.sort((a, b) => worth(b) - worth(a) || authored(a, b));
  return { due: due.map(({ item }) => item), fresh, rest, gain };
};

/**
 * Items with another answer than before, and not answered since, are as new ones, though their own answer was known
 * once: of two that were known the older one comes to mind.
 * @param order of `dayOrder`, or by a plan
 */
export const afresh = <O extends Pick<DayOrder, 'due' | 'fresh' | 'rest'>>(
  order: O,
  amended: ReadonlySet<ItemKey> | undefined,
): O => {
  if (!amended?.size) return order;
  const { due, rest, fresh } = order;
  const isAmended = ({ key }: Item): boolean => amended.has(key);
  const others = (items: readonly Item[]) => items.filter((item) => !isAmended(item));
  return {
    ...order,
    due: others(due),
    rest: others(rest),
    fresh: [...[...due, ...rest].filter(isAmended), ...fresh].sort(authored),
  };
};

/** More than any difference in recall chance. */
const URGENCY: Readonly<Record<WhyDue, number>> = { alert: 4, missed: 2, faded: 0 };

/** The order in which authors wrote them, deck after deck. */
const authored = (a: Item, b: Item): number => (a.deck < b.deck ? -1 : a.deck > b.deck ? 1 : a.rank - b.rank);
