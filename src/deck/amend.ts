/**
 * Several revisions of one deck on a device: which is asked on a study day, until when an answer was right, and what
 * is new to a learner. Pure: the day is passed in.
 */
import { dayOfIso } from '../lib/date-words.ts';
import type { Deck } from '../model/deck.ts';
import { type Item, type ItemKey, parseItemKey } from '../model/item.ts';
import type { OtherRevision, Resolved } from '../subjects/resolved.ts';
import { compareVersions } from './version.ts';

/** A revision of a deck, as far as it decides when it is asked. */
export interface Revision {
  /** `<deck id>@<16 hex of content id>` */
  readonly ref: string;
  readonly version: string;
  /** UTC ms at which it came to the device: of equal versions the later one counts as newer. */
  readonly installed: number;
  readonly deck: Pick<Deck, 'effective' | 'until'>;
}

/** So many days before a check what holds on the check day is asked, whatever is in force. */
const LAST_DAYS = 10;

/** Below 0 where a is older. */
export const olderFirst = <R extends Pick<Revision, 'ref' | 'version' | 'installed'>>(a: R, b: R): number =>
  compareVersions(a.version, b.version) || a.installed - b.installed || (a.ref < b.ref ? -1 : 1);

/** So many older revisions, the newest, are looked up for old answers: each has to be resolved for it. */
export const MOST_OLDER = 4;

/**
 * The chosen revision and, the newest first, what it followed: of the older ones those that the learner took, and after
 * which none older was taken. So what was taken back says nothing, nor what merely lies here, nor what is newer.
 * @param taken refs in the order in which they were last taken (`Memory.taken`)
 */
export const chainOf = <R extends Revision>(revisions: readonly R[], chosen: R, taken: Iterable<string>): R[] => {
  const order = new Map([...taken].map((ref, i) => [ref, i] as const));
  const since = (one: R): number => order.get(one.ref) ?? -1;
  const older = revisions.filter((one) => order.has(one.ref) && one.ref !== chosen.ref && olderFirst(one, chosen) < 0);
  const isTakenBack = (one: R): boolean => older.some((two) => olderFirst(two, one) < 0 && since(two) > since(one));
  return [chosen, ...older.filter((one) => !isTakenBack(one)).sort((a, b) => olderFirst(b, a))];
};

/** First day on which it is in force; −∞ where none is named. */
export const firstDay = ({ deck: { effective } }: Pick<Revision, 'deck'>): number =>
  (effective === undefined ? null : dayOfIso(effective)) ?? Number.NEGATIVE_INFINITY;
/** UTC: which zone a device is in is not known here. */
const dayInstalled = ({ installed }: Revision): number => Math.floor(installed / 86_400_000);
/** Last one; ∞ where it has no end. */
const lastDay = ({ deck: { until } }: Revision): number =>
  (until === undefined ? null : dayOfIso(until)) ?? Number.POSITIVE_INFINITY;

/**
 * The newest that is in force on a day. Where none is, the newest: a first revision is practised before it takes
 * effect, and a bulletin that nothing stands behind is asked on.
 * @param chain of `chainOf`
 */
const inForceOn = <R extends Revision>(chain: readonly R[], day: number): R =>
  chain.find((one) => firstDay(one) <= day && day <= lastDay(one)) ?? (chain[0] as R);

/**
 * The revision whose answers are asked on a day: the one in force; in the last ten days before a check, and on its
 * day, the one that is in force on the check day.
 * @param chain of `chainOf`
 * @param day study day
 * @param checkDay study day of the next check; null without one
 */
export const revisionOn = <R extends Revision>(chain: readonly R[], day: number, checkDay: number | null): R => {
  const isNear = checkDay !== null && day <= checkDay && checkDay - day <= LAST_DAYS;
  return inForceOn(chain, isNear ? checkDay : day);
};

/** A revision and the days on which it is in force, both inclusive; `to` null: without end. */
export interface Period<R> {
  readonly revision: R;
  readonly from: number;
  readonly to: number | null;
}

