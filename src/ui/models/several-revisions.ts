/** Decks of which several revisions are on the device: few have them, so this is no part of the start. */
import {
  chainOf,
  changedItems,
  endedBefore,
  firstDay,
  keptThrough,
  MOST_OLDER,
  olderFirst,
  otherRevisions,
  revisionOn,
} from '../../deck/amend.ts';
import type { Memory } from '../../memory/types.ts';
import type { Item, ItemKey } from '../../model/item.ts';
import type { StoredDeck } from '../../model/ports.ts';
import type { Flown, Resolved } from '../../subjects/resolved.ts';
import { courseOf } from '../words.ts';
import { type Dates, nextCheck } from './check-groups.ts';
import type { FactsData } from './facts.ts';
import type { Asked, Held, Practised } from './revisions.ts';

const NOTHING: ReadonlySet<ItemKey> = new Set();

const once = <T>(make: () => T): (() => T) => {
  let made: { readonly value: T } | null = null;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
};

/**
 * Which of them is asked today, and what the others say of it.
 * @param taken of `Memory`
 * @param resolvedOf as the learner flies it, worked out when asked for
 */
export const askedOf = (
  chosen: Held,
  all: readonly Held[],
  taken: ReadonlyMap<string, number>,
  dates: Dates,
  resolvedOf: (revision: Held) => Resolved,
): Asked => {
  const chain = chainOf(all, chosen, taken.keys());
  const today = dates.today();
  const check = nextCheck(dates, courseOf(chosen.deck.nature), chosen.stored.id, chosen.deck);
  const now = revisionOn(chain, today, check);
  const onCheck = check === null ? now : revisionOn(chain, check, check);
  const others = otherRevisions(chain, now, today, resolvedOf);
  const sign = JSON.stringify([
    now.ref,
    onCheck.ref,
    chain.map(({ ref }) => ref),
    others.map(({ when, day }) => [when, day]),
  ]);
  return { chosen, chain, now, onCheck, others, ended: endedBefore(chain, now, today), sign };
};

/**
 * Was an item answered since a revision brought its answer, which may have been right before? Before the day on which it
 * takes effect it counts when it was read by that revision, as ahead of a check.
 * @param by those that have the answer, the one that brought it last
 */
const isAnsweredSince = ({ key, thing }: Item, by: readonly Held[], { items, taken, read }: Memory): boolean => {
  const [known, brought] = [items.get(key), by.at(-1)];
  if (known === undefined || brought === undefined) return false;
  if (known.at < (taken.get(brought.ref) ?? Number.NEGATIVE_INFINITY)) return false;
  const isRead = by.some(({ ref }) => (read.get(`${ref}#${thing}`) ?? Number.POSITIVE_INFINITY) <= known.day);
  return isRead || known.day >= firstDay(brought);
};

/** What follows for practice; each worked out when first asked for. */
export const consequencesOf = (
  { chain, now, onCheck, ended }: Asked,
  own: Flown,
  resolvedOf: (revision: Held, own: Flown) => Resolved,
  memory: () => Memory,
): Pick<Practised, 'amended' | 'atCheck' | 'leaving'> => {
  const bare = (): Resolved => resolvedOf(now, own);
  const older = chain.slice(chain.indexOf(now) + 1).slice(0, MOST_OLDER);
  const atCheck = once(() => (onCheck === now ? null : { ref: onCheck.ref, resolved: resolvedOf(onCheck, own) }));
  /** With the revisions that have the same answer without a break; the last one brought it. */
  const changed = once((): readonly (readonly [Item, readonly Held[]])[] => {
    const before = older.map((one) => resolvedOf(one, own));
    return [...changedItems(bare(), before)].flatMap((key) => {
      const item = bare().items.get(key);
      return item === undefined ? [] : [[item, [now, ...older.slice(0, keptThrough(bare(), before, key))]] as const];
    });
  });
  const since = ended?.since ?? Number.NEGATIVE_INFINITY;
  const returned = once(() => (ended === null ? [] : [...changedItems(bare(), [resolvedOf(ended.revision, own)])]));
  return {
    atCheck,
    amended: () => {
      if (older.length === 0 && ended === null) return NOTHING;
      const known = memory();
      const isOpen = (key: ItemKey): boolean => (known.items.get(key)?.day ?? Number.NEGATIVE_INFINITY) < since;
      return new Set([
        ...changed().flatMap(([item, by]) => (isAnsweredSince(item, by, known) ? [] : [item.key])),
        ...returned().filter(isOpen),
      ]);
    },
    leaving: once(() => {
      const later = atCheck()?.resolved.items;
      return later === undefined ? NOTHING : new Set([...bare().items.keys()].filter((key) => !later.has(key)));
    }),
  };
};

/** Of each deck with several revisions their refs: the one asked (the newest, where it rests), then the others, the newest first. */
export const orderOf = (
  decks: readonly StoredDeck[],
  asked: readonly Asked[],
): Readonly<Record<string, readonly string[]>> => {
  const found: Record<string, readonly string[]> = {};
  for (const id of new Set(decks.map((one) => one.id))) {
    const all = decks.filter((one) => one.id === id).sort((a, b) => olderFirst(b, a));
    const first = asked.find(({ chosen }) => chosen.stored.id === id)?.now.ref ?? all[0]?.ref ?? '';
    if (all.length > 1) found[id] = [first, ...all.map(({ ref }) => ref).filter((ref) => ref !== first)];
  }
  return found;
};

/** A key joined to one that was joined itself, so often. */
const MOST_JOINS = 20;

/**
 * What folding must know of a deck with several revisions: each key as the first that has it says; keys joined by any
 * of them, but for those that the first asks itself.
 * @param all the revision asked, then the others, the newest first
 */
export const revisionFacts = (all: readonly FactsData[]): FactsData => {
  const [first] = all;
  const asked = new Set(first === undefined ? [] : [...first.critical, ...first.decision, ...first.other]);
  const known = new Set<ItemKey>();
  const critical: ItemKey[] = [];
  const decision: ItemKey[] = [];
  const joined = new Map<ItemKey, ItemKey>();
  for (const data of all) {
    const isNew = (key: ItemKey) => !known.has(key);
    critical.push(...data.critical.filter(isNew));
    decision.push(...data.decision.filter(isNew));
    for (const key of [...data.critical, ...data.decision, ...data.other]) known.add(key);
    for (const [old, key] of data.today) if (!joined.has(old) && !asked.has(old)) joined.set(old, key);
  }
  const last = (key: ItemKey): ItemKey => {
    let now = key;
    for (let i = 0; i < MOST_JOINS; i++) now = joined.get(now) ?? now;
    return now;
  };
  return { critical, decision, other: [], today: [...joined].map(([old, key]) => [old, last(key)] as const) };
};
