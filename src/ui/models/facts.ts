import { resolveInSteps } from '../../deck/resolve.ts';
import type { Facts } from '../../memory/types.ts';
import type { Deck } from '../../model/deck.ts';
import type { ItemKey } from '../../model/item.ts';
import type { Flown } from '../../subjects/resolved.ts';

/** What folding a log needs to know of the decks, as data: it crosses into the worker. */
export interface FactsData {
  readonly critical: readonly ItemKey[];
  readonly decision: readonly ItemKey[];
  /** Neither of both. Left out where revisions are joined already. */
  readonly other: readonly ItemKey[];
  /** Old key → key of today. */
  readonly today: readonly (readonly [ItemKey, ItemKey])[];
}

/** Of all variants, whatever the learner flies: what an answer did must not depend on a setting. */
export const factsOf = (deck: Deck, contentId: string): FactsData => {
  const steps = factsInSteps(deck, contentId);
  for (;;) {
    const { done, value } = steps.next();
    if (done === true) return value;
  }
};

/** The same with pauses. */
export function* factsInSteps(deck: Deck, contentId: string): Generator<void, FactsData> {
  const all: Flown = Object.fromEntries((deck.variants ?? []).map(({ id, options }) => [id, Object.keys(options)]));
  const { items, aliases } = yield* resolveInSteps(deck, contentId, all);
  const list = [...items.values()];
  return {
    critical: list.filter(({ critical }) => critical).map(({ key }) => key),
    decision: list.filter(({ facet }) => facet === 'rule').map(({ key }) => key),
    other: list.filter(({ critical, facet }) => !critical && facet !== 'rule').map(({ key }) => key),
    today: [...aliases],
  };
}

/** The device's record of them: derived from the deck by one build, and by another perhaps otherwise. */
export const factsName = ({ ref }: { readonly ref: string }): string => `facts/${ref}`;

/** @param built of the app, UTC ms; 0 outside a build, whose code changes without a new one */
export const keptFacts = (built: number, data: FactsData): unknown => ({ built, ...data });

/** @returns null where nothing was kept, or by another build, or it is damaged */
export const factsKept = (value: unknown, built: number): FactsData | null => {
  if (typeof value !== 'object' || value === null || built === 0) return null;
  const { built: by, critical, decision, other, today } = value as Partial<FactsData> & { readonly built?: unknown };
  const whole = by === built && [critical, decision, other, today].every((list) => Array.isArray(list));
  return whole ? ({ critical, decision, other, today } as FactsData) : null;
};

export const joinFacts = (all: readonly FactsData[]): FactsData => ({
  critical: all.flatMap(({ critical }) => critical),
  decision: all.flatMap(({ decision }) => decision),
  other: [],
  today: all.flatMap(({ today }) => today),
});

/** @param ofDeck facts of a deck id; asked at most once a deck, when the first of its items is met */
export const lazyFacts = (ofDeck: (deck: string) => FactsData | undefined): Facts => {
  const known = new Map<string, Facts>();
  const factsFor = (key: ItemKey): Facts => {
    const deck = key.slice(0, key.indexOf('#'));
    let facts = known.get(deck);
    if (facts === undefined) {
      facts = readFacts(ofDeck(deck) ?? { critical: [], decision: [], other: [], today: [] });
      known.set(deck, facts);
    }
    return facts;
  };
  return { of: (key) => factsFor(key).of(key), today: (key) => factsFor(key).today(key) };
};

const readFacts = (data: FactsData): Facts => {
  const critical = new Set(data.critical);
  const decision = new Set(data.decision);
  const today = new Map(data.today);
  return {
    of: (key) => ({ critical: critical.has(key), decision: decision.has(key) }),
    today: (key) => today.get(key) ?? key,
  };
};