/** What is in force from a day on, in order of time; the first period begins on that day. */
export const periodsFrom = <R extends Revision>(chain: readonly R[], day: number): Period<R>[] => {
  const turns = [...new Set(chain.flatMap((one) => [firstDay(one), lastDay(one) + 1]))]
    .filter((turn) => turn > day && Number.isFinite(turn))
    .sort((a, b) => a - b);
  const found: { revision: R; from: number }[] = [];
  for (const from of [day, ...turns]) {
    const revision = inForceOn(chain, from);
    if (found.at(-1)?.revision !== revision) found.push({ revision, from });
  }
  return found.map(({ revision, from }, i) => ({
    revision,
    from,
    to: found[i + 1] ? (found[i + 1]?.from ?? 0) - 1 : null,
  }));
};

/** The first day after today on which another revision is asked than today; null: none, as far as is known. */
export const nextTurn = (chain: readonly Revision[], day: number, checkDay: number | null): number | null => {
  const now = revisionOn(chain, day, checkDay);
  const days = periodsFrom(chain, day).map(({ from }) => from);
  if (checkDay !== null && checkDay >= day) days.push(checkDay - LAST_DAYS, checkDay + 1);
  const turns = days.filter((one) => one > day).sort((a, b) => a - b);
  return turns.find((one) => revisionOn(chain, one, checkDay) !== now) ?? null;
};

/**
 * The first day on which each was in force, by what is known: the one that it names, or, where that one or none could
 * not yet be known, the day on which it came. The oldest without a day was always in force.
 * @param day today: a device may have been ahead of the learner's own day
 */
const firstDays = <R extends Revision>(chain: readonly R[], day: number): Map<R, number> => {
  const found = new Map<R, number>();
  for (const one of [...chain].reverse()) {
    const named = firstDay(one);
    // By its own word it was in force on its last day at least.
    const came = Math.min(dayInstalled(one), lastDay(one), day);
    // Until it came, an older one was taken for right that began on the same day, or later.
    const isMended = [...found.values()].some((first) => named <= first && first < came);
    found.set(one, isMended ? Math.max(named, came) : named);
  }
  return found;
};

interface Past<R> {
  /** The last day on which it was in force; null where no day is known. */
  readonly day: number | null;
  readonly next: R;
}

/** What was in force before a day, and until when; of what never was, nothing. */
const pastOf = <R extends Revision>(chain: readonly R[], day: number): Map<R, Past<R>> => {
  const first = firstDays(chain, day);
  const since = (one: R): number => first.get(one) ?? firstDay(one);
  const inForce = (on: number): R | undefined => chain.find((one) => since(one) <= on && on <= lastDay(one));
  const found = new Map<R, Past<R>>();
  const turns = new Set(chain.flatMap((one) => [since(one), lastDay(one) + 1]));
  for (const turn of [...turns, day].filter((one) => one <= day && Number.isFinite(one)).sort((a, b) => a - b)) {
    const [one, next] = [inForce(turn - 1), inForce(turn) ?? inForceOn(chain, turn)];
    if (one === undefined || one === next) continue;
    // Where nobody dated the change, or the older one was not here before it, no day is told.
    const began = Number.isFinite(firstDay(one)) ? since(one) : dayInstalled(one);
    const isDated = lastDay(one) === turn - 1 || (Number.isFinite(firstDay(next)) && began < turn);
    found.set(one, { day: isDated ? turn - 1 : null, next });
  }
  // One that was replaced on the day on which it began was right for hours.
  for (const one of chain) {
    const next = inForce(since(one));
    if (found.has(one) || next === undefined || next === one || since(one) > day) continue;
    if (since(next) === since(one) && dayInstalled(next) === since(one)) found.set(one, { day: null, next });
  }
  return found;
};

