import { computed, type ReadonlySignal } from '@preact/signals';
import { chainOf, changedItems, olderFirst, otherRevisions, type Revision, revisionOn } from '../../deck/amend.ts';
import { resolve, resolveInSteps } from '../../deck/resolve.ts';
import type { Deck } from '../../model/deck.ts';
import type { ItemKey } from '../../model/item.ts';
import type { StoredDeck } from '../../model/ports.ts';
import type { Flown, OtherRevision, Resolved } from '../../subjects/resolved.ts';
import { inPieces, pause } from './in-pieces.ts';

/** One revision on this device. */
export interface Held extends Revision {
  readonly stored: StoredDeck;
  readonly deck: Deck;
}

/** A deck in practice, as this learner flies it: by the revision that is asked today. */
export interface Practised {
  readonly stored: StoredDeck;
  readonly deck: Deck;
  readonly resolved: Resolved;
  /** The revision that the learner took; its dates may say that an older one is asked. */
  readonly chosen: StoredDeck;
  /** The chosen one and those older than it, the newest first. */
  readonly chain: readonly Held[];
  /** As the same learner flies another one of the chain. */
  by(revision: Held): Resolved;
  /** Items with another answer than in an older revision. Worked out when first asked for. */
  amended(): ReadonlySet<ItemKey>;
  /** As it will be asked on the day of the next check, where that is another revision; else null. */
  atCheck(): { readonly ref: string; readonly resolved: Resolved } | null;
  /** Items that are asked today, and no more on the day of the next check. */
  leaving(): ReadonlySet<ItemKey>;
}

interface Around {
  readonly decks: ReadonlySignal<readonly StoredDeck[]>;
  readonly deckOf: (stored: StoredDeck) => Deck;
  readonly flown: (deckId: string) => Flown;
  /** Study day. */
  readonly day: () => number;
  /** Study day of the next check of a deck, from today on; null without one. */
  readonly nextCheck: (stored: StoredDeck, deck: Deck) => number | null;
  /** Monotonic ms. */
  readonly elapsed: () => number;
}

export interface Revisions {
  readonly practised: ReadonlySignal<readonly Practised[]>;
  /** Of each deck with several revisions their refs: the one asked, then the others, the newest first. */
  readonly order: ReadonlySignal<Readonly<Record<string, readonly string[]>>>;
  /** The first screen draws from all decks: they are resolved before, with pauses. */
  resolveAhead(): Promise<void>;
}

interface Asked {
  readonly chosen: StoredDeck;
  readonly chain: readonly Held[];
  readonly now: Held;
  readonly onCheck: Held;
  readonly others: readonly OtherRevision[];
  /** All of this, to compare. */
  readonly sign: string;
}

const once = <T>(make: () => T): (() => T) => {
  let made: { readonly value: T } | null = null;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
};

const NOTHING: ReadonlySet<ItemKey> = new Set();

/** Which revision of each deck is asked, and how. */
export const createRevisions = ({ decks, deckOf, flown, day, nextCheck, elapsed }: Around): Revisions => {
  const active = computed(() => decks.value.filter((one) => one.active));
  const hold = (stored: StoredDeck): Held => {
    const { ref, version, installed } = stored;
    return { ref, version, installed, stored, deck: deckOf(stored) };
  };

  const plain = new Map<string, { readonly of: string; readonly resolved: Resolved }>();
  const resolvedOf = ({ ref, deck, stored }: Held, own: Flown): Resolved => {
    const of = JSON.stringify(own);
    const before = plain.get(ref);
    if (before?.of === of) return before.resolved;
    const resolved = resolve(deck, stored.contentId, own);
    plain.set(ref, { of, resolved });
    return resolved;
  };

  const askedOf = (chosen: StoredDeck): Asked => {
    const all = decks.value.filter(({ id }) => id === chosen.id);
    const alone = hold(chosen);
    if (all.length < 2) return { chosen, chain: [alone], now: alone, onCheck: alone, others: [], sign: chosen.ref };
    const chain = chainOf(all.map(hold), alone);
    const today = day();
    const check = nextCheck(chosen, alone.deck);
    const now = revisionOn(chain, today, check);
    const onCheck = check === null ? now : revisionOn(chain, check, check);
    const others = otherRevisions(chain, now, today, (one) => resolvedOf(one, flown(chosen.id)));
    const sign = JSON.stringify([
      now.ref,
      onCheck.ref,
      chain.map(({ ref }) => ref),
      others.map(({ when, day: at }) => [when, at]),
    ]);
    return { chosen, chain, now, onCheck, others, sign };
  };
  const asked = computed(() => active.value.map(askedOf));
  /** Change only when a deck's variants, or what is asked of it, do: answers must not resolve decks anew. */
  const flownNow = computed(() => active.value.map(({ id }) => JSON.stringify(flown(id))).join('\n'));
  const signs = computed(() => asked.value.map(({ sign }) => sign).join('\n'));

  const known = new Map<string, { readonly of: string; readonly practised: Practised }>();
  const practisedOf = ({ chosen, chain, now, onCheck, others, sign }: Asked): Practised => {
    const own = flown(chosen.id);
    const of = `${JSON.stringify(own)} ${sign}`;
    const before = known.get(chosen.id);
    if (before?.of === of && before.practised.chosen === chosen) return before.practised;
    const bare = resolvedOf(now, own);
    // The same object while nothing changes: the questions of a deck are made once for it.
    const resolved = before?.of === of ? before.practised.resolved : others.length === 0 ? bare : { ...bare, others };
    const older = chain.slice(chain.indexOf(now) + 1);
    const atCheck = once(() => (onCheck === now ? null : { ref: onCheck.ref, resolved: resolvedOf(onCheck, own) }));
    const practised: Practised = {
      stored: now.stored,
      deck: now.deck,
      resolved,
      chosen,
      chain,
      by: (one) => resolvedOf(one, own),
      amended: once(() =>
        older.length === 0
          ? NOTHING
          : changedItems(
              bare,
              older.map((one) => resolvedOf(one, own)),
            ),
      ),
      atCheck,
      leaving: once(() => {
        const later = atCheck()?.resolved.items;
        return later === undefined ? NOTHING : new Set([...bare.items.keys()].filter((key) => !later.has(key)));
      }),
    };
    known.set(chosen.id, { of, practised });
    return practised;
  };
  const practised = computed((): readonly Practised[] => {
    flownNow.value;
    signs.value;
    return asked.peek().map(practisedOf);
  });

  const order = computed(() => {
    const found: Record<string, readonly string[]> = {};
    const now = new Map(asked.value.map((one) => [one.chosen.id, one.now.ref]));
    for (const id of new Set(decks.value.map((one) => one.id))) {
      const all = decks.value.filter((one) => one.id === id).sort((a, b) => olderFirst(b, a));
      const first = now.get(id) ?? all[0]?.ref ?? '';
      if (all.length > 1) found[id] = [first, ...all.map(({ ref }) => ref).filter((ref) => ref !== first)];
    }
    return found;
  });

  return {
    practised,
    order,
    resolveAhead: async () => {
      for (const { now } of asked.value) {
        const own = flown(now.stored.id);
        await pause();
        const resolved = await inPieces(resolveInSteps(now.deck, now.stored.contentId, own), elapsed);
        plain.set(now.ref, { of: JSON.stringify(own), resolved });
      }
      await pause();
    },
  };
};
