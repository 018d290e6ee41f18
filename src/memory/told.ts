import type { Order } from '../log/order.ts';
import type { AnyEntry } from '../model/ports.ts';
import { memoryModel } from './fsrs.ts';
import { emptyMemory, type Folding, step } from './step.ts';
import type { Facts, Memory, Outcome } from './types.ts';

/** A learner's own weights, and what they were fitted to. JSON. */
export interface Fitted {
  readonly weights: readonly number[];
  /** Effective time of the last entry that the fit knew, UTC ms. */
  readonly upTo: number;
}

/** A log gone through so that no prediction knows what it predicts. */
export interface Told {
  /** As `step`, entry after entry in order. */
  step(entry: AnyEntry, facts: Facts, order: Order, timeless: boolean, tell: boolean): Outcome | null;
  /** The memory from which something at that time is predicted. @param at effective time, UTC ms */
  at(at: number): Memory;
}

/**
 * Own weights were fitted to the answers until then: to predict those with them would flatter. So they are predicted
 * with the default weights, and only later ones with the own. Two memories are folded side by side.
 * @param fitted null: the default weights are in use
 */
export const createTold = (fitted: Fitted | null): Told => {
  const usual = emptyMemory();
  const own = fitted === null ? null : emptyMemory(memoryModel(fitted.weights));
  const at = (time: number): Folding => (own !== null && fitted !== null && time > fitted.upTo ? own : usual);
  return {
    at,
    step: (entry, facts, order, timeless, tell) => {
      const asked = at(order[0]);
      if (own !== null) step(asked === own ? usual : own, entry, facts, order, timeless, false);
      return step(asked, entry, facts, order, timeless, tell);
    },
  };
};
