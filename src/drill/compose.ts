import { draw } from '../forms/registry.ts';
import { fnv1a } from '../lib/hash.ts';
import type { Offer } from '../model/form.ts';
import type { Item } from '../model/item.ts';
import { introduction } from './introduce.ts';
import type { Answered, Now, Session } from './types.ts';
import { easeMissed, type State, stateOf, TIER } from './wanted.ts';
import { allOffers, type DeckOffer, deckOf, mayAsk, type World, wasRead } from './world.ts';

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
/** So many times its worth counts what is easily taken for what was asked last. */
const MIXED = 1.15;
/** Of the time new items have so much, however much is due. */
const SHARE_OF_NEW = 0.25;

/** Names a question, so that what was missed in it is asked by another one, if there is one. */
export const questionName = ({ form, about }: Pick<Offer, 'form' | 'about'>): string =>
  [form, about.thing, about.situation ?? '', about.case ?? '', about.part?.join(',') ?? '', about.way ?? ''].join('/');

/** The next question, or reading, or the end. Nothing is rolled: the same session and world give the same. */
export const compose = (session: Session, world: World): Now => {
  const left = session.seconds - session.used;
  if (left <= 0) return { kind: 'done', why: 'time' };
  const state = stateOf(session, world);
  const mayRead = left >= READING_LEAST;
  const { fresh, plan } = state;

  const first = pick(session, world, state, left, false);
  const { picked } = first;
  // Another answer than before comes ahead of all else that is new, and of what is due: the old one is still known.
  const amended = fresh.filter(({ key }) => world.amended?.has(key));
  const amendment = mayRead && amended.length > 0 ? introduction(session, world, amended, true) : null;
  if (amendment !== null && (picked === null || picked.tier < TIER.met)) return amendment;
  // What was read is asked before more is read; new items are never starved by what is due.
  if (picked?.urgent && (picked.tier >= TIER.missed || (plan === null && !hasTimeForNew(session)))) return picked.now;
  // By the plan, reading comes when it gains more for each second than the best question.
  const isWorth = plan === null ? undefined : (items: readonly Item[]) => plan.reading(items) > (picked?.score ?? 0);
  const reading = mayRead ? introduction(session, world, fresh, plan !== null, isWorth) : null;
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

const hasTimeForNew = (session: Session): boolean => session.met.length * SECONDS_OF_NEW < SHARE_OF_NEW * session.used;

interface Rate {
  readonly tier: number;
  /** Worth for a second. */
  readonly score: number;
  /** Comes before anything new. */
  readonly urgent: boolean;
}

interface Rated {
  readonly one: DeckOffer;
  readonly rate: Rate;
  readonly score: number;
}

interface Picked extends Rate {
  readonly now: Now;
}

/** @param soon nothing else is left @returns late: something would be asked, if there were time */
const pick = (
  session: Session,
  world: World,
  state: State,
  left: number,
  soon: boolean,
): { readonly picked: Picked | null; readonly late: boolean } => {
  const before = session.answered.at(-1);
  const rated: Rated[] = [];
  let late = false;
  for (const one of allOffers(world)) {
    const rate = rateOf(one.offer, world, state, soon);
    if (rate === null) continue;
    if (one.offer.seconds > left + OVERTIME) {
      late = true;
      continue;
    }
    const mixed = before !== undefined && isConfusable(one, before) ? MIXED : 1;
    rated.push({ one, rate, score: rate.score * mixed * suits(session, world, one.offer) });
  }
  rated.sort((a, b) => b.rate.tier - a.rate.tier || b.score - a.score);
  for (const { one, rate } of inBestWay(session, world, rated)) {
    const resolved = deckOf(world, one.deck);
    if (resolved === undefined) continue;
    for (let i = 0; i < DRAWS; i++) {
      const shown = draw(resolved, one.offer, fnv1a(`${session.seed}/${session.count}/${i}`));
      if (shown !== null)
        return {
          picked: {
            ...rate,
            now: {
              kind: 'ask',
              deck: one.deck,
              offer: one.offer,
              shown,
              draft: {},
              elapsed: 0,
              ...(isEased(session, world, one.offer) && { eased: true as const }),
            },
          },
          late,
        };
    }
  }
  return { picked: null, late };
};

/** Another way to ask about the same may gain so much less a second. */
const NEAR = 0.55;
/** Questions among which a way that was asked often gives way to others, and by how much each time. */
const LATELY = 10;
const AGAIN = 0.3;
/** So much less fits a question that is too easy by the whole scale, and one that is too hard. */
const TOO_EASY = 0.6;
const TOO_HARD = 0.4;

/**
 * What is asked is decided by what it gains a second; how, by what fits: of the ways to ask about the best one's items
 * that gain nearly as much, first the one whose ease is right for them and which was not asked of late.
 * @param rated best first
 */
const inBestWay = (session: Session, { memory }: World, rated: readonly Rated[]): readonly Rated[] => {
  const [best] = rated;
  // What was missed a while ago comes back easier: that is settled.
  if (best === undefined || best.rate.tier === TIER.back) return rated;
  const same = new Set(best.one.offer.proves);
  const all = best.score * best.one.offer.seconds;
  const isOne = ({ one: { offer, deck }, rate, score }: Rated): boolean =>
    deck === best.one.deck &&
    rate.tier === best.rate.tier &&
    // Nearly as much a second, and in all.
    score >= NEAR * best.score &&
    score * offer.seconds >= NEAR * all &&
    // No part of a run for the whole of it.
    (offer.form !== best.one.offer.form || offer.proves.length >= best.one.offer.proves.length) &&
    offer.proves.some((key) => same.has(key));
  const lately = session.answered.slice(-LATELY);
  const fitness = ({ one: { offer } }: Rated): number => {
    const wanted = offer.proves.reduce((sum, key) => sum + easeWanted(memory.items.get(key)?.s ?? 0), 0);
    const off = offer.ease - wanted / offer.proves.length;
    const often = lately.filter(({ form }) => form === offer.form).length;
    return (off > 0 ? 1 - TOO_EASY * off : 1 + TOO_HARD * off) / (1 + AGAIN * often) + LOT * lotOf(session, offer);
  };
  const ways = rated.filter(isOne).map((one) => ({ one, fitness: fitness(one) }));
  ways.sort((a, b) => b.fitness - a.fitness);
  return [...ways.map(({ one }) => one), ...rated.filter((one) => !isOne(one))];
};

/** 0..1, the same for the same question at the same place of a drill. */
const lotOf = ({ seed, count }: Session, offer: Offer): number =>
  fnv1a(`${seed}/${count}/${questionName(offer)}`) / 2 ** 32;

/** How easy a question of an item is to be, 1 easiest, by its stability in days. */
const easeWanted = (s: number): number => (s <= 1 ? 1 : Math.max(0, 1 - Math.log(s) / Math.log(GROWN)));

/** In its easier form it is no proof of memory; unless it asks something that was not asked today. */
const isEased = (session: Session, { memory, day }: World, { proves, ease }: Offer): boolean =>
  proves.some((key) => (easeMissed(session, key) ?? 1) < ease) &&
  proves.every((key) => memory.items.get(key)?.day === day);

/** At this stability, days, the hardest form is asked. */
const GROWN = 20;
/** So much less counts a question of greatest ease, once it is outgrown. */
const OUTGROWN = 0.7;
/** So much more an easier one, of what was missed just before. */
const EASIER = 1.5;
/** So much at most by lot, and so much less for the form of the questions just before: nobody likes it uniform. */
const LOT = 0.12;
const SAME_FORM = 0.08;
/** And so much less for a thing of which several single questions were put of late. */
const SAME_THING = 0.25;

/**
 * How well a question fits what is known of its items: the harder form comes as memory grows (of two that are equal
 * else the easier one), what was missed in this drill comes back easier, forms alternate. A factor about 1.
 */
const suits = (session: Session, { memory }: World, offer: Offer): number => {
  let wanted = 0;
  let isBack = false;
  for (const key of offer.proves) {
    wanted += easeWanted(memory.items.get(key)?.s ?? 0);
    const missed = easeMissed(session, key);
    isBack ||= missed !== undefined && offer.ease > missed;
  }
  const outgrown = Math.max(0, offer.ease - wanted / offer.proves.length);
  const lot = lotOf(session, offer);
  const before = session.answered.slice(-2).filter(({ form }) => form === offer.form).length;
  // Beyond that a thing is given a rest: one wind after the other is no longer mixing.
  const thing = session.answered.slice(-6).filter(({ about }) => about.thing === offer.about.thing).length;
  return (
    (1 + 0.02 * offer.ease) *
    (isBack ? EASIER : 1 - OUTGROWN * outgrown) *
    (1 + LOT * (lot - 0.5)) *
    (1 - SAME_FORM * before) *
    (isBack || offer.proves.length > 1 ? 1 : (1 - SAME_THING) ** Math.max(0, thing - 1))
  );
};

/**
 * Things easily taken for one another are mixed (interleaving: Brunmair & Richter 2019, g = .42): those that the form
 * names, other cases of the same limit, other rules of the same scenario.
 */
const isConfusable = ({ deck, offer: { about, confusable, form } }: DeckOffer, before: Answered): boolean =>
  deck === before.deck &&
  (confusable.includes(before.about.thing) ||
    ((form === 'limit' || form === 'scenario') && form === before.form && about.thing === before.about.thing));

/** @returns worth a second, and how urgent; null where the question is not to be put now */
const rateOf = (
  offer: Offer,
  world: World,
  { wanted, asked, last, waiting, plan }: State,
  soon: boolean,
): Rate | null => {
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
  const score = sum / offer.seconds / (sameAgain ? 2 : 1);
  // What is not worth the day's price is left while something else is.
  return { tier: tier === TIER.due && plan !== null && score < plan.price ? TIER.gain : tier, urgent, score };
};
