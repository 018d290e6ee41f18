import type { FormId, Given, Marked, Offer, Shown } from '../model/form.ts';
import type { ItemKey } from '../model/item.ts';
import type { Resolved } from '../subjects/resolved.ts';

/** What of an offer marking needs: all of it is in the log entry, or follows from the deck. */
export type Question = Pick<Offer, 'form' | 'about' | 'variant' | 'proves'>;

/** Recall chance of an item, 0..1: of equally small faults the less certain item is blamed. */
export type Blame = (key: ItemKey) => number;

/** One way to ask. Pure: no clock, no dice; the same arguments give the same answer. */
export interface Form<S extends Shown, G extends Given> {
  readonly id: FormId;
  /**
   * Questions that could be put, one at a time: some take a slow phone milliseconds. null: none here, go on.
   * @param wanted items of which each offer must prove at least one; null = all
   * @param seed for what is estimated by drawing
   */
  offers(resolved: Resolved, wanted: ReadonlySet<ItemKey> | null, seed: number): Iterable<Offer | null>;
  /** One question as shown; null where none can be drawn, or the deck no longer holds it. */
  draw(resolved: Resolved, offer: Offer, seed: number): S | null;
  /**
   * Marks an answer from what was shown alone: nothing is drawn.
   * @param given null = Don't know: every item `told`
   * @param blame without it of equal faults the first in authored order
   */
  mark(resolved: Resolved, question: Question, shown: S, given: G | null, blame?: Blame): Marked;
}
