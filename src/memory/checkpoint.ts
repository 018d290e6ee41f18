import type { Order } from '../log/order.ts';
import type { ItemKey } from '../model/item.ts';
import type { MemoryModel } from './fsrs.ts';
import { modelInUse, sameWeights } from './own-weights.ts';
import { Pace } from './pace.ts';
import { emptyMemory, FOLD_VERSION, type Folding } from './step.ts';
import type { ItemMemory, Memory, SettingValue } from './types.ts';

interface Stored {
  readonly fold: number;
  readonly weights: readonly number[];
  readonly items: readonly (readonly [ItemKey, ItemMemory])[];
  readonly read: readonly (readonly [string, number])[];
  readonly settings: readonly (readonly [string, SettingValue])[];
  readonly seen: readonly string[];
  readonly taken: readonly (readonly [string, number])[];
  readonly days: readonly number[];
  readonly answers: number;
  readonly predicted: number;
  readonly pace: readonly (readonly [string, readonly number[]])[];
  readonly upTo: Order | null;
  readonly newer: number;
}

/** A copy that can be stored. */
export const toCheckpoint = (memory: Memory): unknown =>
  ({
    fold: memory.version,
    weights: [...memory.model.weights],
    items: [...memory.items],
    read: [...memory.read],
    settings: [...memory.settings],
    seen: [...memory.seen],
    taken: [...memory.taken],
    days: [...memory.days],
    answers: memory.answers,
    predicted: memory.predicted,
    pace: [...memory.pace].map(([key, pace]) => [key, [...pace.last]] as const),
    upTo: memory.upTo,
    newer: memory.newer,
  }) satisfies Stored;

/**
 * @param own with the learner's own weights; null: there are none
 * @returns null where it was made by another version of the fold, or with weights that are not in use now: fold anew
 */
export const fromCheckpoint = (value: unknown, own: MemoryModel | null = null): Folding | null => {
  if (value === null) return emptyMemory(modelInUse(new Map(), own));
  const stored = value as Stored;
  if (typeof stored !== 'object' || stored.fold !== FOLD_VERSION || !Array.isArray(stored.items)) return null;
  const settings = new Map(stored.settings);
  const model = modelInUse(settings, own);
  if (!Array.isArray(stored.weights) || !sameWeights(stored.weights, model.weights)) return null;
  return {
    version: FOLD_VERSION,
    model,
    items: new Map(stored.items),
    read: new Map(stored.read),
    settings,
    seen: new Set(stored.seen),
    taken: new Map(stored.taken),
    days: new Set(stored.days),
    answers: stored.answers,
    predicted: stored.predicted,
    pace: new Map(stored.pace.map(([key, last]) => [key, new Pace(last)])),
    upTo: stored.upTo,
    newer: stored.newer,
  };
};
