import { draw } from '../forms/registry.ts';
import { fnv1a } from '../lib/hash.ts';
import { dayOrder, GREEDY_DAYS, targetOf, whyDue } from '../memory/day-order.ts';
import { recallChance } from '../memory/fsrs.ts';
import type { Offer } from '../model/form.ts';
import type { Item, ItemKey } from '../model/item.ts';
import { introduction } from './introduce.ts';
import type { Now, Session } from './types.ts';
import { allOffers, type DeckOffer, deckOf, itemsOf, mayAsk, readKey, type World, wasRead } from './world.ts';

/** Questions that must lie between two about one item. */
export const APART = 5;
/** Tries of a question that cannot be drawn before another is taken. */
const DRAWS = 3;
/** s that the last question may take beyond the minutes. */
const OVERTIME = 20;
/** s that must be left for reading and the first question about it. */
const READING_LEAST = 45;
/** s that reading and first asking a new item takes: first estimate. */
const SECONDS_OF_NEW = 12;
/** Of the time new items have so much, however much is due. */
const SHARE_OF_NEW = 0.25;

/** Names a question, so that what was missed in it is asked by another one, if there is one. */
export const questionName = ({ form, about }: Pick<Offer, 'form' | 'about'>): string =>
  [form, about.thing, about.situation ?? '', about.case ?? '', about.part?.join(',') ?? ''].join('/');

/** The next question, or reading, or the end. Nothing is rolled: the same session and world give the same. */
export const compose = (session: Session, world: World): Now => {
  const left = session.seconds - session.used;
  if (left <= 0) return { kind: 'done', why: 'time' };
  const state = stateOf(session, world);
  const mayRead = left >= READING_LEAST;
  const { fresh } = state;

  const first = pick(session, world, state, left, false);
  const { picked } = first;
  // What was read is asked before more is read; new items are never starved by what is due.
  if (picked?.urgent && (picked.tier >= TIER.alert || !hasTimeForNew(session))) return picked.now;
  const reading = mayRead ? introduction(session, world, fresh, false) : null;
  if (reading !== null) return reading;
  if (picked !== null) return picked.now;
  const more = mayRead ? introduction(session, world, fresh, true) : null;
  if (more !== null) return more;
  // Nothing else is left: what was missed may come back sooner, and what was answered today is asked again.
  const last = pick(session, world, state, left, true);
  if (last.picked !== null) return last.picked.now;
  const late = first.late || last.late || (!mayRead && fresh.some((item) => !wasRead(world, item)));
  return { kind: 'done', why: late ? 'time' : 'empty' };
};

/** What comes first: missed a while ago, just read, sure but wrong, due, and then whatever gains most. */
const TIER = { back: 4, met: 3, alert: 2, due: 1, gain: 0 } as const;

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

interface State {
  readonly wanted: ReadonlyMap<ItemKey, Wanted>;
  /** Items asked in this drill. */
  readonly asked: ReadonlySet<ItemKey>;
  /** Items of the last question. */
  readonly last: ReadonlySet<ItemKey>;
  /** Missed, and to come back after others. */
  readonly waiting: ReadonlySet<ItemKey>;
  /** Never answered. */
  readonly fresh: readonly Item[];
}

const stateOf = (session: Session, world: World): State => {
  const { memory, day, checkDay } = world;
  const order = dayOrder(itemsOf(world.decks), memory, day, checkDay);
  const asked = new Set(session.answered.flatMap(({ items }) => items));
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
    const isToday = memory.read.get(readKey(item.deck, item.thing)) === day;
    wanted.set(item.key, { tier: isToday ? TIER.met : TIER.due, worth: isToday ? 1 : 0.1, urgent: true });
  }
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
  const last = new Set(session.answered.at(-1)?.items);
  return { wanted, asked, last, waiting, fresh: order.fresh };
};

const hasTimeForNew = (session: Session): boolean => session.met.length * SECONDS_OF_NEW < SHARE_OF_NEW * session.used;

interface Picked {
  readonly now: Now;
  readonly tier: number;
  readonly urgent: boolean;
}

/** @param soon nothing else is left @returns late: something would be asked, if there were time */
const pick = (
  session: Session,
  world: World,
  state: State,
  left: number,
  soon: boolean,
): { readonly picked: Picked | null; readonly late: boolean } => {
  const lastThing = session.answered.at(-1)?.about.thing;
  const rated: { one: DeckOffer; tier: number; score: number; urgent: boolean }[] = [];
  let late = false;
  for (const one of allOffers(world)) {
    const rate = rateOf(one.offer, world, state, soon);
    if (rate === null) continue;
    if (one.offer.seconds > left + OVERTIME) {
      late = true;
      continue;
    }
    // Things easily taken for one another are mixed; of equal questions the easier one.
    const mixed = lastThing !== undefined && one.offer.confusable.includes(lastThing) ? 1.15 : 1;
    rated.push({ one, ...rate, score: rate.score * mixed * (1 + 0.02 * one.offer.ease) });
  }
  rated.sort((a, b) => b.tier - a.tier || b.score - a.score);
  for (const { one, tier, urgent } of rated) {
    const resolved = deckOf(world, one.deck);
    if (resolved === undefined) continue;
    for (let i = 0; i < DRAWS; i++) {
      const shown = draw(resolved, one.offer, fnv1a(`${session.seed}/${session.count}/${i}`));
      if (shown !== null)
        return {
          picked: {
            now: { kind: 'ask', deck: one.deck, offer: one.offer, shown, draft: {}, elapsed: 0 },
            tier,
            urgent,
          },
          late,
        };
    }
  }
  return { picked: null, late };
};

/** @returns worth a second, and how urgent; null where the question is not to be put now */
const rateOf = (
  offer: Offer,
  world: World,
  { wanted, asked, last, waiting }: State,
  soon: boolean,
): { readonly tier: number; readonly score: number; readonly urgent: boolean } | null => {
  let sum = 0;
  let tier = -1;
  let urgent = false;
  let sameAgain = false;
  let isBack = false;
  let repeats = 0;
  for (const key of offer.proves) {
    if (!soon && (last.has(key) || waiting.has(key))) return null;
    const want = wanted.get(key);
    if (want === undefined || (want.later && !soon) || last.has(key)) {
      if (asked.has(key)) repeats += 1;
      continue;
    }
    sum += want.worth;
    tier = Math.max(tier, want.tier);
    urgent ||= want.urgent;
    isBack ||= want.tier === TIER.back;
    sameAgain ||= want.not === questionName(offer);
  }
  if (sum <= 1e-6 || !mayAsk(world, offer)) return null;
  // A neighbour that was asked already may stand among the others of a run; nobody is asked a run over again.
  if (!isBack && !(soon && urgent) && repeats * 3 > offer.proves.length) return null;
  return { tier, urgent, score: sum / offer.seconds / (sameAgain ? 2 : 1) };
};
