import { draw } from '../forms/registry.ts';
import { fnv1a } from '../lib/hash.ts';
import { type DayOrder, dayOrder } from '../memory/day-order.ts';
import type { Item, ItemKey } from '../model/item.ts';
import { introduction } from './introduce.ts';
import type { Now, Session } from './types.ts';
import { allOffers, type DeckOffer, deckOf, itemsOf, mayAsk, type World } from './world.ts';

/** Questions that must lie between two about one item. */
export const APART = 5;
/** Tries of a question that cannot be drawn before another is taken. */
const DRAWS = 3;

/** Worth of an item in the choice of the next question: what is due outweighs any gain. */
const WORTH = { back: 40, met: 30, alert: 12, due: 8 } as const;

/** The next question, or reading, or the end. Nothing is rolled: the same session and world give the same. */
export const compose = (session: Session, world: World): Now => {
  if (session.used >= session.seconds) return { kind: 'done', why: 'time' };
  const order = dayOrder(itemsOf(world.decks), world.memory, world.day, world.checkDay);
  const state = stateOf(session, world, order);
  const asked = pick(session, world, state, false);
  const isUrgent = asked?.urgent === true;
  if (!isUrgent || introducesNow(session, state)) {
    const reading = introduction(session, world, order.fresh);
    if (reading !== null) return reading;
  }
  if (asked !== null) return asked.now;
  // Nothing else is left: what was asked a moment ago may come sooner.
  return pick(session, world, state, true)?.now ?? { kind: 'done', why: 'empty' };
};

interface State {
  readonly worth: ReadonlyMap<ItemKey, number>;
  readonly backs: ReadonlyMap<ItemKey, string | undefined>;
  /** Items of the last few questions. */
  readonly recent: ReadonlySet<ItemKey>;
  readonly last: ReadonlySet<ItemKey>;
  readonly dueLeft: number;
}

const stateOf = (session: Session, world: World, order: DayOrder): State => {
  const worth = new Map<ItemKey, number>(order.gain);
  const asked = new Set(session.answered.flatMap(({ verdicts }) => Object.keys(verdicts)));
  let dueLeft = 0;
  for (const item of order.due) {
    if (asked.has(item.key)) continue;
    const alert = world.memory.items.get(item.key)?.alert ?? null;
    worth.set(item.key, alert === null ? WORTH.due : WORTH.alert);
    dueLeft += 1;
  }
  for (const key of session.met) if (!asked.has(key) && !world.memory.items.has(key)) worth.set(key, WORTH.met);
  const backs = new Map<ItemKey, string | undefined>();
  for (const { key, after, not } of session.back) {
    if (session.count < after) continue;
    backs.set(key, not);
    worth.set(key, WORTH.back);
  }
  const keysOf = (n: number) => new Set(session.answered.slice(-n).flatMap(({ verdicts }) => Object.keys(verdicts)));
  return { worth, backs, recent: keysOf(APART), last: keysOf(1), dueLeft };
};

/** New items are never starved by what is due: they have a quarter of the time. */
const introducesNow = (session: Session, { dueLeft }: State): boolean =>
  dueLeft > 0 && session.met.length * SECONDS_OF_NEW < 0.25 * session.used;
/** s that reading and first asking a new item takes: first estimate. */
const SECONDS_OF_NEW = 12;

interface Picked {
  readonly now: Now;
  /** Back, just read, or due: comes before anything new. */
  readonly urgent: boolean;
}

const pick = (session: Session, world: World, state: State, soon: boolean): Picked | null => {
  const items = new Map<ItemKey, Item>(itemsOf(world.decks).map((item) => [item.key, item]));
  const barred = soon ? state.last : state.recent;
  const lastThing = session.answered.at(-1)?.about.thing;
  const rated: { one: DeckOffer; score: number; urgent: boolean }[] = [];
  for (const one of allOffers(world)) {
    const { offer } = one;
    let sum = 0;
    let urgent = false;
    let wrongForm = false;
    let fresh = 0;
    for (const key of offer.proves) {
      const worth = state.worth.get(key) ?? 0;
      // Asked a moment ago: it counts for nothing, but may stand among the others of a run.
      if (!barred.has(key) || state.backs.has(key)) sum += worth;
      if (worth >= WORTH.due && !barred.has(key)) urgent = true;
      if (state.backs.has(key)) {
        urgent = true;
        if (state.backs.get(key) === offer.form) wrongForm = true;
      }
      if (!world.memory.items.has(key)) fresh += 1;
    }
    if (sum <= 1e-6 || fresh > 5) continue;
    if (offer.proves.every((key) => state.last.has(key))) continue;
    if (!mayAsk(world, items, offer)) continue;
    // The easier form for what was missed; things easily taken for one another are mixed.
    const mixed = lastThing !== undefined && offer.confusable.includes(lastThing) ? 1.15 : 1;
    const score = ((sum / offer.seconds) * mixed * (1 + 0.02 * offer.ease)) / (wrongForm ? 2 : 1);
    rated.push({ one, score, urgent });
  }
  rated.sort((a, b) => Number(b.urgent) - Number(a.urgent) || b.score - a.score);
  for (const { one, urgent } of rated.slice(0, 40)) {
    const resolved = deckOf(world, one.deck);
    if (resolved === undefined) continue;
    for (let i = 0; i < DRAWS; i++) {
      const seed = fnv1a(`${session.seed}/${session.count}/${i}`);
      const shown = draw(resolved, one.offer, seed);
      if (shown !== null)
        return {
          now: { kind: 'ask', deck: one.deck, offer: one.offer, shown, draft: {}, elapsed: 0 },
          urgent,
        };
    }
  }
  return null;
};
