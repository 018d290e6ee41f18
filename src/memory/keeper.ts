import { isUnknown } from '../log/line.ts';
import { compareOrder, orderOf } from '../log/order.ts';
import type { Entry } from '../model/entry.ts';
import type { AnyEntry } from '../model/ports.ts';
import { fromCheckpoint, toCheckpoint } from './checkpoint.ts';
import { fold } from './fold.ts';
import type { MemoryModel } from './fsrs.ts';
import { modelInUse } from './own-weights.ts';
import { type Folding, step } from './step.ts';
import type { Facts, Memory, Outcome } from './types.ts';

/** A live memory: a checkpoint, the entries since, and what both fold to. */
export interface Keeper {
  /** Changes in place with `add`; after a void it is another object. */
  readonly memory: Memory;
  /** Entries that it holds, of whatever kind. */
  readonly entries: number;
  /**
   * Takes in one entry that was just written. `needsRefold`: it reaches back behind the checkpoint, or other weights are
   * in use from now on: fold the whole log.
   */
  add(entry: AnyEntry): { readonly outcome: Outcome | null; readonly needsRefold: boolean };
  /** What an answer since the checkpoint did; null for all others. */
  outcomeOf(entry: string): Outcome | null;
  checkpoint(): { readonly value: unknown; readonly entries: number };
}

export interface KeeperStart {
  /** As `checkpoint()` gave it; null: nothing yet. */
  readonly checkpoint: unknown;
  /** Entries that it holds. */
  readonly entries: number;
  readonly tail: readonly AnyEntry[];
  readonly facts: Facts;
  /** With the learner's own weights; absent or null: there are none. */
  readonly own?: MemoryModel | null;
}

/** @returns null where the checkpoint cannot be gone on from: fold the whole log */
export const createKeeper = ({ checkpoint, entries, tail, facts, own = null }: KeeperStart): Keeper | null => {
  const base = fromCheckpoint(checkpoint, own);
  if (base === null) return null;
  const before = base.upTo;
  const held = entries;
  const since: AnyEntry[] = [];
  const ids = new Set<string>();
  let memory: Folding;

  /** Does the entry change what is already in the checkpoint? */
  const reachesBack = (entry: AnyEntry): boolean => {
    if (isUnknown(entry)) return false;
    const known = entry as Entry;
    if (known.k === 'clock') return true;
    if (known.k === 'void' || known.k === 'mark') return !ids.has(known.of);
    // Only of answers does the order change the result.
    return known.k === 'answer' && before !== null && compareOrder(orderOf(entry), before) < 0;
  };
  const take = (entry: AnyEntry): void => {
    since.push(entry);
    ids.add(entry.id);
  };
  const refoldTail = (): void => {
    // The checkpoint's own maps must stay as they are: another void may come.
    memory = fold(since, facts, fromCheckpoint(toCheckpoint(base), own) as Folding);
  };

  const outcomeOf = (id: string): Outcome | null => {
    let found: Outcome | null = null;
    fold(since, facts, fromCheckpoint(toCheckpoint(base), own) as Folding, (one) => {
      if (one.entry === id) found = one;
    });
    return found;
  };

  for (const entry of tail) take(entry);
  if (tail.some(reachesBack)) return null;
  refoldTail();
  /** Has the learner chosen other weights since the checkpoint? */
  const isOutOfUse = (): boolean => modelInUse(memory.settings, own) !== memory.model;
  if (isOutOfUse()) return null;

  return {
    get memory() {
      return memory;
    },
    get entries() {
      return held + since.length;
    },
    add: (entry) => {
      const back = reachesBack(entry);
      take(entry);
      if (back) return { outcome: null, needsRefold: true };
      const { k } = entry;
      const order = orderOf(entry);
      const inOrder = memory.upTo === null || compareOrder(order, memory.upTo) >= 0;
      if (k !== 'void' && k !== 'mark' && inOrder)
        return { outcome: step(memory, entry, facts), needsRefold: isOutOfUse() };
      refoldTail();
      if (k !== 'answer' || inOrder) return { outcome: null, needsRefold: isOutOfUse() };
      // An answer dated before others: what it did is only known in its place.
      return { outcome: outcomeOf(entry.id), needsRefold: false };
    },
    outcomeOf,
    checkpoint: () => ({ value: toCheckpoint(memory), entries: held + since.length }),
  };
};
