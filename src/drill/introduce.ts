import type { Offer } from '../model/form.ts';
import type { Item } from '../model/item.ts';
import { asksOrder } from '../subjects/procedure/words.ts';
import type { Resolved } from '../subjects/resolved.ts';
import type { Reading, Session } from './types.ts';
import { allOffers, askedItems, deckOf, isBehind, newName, type World, wasRead } from './world.ts';

/** New things read at once; a question of the first meeting holds no more either (see the forms' windows). */
const GROUP = 5;
/** New items a minute of drill as a rule; more would not be there tomorrow. */
const NEW_A_MINUTE = 3;
/** And where a check date presses, or nothing else is left to ask. */
const MOST_A_MINUTE = 6;

/**
 * What to read next: the kind of which the least was met so far; of procedures the part that comes first.
 * @param fresh items never answered, or amended since, in authored order
 * @param pressed nothing else is left to ask: up to the most that a minute holds
 * @param isWorth whether these new items are worth reading now
 * @returns null where nothing is new, or enough was met in this drill
 */
export const introduction = (
  session: Session,
  world: World,
  fresh: readonly Item[],
  pressed: boolean,
  isWorth: (items: readonly Item[]) => boolean = () => true,
): Reading | null => {
  const unread = fresh.filter((item) => !wasRead(world, item));
  if (unread.length === 0 || session.met.length >= mostNew(session, world, new Set(fresh.map(newName)).size, pressed))
    return null;
  const kinds = (['procedure', 'limit', 'scenario'] as const)
    .map((kind, place) => ({ kind, place, share: metShare(world, kind) }))
    .sort((a, b) => a.share - b.share || a.place - b.place);
  for (const { kind } of kinds) {
    const reading = kind === 'procedure' ? procedureReading(world, unread) : thingReading(world, unread, kind);
    if (reading !== null && isWorth(newIn(reading, unread))) return reading;
  }
  return null;
};

const newIn = ({ deck, things }: Reading, unread: readonly Item[]): Item[] =>
  unread.filter((item) => deck.startsWith(`${item.deck}@`) && things.includes(item.thing));

/** A check date that is near presses: all of it must have been met some days before. */
const mostNew = (session: Session, world: World, fresh: number, pressed: boolean): number => {
  const minutes = session.seconds / 60;
  const most = MOST_A_MINUTE * minutes;
  if (pressed) return most;
  const { checkDay, day } = world;
  const days = checkDay === null || checkDay < day ? Number.POSITIVE_INFINITY : Math.max(1, checkDay - day - 2);
  return Math.min(most, Math.max(NEW_A_MINUTE * minutes, fresh / days));
};

const metShare = (world: World, kind: Item['groupKind']): number => {
  const all = new Set<string>();
  const met = new Set<string>();
  for (const item of askedItems(world.decks)) {
    if (item.groupKind !== kind) continue;
    all.add(newName(item));
    if (world.memory.items.has(item.key) || wasRead(world, item)) met.add(newName(item));
  }
  return all.size === 0 ? 1 : met.size / all.size;
};

/** The first part of a procedure that holds a new step: the very steps that a question of the first meeting asks. */
const procedureReading = (world: World, unread: readonly Item[]): Reading | null => {
  const firsts = allOffers(world).filter(({ offer }) => offer.form === 'run' && offer.needs === 'read');
  for (const item of unread) {
    if (item.groupKind !== 'procedure') continue;
    if (item.facet !== 'place') {
      // What belongs to a step with a place is read with it.
      const alone = isBehind(world, item) ? null : aloneReading(world, item);
      if (alone !== null) return alone;
      continue;
    }
    const found = firsts.find(({ offer }) => offer.proves.includes(item.key));
    const resolved = found && deckOf(world, found.deck);
    if (found === undefined || resolved === undefined) continue;
    const { about, variant } = found.offer;
    return {
      kind: 'read',
      deck: found.deck,
      variant,
      group: about.thing,
      groupKind: 'procedure',
      things: about.part ?? stepsOf(resolved, found.offer),
      ...(about.situation !== undefined && { situation: about.situation }),
    };
  }
  return null;
};

/** Of a list that is read out loud who calls for it, and as many lines as are read at once; of a single step itself. */
const aloneReading = (world: World, { deck, thing, group, views }: Item): Reading | null => {
  for (const resolved of world.decks) {
    if (resolved.deck.id !== deck) continue;
    for (const view of resolved.views) {
      const p = views.includes(view.id) ? view.procedures.find(({ procedure }) => procedure.id === group) : undefined;
      if (p === undefined) continue;
      const situation = p.situations.find(
        ({ steps }) => thing === group || steps.some(({ step }) => step.id === thing),
      );
      if (situation === undefined) continue;
      const lines = situation.steps.map(({ step }) => step.id);
      const from = Math.max(0, lines.indexOf(thing));
      // The list itself is named with each part of it.
      const things = [...(asksOrder(p.procedure) ? [] : [group]), ...lines.slice(from, from + GROUP)];
      return {
        kind: 'read',
        deck: resolved.ref,
        variant: view.id,
        group,
        groupKind: 'procedure',
        things,
        situation: situation.id,
      };
    }
  }
  return null;
};

const stepsOf = (resolved: Resolved, { about, variant }: Offer): string[] =>
  resolved.views
    .find(({ id }) => id === variant)
    ?.procedures.find(({ procedure }) => procedure.id === about.thing)
    ?.situations.find(({ id }) => id === (about.situation ?? ''))
    ?.steps.map(({ step }) => step.id) ?? [];

/**
 * Limits in the order of the deck, until five items or five things are together; scenarios one by one, since each
 * holds rules of its own. A thing of more than five items comes alone: it is read as a whole.
 */
const thingReading = (world: World, unread: readonly Item[], kind: 'limit' | 'scenario'): Reading | null => {
  const ofKind = unread.filter((item) => item.groupKind === kind);
  const [first] = ofKind;
  const resolved = first && world.decks.find(({ deck }) => deck.id === first.deck);
  const view = resolved?.views.find(({ id }) => first?.views.includes(id));
  if (first === undefined || resolved === undefined || view === undefined) return null;
  const most = kind === 'limit' ? GROUP : 1;
  const things = new Set<string>();
  let count = 0;
  for (const item of ofKind) {
    if (item.deck !== first.deck || things.has(item.thing) || !item.views.includes(view.id)) continue;
    const size = ofKind.filter(({ deck, thing }) => deck === item.deck && thing === item.thing).length;
    if (things.size > 0 && (things.size >= most || count + size > GROUP)) break;
    things.add(item.thing);
    count += size;
  }
  return {
    kind: 'read',
    deck: resolved.ref,
    variant: view.id,
    group: first.group,
    groupKind: kind,
    things: [...things],
  };
};
