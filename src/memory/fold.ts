import { effective } from '../log/effective.ts';
import type { AnyEntry } from '../model/ports.ts';
import { emptyMemory, type Folding, step } from './step.ts';
import type { Facts, Outcome } from './types.ts';

/**
 * All of a log, in whatever order it comes.
 * @param onto changed in place; a checkpoint to go on from
 * @param onOutcome what each answer did
 */
export const fold = (
  entries: Iterable<AnyEntry>,
  facts: Facts,
  onto: Folding = emptyMemory(),
  onOutcome?: (outcome: Outcome) => void,
): Folding => {
  for (const { entry, order, timeless } of effective(entries)) {
    const outcome = step(onto, entry, facts, order, timeless, onOutcome !== undefined);
    if (outcome !== null) onOutcome?.(outcome);
  }
  return onto;
};
