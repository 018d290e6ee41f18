import { computed, type ReadonlySignal } from '@preact/signals';
import type { Revision } from '../../deck/amend.ts';
import { resolve, resolveInSteps } from '../../deck/resolve.ts';
import type { Memory } from '../../memory/types.ts';
import type { Deck } from '../../model/deck.ts';
import type { ItemKey } from '../../model/item.ts';
import type { StoredDeck } from '../../model/ports.ts';
import type { Flown, OtherRevision, Resolved } from '../../subjects/resolved.ts';
import type { Dates } from './check-groups.ts';
import type { FactsData } from './facts.ts';
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
  /** The chosen one and those that it followed, the newest first. */
  readonly chain: readonly Held[];
  /** As the same learner flies another one of the chain. */
  by(revision: Held): Resolved;
  /** Items with another answer than in an older revision, and not answered since. */
  amended(): ReadonlySet<ItemKey>;
  /** As it will be asked on the day of the next check, where that is another revision; else null. */
  atCheck(): { readonly ref: string; readonly resolved: Resolved } | null;
  /** Items that are asked today, and no more on the day of the next check. */
  leaving(): ReadonlySet<ItemKey>;
}

/** Which revision of a deck is asked. */
export interface Asked {
  readonly chosen: Held;
  readonly chain: readonly Held[];
  readonly now: Held;
  readonly onCheck: Held;
  readonly others: readonly OtherRevision[];
  /** What was in force before an older one was again. */
  readonly ended: { readonly revision: Held; readonly since: number } | null;
  /** All of this, to compare. */
  readonly sign: string;
}

interface Around {
  readonly decks: ReadonlySignal<readonly StoredDeck[]>;
  readonly deckOf: (stored: StoredDeck) => Deck;
  readonly flown: (deckId: string) => Flown;
  readonly dates: Dates;
  readonly memory: () => Memory;
  /** Monotonic ms. */
  readonly elapsed: () => number;
}

export interface Revisions {
  readonly practised: ReadonlySignal<readonly Practised[]>;
  /** Of each deck with several revisions their refs: the one asked, then the others, the newest first. */
  readonly order: ReadonlySignal<Readonly<Record<string, readonly string[]>>>;
  /** Loads what several revisions of a deck need; to be awaited before these decks are in the signal. */
  readyFor(decks: readonly StoredDeck[]): Promise<void>;
  /** What folding must know of several revisions, the one asked first. */
  facts(all: readonly FactsData[]): FactsData | undefined;
  /** The first screen draws from all decks: they are resolved before, with pauses. */
  resolveAhead(): Promise<void>;
}

const NOTHING: ReadonlySet<ItemKey> = new Set();
const ALONE = { amended: () => NOTHING, atCheck: () => null, leaving: () => NOTHING };

/** Which revision of each deck is asked, and how. */
export const createRevisions = ({ decks, deckOf, flown, dates, memory, elapsed }: Around): Revisions => {
  /** Null: not needed yet, or not to be had; then what was taken is what is asked. */
  let several: typeof import('./several-revisions.ts') | null = null;
  const active = computed(() => decks.value.filter((one) => one.active));
  const hold = (stored: StoredDeck): Held => {
    const { ref, version, installed } = stored;
    return { ref, version, installed, stored, deck: deckOf(stored) };
  };

  const bare = new Map<string, { readonly of: string; readonly resolved: Resolved }>();
  const resolvedOf = ({ ref, deck, stored }: Held, own: Flown): Resolved => {
    const of = JSON.stringify(own);
    const before = bare.get(ref);
    if (before?.of === of) return before.resolved;
    const resolved = resolve(deck, stored.contentId, own);
    bare.set(ref, { of, resolved });
    return resolved;
  };

  const askedOf = (stored: StoredDeck): Asked => {
    const all = decks.value.filter(({ id }) => id === stored.id);
    const chosen = hold(stored);
    return all.length < 2 || several === null
      ? { chosen, chain: [chosen], now: chosen, onCheck: chosen, others: [], ended: null, sign: stored.ref }
      : several.askedOf(chosen, all.map(hold), memory().taken, dates, (one) => resolvedOf(one, flown(stored.id)));
  };
  const asked = computed(() => active.value.map(askedOf));
  /** Change only when a deck's variants, or what is asked of it, do: answers must not resolve decks anew. */
  const flownNow = computed(() => active.value.map(({ id }) => JSON.stringify(flown(id))).join('\n'));
  const signs = computed(() => asked.value.map(({ sign }) => sign).join('\n'));

  const known = new Map<string, { readonly of: string; readonly practised: Practised }>();
  const practisedOf = (one: Asked): Practised => {
    const { chosen, chain, now, others, sign } = one;
    const { stored } = chosen;
    const own = flown(stored.id);
    const of = `${JSON.stringify(own)} ${sign}`;
    const before = known.get(stored.id);
    const isSame = before?.of === of;
    if (isSame && before.practised.chosen === stored) return before.practised;
    const resolved = resolvedOf(now, own);
    const practised: Practised = {
      stored: now.stored,
      deck: now.deck,
      // The same object while nothing changes: the questions of a deck are made once for it.
      resolved: isSame ? before.practised.resolved : others.length === 0 ? resolved : { ...resolved, others },
      chosen: stored,
      chain,
      by: (other) => resolvedOf(other, own),
      ...(several?.consequencesOf(one, own, resolvedOf, memory) ?? ALONE),
    };
    known.set(stored.id, { of, practised });
    return practised;
  };

  return {
    practised: computed((): readonly Practised[] => {
      flownNow.value;
      signs.value;
      return asked.peek().map(practisedOf);
    }),
    order: computed(() => {
      const all = decks.value;
      return several?.orderOf(all, asked.value) ?? {};
    }),
    readyFor: async (list) => {
      if (several !== null || new Set(list.map(({ id }) => id)).size === list.length) return;
      several = await import('./several-revisions.ts').catch(() => null);
    },
    facts: (all) => (all.length < 2 || several === null ? all[0] : several.revisionFacts(all)),
    resolveAhead: async () => {
      for (const { now, chain, others } of asked.value) {
        const own = flown(now.stored.id);
        const isNeeded = ({ deck }: Held) => deck === now.deck || others.some((one) => one.deck === deck);
        for (const { ref, deck, stored } of chain.filter(isNeeded)) {
          await pause();
          const resolved = await inPieces(resolveInSteps(deck, stored.contentId, own), elapsed);
          bare.set(ref, { of: JSON.stringify(own), resolved });
        }
      }
      await pause();
    },
  };
};
