import { DEFAULT_MODEL, type MemoryModel } from './fsrs.ts';
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
