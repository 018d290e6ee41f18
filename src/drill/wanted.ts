import { afresh, dayOrder, GREEDY_DAYS, targetOf, whyDue } from '../memory/day-order.ts';
import { recallChance } from '../memory/fsrs.ts';
import { itemSeconds } from '../memory/plan/input.ts';
import { planOrder } from '../memory/plan/order.ts';
import { covers } from '../memory/plan/worth.ts';
import type { Item, ItemKey } from '../model/item.ts';
import type { Session } from './types.ts';
import { allOffers, askedItems, checkDayOf, isBehind, readDay, type World, wasRead } from './world.ts';

/**
 * What comes first: missed a while ago, just read, sure but wrong, missed in an earlier drill of today (with a plan), due
 * or worth the price of the day, and then whatever gains most.
 */
export const TIER = { back: 5, met: 4, alert: 3, missed: 2, due: 1, gain: 0 } as const;

interface Wanted {
  readonly tier: number;
  readonly worth: number;
  /** Comes before anything new. */
  readonly urgent: boolean;
  /** Only when nothing else is left. */
  readonly later?: true;
  /** The question in which it was missed. */
  readonly not?: string;
}

/** How easy the question was in which an item was first missed in this drill; undefined where it was not. */
export const easeMissed = ({ answered }: Session, key: ItemKey): number | undefined =>
  answered.find(({ verdicts, voided }) => voided === undefined && verdicts[key] === 'missed')?.ease;

export interface State {
  readonly wanted: ReadonlyMap<ItemKey, Wanted>;
  /** Items asked in this drill. */
  readonly asked: ReadonlySet<ItemKey>;
  /** Items of the last question. */
  readonly last: ReadonlySet<ItemKey>;
  /** Missed, and to come back after others. */
  readonly waiting: ReadonlySet<ItemKey>;
  /** Never answered, or amended since. */
  readonly fresh: readonly Item[];
  /** Null where no plan covers the day. */
  readonly plan: Planned | null;
}

export interface Planned {
  /** Worth of a second today. */
  readonly price: number;
  /** Worth for a second of reading these never-met items and asking them the first time. */
  reading(items: readonly Item[]): number;
}

export const stateOf = (session: Session, world: World): State => {
  const asked = new Set(session.answered.flatMap(({ items }) => items));
  const last = new Set(session.answered.at(-1)?.items);
  const planned = wantedByPlan(world, asked);
  const { wanted, fresh } = planned ?? wantedToday(world, asked);
  const waiting = new Set<ItemKey>();
  for (const { key, after, not } of session.back) {
    const ripe = session.count >= after;
    if (!ripe) waiting.add(key);
    wanted.set(key, {
      tier: TIER.back,
      worth: 1,
      urgent: true,
      ...(!ripe && { later: true }),
      ...(not !== undefined && { not }),
    });
  }
  return { wanted, asked, last, waiting, fresh, plan: planned?.plan ?? null };
};

interface Day {
  readonly wanted: Map<ItemKey, Wanted>;
  readonly fresh: readonly Item[];
}

/** Without a plan: what is due, and then what gains most. */
const wantedToday = (world: World, asked: ReadonlySet<ItemKey>): Day => {
  const { memory, day, checkDay } = world;
  const order = afresh(dayOrder(askedItems(world.decks), memory, day, checkDay), world.amended);
  const wanted = new Map<ItemKey, Wanted>();
  // In the last days before a check what gains most comes before what is due.
  const isGreedy = checkDay !== null && checkDay > day && checkDay - day <= GREEDY_DAYS;
  for (const { key } of order.rest) {
    if (asked.has(key)) continue;
    const today = memory.items.get(key)?.day === day;
    const worth = order.gain.get(key) ?? 0;
    wanted.set(key, { tier: TIER.gain, worth, urgent: false, ...(today && { later: true }) });
  }
  for (const item of order.due) {
    const { key } = item;
    const known = memory.items.get(key);
    if (asked.has(key) || known === undefined) continue;
    const why = whyDue(item, known, day, memory.model);
    const gain = order.gain.get(key) ?? 0;
    const short = Math.max(0, targetOf(item) - recallChance(known, day, memory.model)) + (why === 'missed' ? 1 : 0);
    if (why === 'alert') wanted.set(key, { tier: TIER.alert, worth: 1 + short, urgent: true });
    else if (isGreedy) wanted.set(key, { tier: TIER.gain, worth: gain, urgent: true });
    else wanted.set(key, { tier: TIER.due, worth: 0.1 + short, urgent: true });
  }
  // Also what was read in an earlier drill that ended before it was asked.
  for (const item of order.fresh) {
    if (asked.has(item.key) || !wasRead(world, item)) continue;
    // What is due comes before it: it was never known, so nothing of it can be lost.
    // Of what was amended the old answer is known: the new one does not wait.
    const isToday = isMet(world, item);
    wanted.set(item.key, {
      tier: isToday ? TIER.met : TIER.due,
      worth: isToday ? 1 : 0.1,
      urgent: !isBehind(world, item),
    });
  }
  return { wanted, fresh: order.fresh };
};

