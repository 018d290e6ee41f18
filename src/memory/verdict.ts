import type { Mark, Sure, Verdict } from '../model/item.ts';
import type { ItemFacts, ItemMemory } from './types.ts';

/** Everything that the verdict on one item in one answer depends on. */
export interface Evidence {
  readonly mark: Mark;
  readonly sure: Sure;
  /** In a run: this step is not among those named as not sure. */
  readonly spared: boolean;
  /** The run had a fault somewhere. */
  readonly flawed: boolean;
  /** A hint, assistive input: what helped. */
  readonly helped: boolean;
  /** Asked again on the day it was missed, in an easier form: right is no proof of memory. */
  readonly eased: boolean;
  /** Chance to be right by guessing, 0..1. */
  readonly g: number;
  /** Quicker than the learner's own usual pace? Asked only where it matters. */
  readonly quick: () => boolean;
  /** Whole study days since the last answer. */
  readonly gap: number;
  readonly memory: ItemMemory | undefined;
  readonly facts: ItemFacts;
}

export interface Judged {
  readonly verdict: Verdict;
  /** Logged, but it says too little to move memory. */
  readonly unmoved: boolean;
}

// A fold of a long log makes hundreds of thousands: none is made anew.
const MISSED: Judged = { verdict: 'missed', unmoved: false };
const UNSURE: Judged = { verdict: 'unsure', unmoved: false };
const UNMOVED: Judged = { verdict: 'unsure', unmoved: true };
const SOUND: Judged = { verdict: 'sound', unmoved: false };
const FLUENT: Judged = { verdict: 'fluent', unmoved: false };

export const verdictOf = (e: Evidence): Judged => {
  // A missed answer never enters the memory model as a pass, whatever was said about it.
  if (e.mark === 'wrong' || e.mark === 'told' || e.sure === null) return MISSED;
  if (e.eased) return UNMOVED;
  const unsure = e.sure === false && !e.spared;
  if (unsure && e.g > 1 / 3) return UNMOVED;
  if (unsure || e.helped || e.mark === 'moved' || e.flawed || e.g > 1 / 3) return UNSURE;
  // A four-option question says something, once it was right on two days; for ever would starve it.
  if (e.g > 0.2 && (e.memory?.rightDays ?? 0) < 2) return UNSURE;
  const mayBeFluent = e.memory !== undefined && e.gap > 0 && !e.facts.critical && !e.facts.decision && e.sure === true;
  return mayBeFluent && e.quick() ? FLUENT : SOUND;
};
