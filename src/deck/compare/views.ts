import type { Deck, Id } from '../../model/deck.ts';
import type { Flown, Resolved, View } from '../../subjects/resolved.ts';
import { MOST_VIEWS, resolve } from '../resolve.ts';

/** At most this many times sixteen combinations are looked at. */
const MOST_PARTS = 16;

export interface Every {
  readonly deck: Deck;
  readonly views: readonly View[];
  /** Old item keys that the deck itself joins to those of today. */
  readonly aliases: Resolved['aliases'];
  /** False where some combinations were left out. */
  readonly whole: boolean;
}

/** A deck in every combination of its variants: also where they are more than one learner can fly. */
export function everyView(deck: Deck): Every {
  const all: Flown = Object.fromEntries((deck.variants ?? []).map((a) => [a.id, Object.keys(a.options)]));
  const parts = partsOf(deck, all);
  const resolved = parts.slice(0, MOST_PARTS).map((flown) => resolve(deck, '0'.repeat(64), flown));
  return {
    deck,
    views: resolved.flatMap((r) => r.views),
    aliases: new Map(resolved.flatMap((r) => [...r.aliases])),
    whole: parts.length <= MOST_PARTS,
  };
}

/** Axes are fixed one by one until each part has few enough combinations. */
function partsOf(deck: Deck, flown: Flown): Flown[] {
  let parts: Flown[] = [flown];
  const size = (part: Flown): number => Object.values(part).reduce((n, options) => n * Math.max(options.length, 1), 1);
  for (const axis of deck.variants ?? []) {
    if (parts.length > MOST_PARTS || size(parts[0] as Flown) <= MOST_VIEWS) break;
    const options: readonly Id[] = Object.keys(axis.options);
    parts = parts.flatMap((part) => options.map((option) => ({ ...part, [axis.id]: [option] })));
  }
  return parts;
}
