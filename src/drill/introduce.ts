import type { Item } from '../model/item.ts';
import type { Reading, Session } from './types.ts';
import { allOffers, deckOf, readKey, type World } from './world.ts';

/** New things read at once. */
export const GROUP = 5;
/** New items a minute of drill, at most; more would not be there tomorrow. */
const NEW_A_MINUTE = 3;

/**
 * What to read next: the kind of which the least was met so far; of procedures the part that comes first.
 * @param fresh items never answered, in authored order
 * @returns null where nothing is new, or enough was met today
 */
export const introduction = (session: Session, world: World, fresh: readonly Item[]): Reading | null => {
  if (fresh.length === 0) return null;
  if (session.met.length >= mostNew(session, world, fresh.length)) return null;
  const kinds = (['procedure', 'limit', 'scenario'] as const)
    .map((kind, place) => ({ kind, place, share: metShare(world, kind) }))
    .filter(({ share }) => share < 1)
    .sort((a, b) => a.share - b.share || a.place - b.place);
  for (const { kind } of kinds) {
    const reading = kind === 'procedure' ? procedureReading(world, fresh) : thingReading(world, fresh, kind);
    if (reading !== null) return reading;
  }
  return null;
};

/** A check date that is near presses: all of it must have been met some days before. */
const mostNew = (session: Session, world: World, fresh: number): number => {
  const minutes = session.seconds / 60;
  const days = world.checkDay === null ? Number.POSITIVE_INFINITY : Math.max(1, world.checkDay - world.day - 2);
  return Math.min(6 * minutes, Math.max(NEW_A_MINUTE * minutes, fresh / days));
};

const metShare = ({ decks, memory }: World, kind: Item['groupKind']): number => {
  let all = 0;
  let met = 0;
  for (const { items } of decks)
    for (const item of items.values()) {
      if (item.groupKind !== kind) continue;
      all += 1;
      if (memory.items.has(item.key) || memory.read.has(readKey(item.deck, item.thing))) met += 1;
    }
  return all === 0 ? 1 : met / all;
};

/** The first part of a procedure that holds a new step: the very steps that a question of the first meeting asks. */
const procedureReading = (world: World, fresh: readonly Item[]): Reading | null => {
  const firsts = allOffers(world).filter(({ offer }) => offer.form === 'run' && offer.needs === 'read');
  for (const item of fresh) {
    if (item.facet !== 'place' || world.memory.read.has(readKey(item.deck, item.thing))) continue;
    const found = firsts.find(({ offer }) => offer.proves.includes(item.key));
    const resolved = found && deckOf(world, found.deck);
    if (found === undefined || resolved === undefined) continue;
    const { about, variant } = found.offer;
    const situation = resolved.views
      .find(({ id }) => id === variant)
      ?.procedures.find(({ procedure }) => procedure.id === about.thing)
      ?.situations.find(({ id }) => id === (about.situation ?? ''));
    const things = about.part ?? situation?.steps.map(({ step }) => step.id) ?? [];
    return {
      kind: 'read',
      deck: found.deck,
      variant,
      group: about.thing,
      groupKind: 'procedure',
      things,
      ...(about.situation !== undefined && { situation: about.situation }),
    };
  }
  return null;
};

/** Limits up to five at a time; scenarios one by one, since each holds rules of its own. */
const thingReading = (world: World, fresh: readonly Item[], kind: 'limit' | 'scenario'): Reading | null => {
  const unread = fresh.filter(
    (item) => item.groupKind === kind && !world.memory.read.has(readKey(item.deck, item.thing)),
  );
  const [first] = unread;
  if (first === undefined) return null;
  const resolved = world.decks.find(({ deck }) => deck.id === first.deck);
  const view = resolved?.views.find(({ id }) => first.views.includes(id));
  if (resolved === undefined || view === undefined) return null;
  const most = kind === 'limit' ? GROUP : 1;
  const things: string[] = [];
  let count = 0;
  for (const item of unread) {
    if (item.deck !== first.deck || !item.views.includes(view.id)) continue;
    if (!things.includes(item.thing)) {
      if (things.length >= most || count >= GROUP) break;
      things.push(item.thing);
    }
    count += 1;
  }
  return { kind: 'read', deck: resolved.ref, variant: view.id, group: first.group, groupKind: kind, things };
};