/** Just read, or amended: asked at once. A cue, a callout, who does it: in its turn, once the place of its step is known. */
const isMet = (world: World, item: Item): boolean =>
  !isBehind(world, item) && (readDay(world, item) === world.day || world.amended?.has(item.key) === true);

/** Of what no question asks: never used. */
const SECONDS = 12;
/** Better asked later, as the plan sees it; but it was read, and the minutes are there. */
const HARDLY = 1e-3;

/** By the plan: what asking each item gains. @returns null where no plan covers the day */
const wantedByPlan = (world: World, asked: ReadonlySet<ItemKey>): (Day & { readonly plan: Planned }) | null => {
  const { plan = null, memory, day, checkDay } = world;
  if (plan === null || plan.checkDay !== checkDay || !covers(plan, day)) return null;
  const least = itemSeconds(allOffers(world).map(({ offer }) => offer));
  const secondsOf = ({ key }: Item): number => least.get(key) ?? SECONDS;
  const order = afresh(
    planOrder(plan, askedItems(world.decks), memory, day, checkDay, secondsOf, (item) => checkDayOf(world, item)),
    world.amended,
  );
  const { worth, price } = order;
  if (worth === null) return null;
  const withReading = (item: Item): number => secondsOf(item) + plan.reading;
  const wanted = new Map<ItemKey, Wanted>();
  for (const item of [...order.due, ...order.rest]) {
    const { key } = item;
    const known = memory.items.get(key);
    if (asked.has(key) || known === undefined) continue;
    const why = whyDue(item, known, day, memory.model);
    const rate = worth.get(key) ?? 0;
    const gain = Number.isFinite(rate) ? rate * secondsOf(item) : 0;
    if (why === 'alert') wanted.set(key, { tier: TIER.alert, worth: 1 + Math.max(0, gain), urgent: true });
    // In an earlier drill of today: no plan values what was asked today. What was missed before today has its worth like
    // all else: put first it cost .008 of recall on the day (12 days of 10 minutes, 240 items of the two demo decks).
    else if (why === 'missed' && known.day === day) wanted.set(key, { tier: TIER.missed, worth: 1, urgent: true });
    else if (known.day === day)
      wanted.set(key, { tier: TIER.due, worth: order.gain.get(key) ?? 0, urgent: false, later: true });
    // Better later; but the minutes are used.
    else if (why !== null && gain <= 0) wanted.set(key, { tier: TIER.due, worth: HARDLY, urgent: false, later: true });
    else wanted.set(key, { tier: TIER.due, worth: gain, urgent: false });
  }
  for (const item of order.fresh) {
    if (asked.has(item.key) || !wasRead(world, item)) continue;
    const isToday = isMet(world, item);
    const gain = Math.max(HARDLY, (worth.get(item.key) ?? 0) * withReading(item));
    wanted.set(item.key, { tier: isToday ? TIER.met : TIER.due, worth: gain, urgent: isToday });
  }
  const reading = (items: readonly Item[]): number => {
    let gain = 0;
    let seconds = 0;
    for (const item of items) {
      gain += (worth.get(item.key) ?? 0) * withReading(item);
      seconds += withReading(item);
    }
    return seconds > 0 ? gain / seconds : 0;
  };
  return { wanted, fresh: order.fresh, plan: { price, reading } };
};
