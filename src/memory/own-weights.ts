import type { Fit } from './fit/fit-weights.ts';
import { DEFAULT_MODEL, type MemoryModel, memoryModel } from './fsrs.ts';
import type { Memory } from './types.ts';

/** Key of the learner's choice in the log: `false` keeps to the usual weights. */
export const OWN_MEMORY = 'own-memory';

/** May the learner's own weights be used? Until they say no, yes. */
export const wantsOwn = (settings: Memory['settings']): boolean => settings.get(OWN_MEMORY)?.value !== false;

/**
 * The model with which a log that holds these settings is folded: one function, so that live memory, checkpoint and
 * fold agree.
 * @param own with the learner's own weights; null: there are none
 */
export const modelInUse = (settings: Memory['settings'], own: MemoryModel | null): MemoryModel =>
  own !== null && wantsOwn(settings) ? own : DEFAULT_MODEL;

export const sameWeights = (a: readonly number[], b: readonly number[]): boolean =>
  a.length === b.length && a.every((w, i) => w === b[i]);

/** Record `weights` of the device: the last fit. Derived from the log, and so never in it. JSON. */
export interface OwnWeights {
  readonly fit: Fit;
  /** When, UTC ms, as the device says. */
  readonly at: number;
  /** Effective time of the last entry that it knew, UTC ms: predictions of later answers owe it nothing. */
  readonly upTo: number;
}

/**
 * @param kept the record as it was stored, whatever it is
 * @returns null where there is none, where its weights were refused, or where it is of no use
 */
export const ownModel = (kept: unknown): MemoryModel | null => {
  try {
    const { fit } = kept as OwnWeights;
    return fit.accepted ? memoryModel(fit.weights) : null;
  } catch {
    return null;
  }
};
