import type { Order } from '../log/order.ts';
import type { ItemKey } from '../model/item.ts';
import { Pace } from './pace.ts';
import { emptyMemory, FOLD_VERSION, type Folding } from './step.ts';
import type { ItemMemory, Memory, SettingValue } from './types.ts';

interface Stored {
  readonly fold: number;
  readonly items: readonly (readonly [ItemKey, ItemMemory])[];
  readonly read: readonly (readonly [string, number])[];
  readonly settings: readonly (readonly [string, SettingValue])[];
  readonly days: readonly number[];
  readonly answers: number;
  readonly pace: readonly (readonly [string, readonly number[]])[];
  readonly upTo: Order | null;
  readonly newer: number;
}

/** A copy that can be stored. */
export const toCheckpoint = (memory: Memory): unknown =>
  ({
    fold: memory.version,
    items: [...memory.items],
    read: [...memory.read],
    settings: [...memory.settings],
    days: [...memory.days],
    answers: memory.answers,
    pace: [...memory.pace].map(([key, pace]) => [key, [...pace.last]] as const),
    upTo: memory.upTo,
    newer: memory.newer,
  }) satisfies Stored;

/** @returns null where it was made by another version of the fold: fold anew */
export const fromCheckpoint = (value: unknown): Folding | null => {
  if (value === null) return emptyMemory();
  const stored = value as Stored;
  if (typeof stored !== 'object' || stored.fold !== FOLD_VERSION || !Array.isArray(stored.items)) return null;
  return {
    version: FOLD_VERSION,
    items: new Map(stored.items),
    read: new Map(stored.read),
    settings: new Map(stored.settings),
    days: new Set(stored.days),
    answers: stored.answers,
    pace: new Map(stored.pace.map(([key, last]) => [key, new Pace(last)])),
    upTo: stored.upTo,
    newer: stored.newer,
  };
};