/**
 * What was in force before an older revision was again, as a bulletin until its last day, and since when that is so.
 * @param now the revision asked on `day`
 * @returns null where nothing newer was in force before
 */
export const endedBefore = <R extends Revision>(
  chain: readonly R[],
  now: R,
  day: number,
): { readonly revision: R; readonly since: number } | null => {
  const newer = chain.slice(0, Math.max(0, chain.indexOf(now)));
  const past = pastOf(chain, day);
  const ended = newer.flatMap((revision) => {
    const { day: last, next } = past.get(revision) ?? {};
    return next === now && last != null ? [{ revision, since: last + 1 }] : [];
  });
  return ended.sort((a, b) => b.since - a.since)[0] ?? null;
};

/**
 * The other revisions of the chain as marking needs them, the newest first: what is in force now, what comes, and what
 * was right once, of that the last four. What was never in force is left out.
 * @param asked the revision asked on `day`
 * @param resolvedOf called when an answer is looked for, not before
 */
export const otherRevisions = <R extends Revision & { readonly deck: Deck }>(
  chain: readonly R[],
  asked: R,
  day: number,
  resolvedOf: (revision: R) => Resolved,
): OtherRevision[] => {
  const periods = periodsFrom(chain, day);
  const before = pastOf(chain, day);
  let past = 0;
  return chain.flatMap((one): OtherRevision[] => {
    if (one === asked) return [];
    const lazy = { deck: one.deck, resolved: () => resolvedOf(one) };
    const place = periods.findIndex(({ revision }) => revision === one);
    const period = periods[place];
    if (period !== undefined && place === 0 && period.to !== null) return [{ ...lazy, when: 'now', day: period.to }];
    if (period !== undefined && place > 0) return [{ ...lazy, when: 'coming', day: period.from }];
    const was = before.get(one);
    if (was === undefined) return [];
    past += 1;
    return past > MOST_OLDER ? [] : [{ ...lazy, when: 'past', day: was.day, next: was.next.deck }];
  });
};

/** What an item asks about, whatever the answer: of a choice the whole question, since a new rule changes others' reach. */
const subjectOf = ({ key, thing, facet }: Item): string => {
  if (facet !== 'rule' && facet !== 'number') return `${thing}.${facet}`;
  const said = parseItemKey(key)?.facet ?? '';
  return `${thing}.${said.slice(0, Math.max(0, said.lastIndexOf('.')))}`;
};

/** An item's key and the old ones that its author joined to it. */
const namesIn = (now: Resolved): ((key: ItemKey) => readonly ItemKey[]) => {
  const joined = new Map<ItemKey, ItemKey[]>();
  for (const [old, key] of now.aliases) joined.set(key, [...(joined.get(key) ?? []), old]);
  return (key) => [key, ...(joined.get(key) ?? [])];
};

/**
 * Items that ask what an older revision asked too, but with another answer there: fresh, and first among what is new.
 * Where an author says that an old answer goes on (`keeps`) it is no other one.
 * @param before older revisions, as the same learner flies them
 */
export const changedItems = (now: Resolved, before: readonly Resolved[]): Set<ItemKey> => {
  const namesOf = namesIn(now);
  const asked = before.map(({ items }) => ({ items, subjects: new Set([...items.values()].map(subjectOf)) }));
  const isChanged = (item: Item): boolean => {
    const keys = namesOf(item.key);
    return asked.some(({ items, subjects }) => subjects.has(subjectOf(item)) && !keys.some((key) => items.has(key)));
  };
  return new Set([...now.items.values()].filter(isChanged).map(({ key }) => key));
};

/**
 * How many of the older revisions, the newest first and without a break, have the item too: the one before the break
 * brought it, or brought it back.
 * @param before as of `changedItems`
 */
export const keptThrough = (now: Resolved, before: readonly Resolved[], key: ItemKey): number => {
  const names = namesIn(now)(key);
  const place = before.findIndex(({ items }) => !names.some((name) => items.has(name)));
  return place === -1 ? before.length : place;
};
