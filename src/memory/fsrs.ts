/**
 * The one file that knows the scheduling library. Of it only the memory model is used: FSRS-6 (Ye et al.;
 * github.com/open-spaced-repetition), with its published default weights.
 */
import { CLAMP_PARAMETERS, checkParameters, default_w, FSRSAlgorithm, W17_W18_Ceiling } from 'ts-fsrs';
import type { Verdict } from '../model/item.ts';
import type { ItemMemory } from './types.ts';

/** The published default weights w0..w20. */
export const DEFAULT_WEIGHTS: readonly number[] = Object.freeze([...default_w]);

/** The library's grades: failed, hard, good, easy. */
const GRADE: Readonly<Record<Verdict, 1 | 2 | 3 | 4>> = { missed: 1, unsure: 2, sound: 3, fluent: 4 };

/** Least and greatest value that each weight may have; outside of them the model clips. */
export const WEIGHT_RANGES: readonly (readonly [number, number])[] = CLAMP_PARAMETERS(W17_W18_Ceiling).map(
  ([low, high]) => [low as number, high as number],
);

/** How far a verdict stands above `sound`: the number by which the model's formulas know it, -2..1. */
export const levelOf = (verdict: Verdict): number => GRADE[verdict] - GRADE.sound;

export interface State {
  /** Stability, days. */
  readonly s: number;
  /** Difficulty, 1..10. */
  readonly d: number;
}

/** FSRS-6 with one list of weights. */
export interface MemoryModel {
  /** w0..w20 as they were given. */
  readonly weights: readonly number[];
  /**
   * Memory after an answer.
   * @param before null at the first answer
   * @param gap whole study days since the last answer, ≥ 0
   */
  next(before: State | null, gap: number, verdict: Verdict): State;
  /** Recall chance, 0..1, that many days after the last answer: (1 + F t / S)^-w20, 0.9 at t = S. */
  chance(s: number, days: number): number;
  /** Days after which the recall chance has fallen to the target. */
  until(s: number, target: number): number;
}

/**
 * @param weights w0..w20; the library clips each to its allowed range
 * @throws where there are not 21 finite numbers: the library would silently take its default ones
 */
export const memoryModel = (weights: readonly number[] = DEFAULT_WEIGHTS): MemoryModel => {
  if (weights.length !== DEFAULT_WEIGHTS.length)
    throw new RangeError(`There must be ${DEFAULT_WEIGHTS.length} weights of memory, not ${weights.length}.`);
  const model = new FSRSAlgorithm({ w: checkParameters([...weights]) });
  const decay = -(model.parameters.w[20] as number);
  const factor = 0.9 ** (1 / decay) - 1;
  // Filled anew for each answer: a fold asks hundreds of thousands of times, and the library only reads it.
  const given = { stability: 0, difficulty: 0 };
  return {
    weights,
    next(before, gap, verdict) {
      if (before !== null) {
        given.stability = before.s;
        given.difficulty = before.d;
      }
      const after = model.next_state(before === null ? null : given, gap, GRADE[verdict]);
      return { s: after.stability, d: after.difficulty };
    },
    chance: (s, days) => model.forgetting_curve(Math.max(0, days), s),
    until: (s, target) => (s / factor) * (target ** (1 / decay) - 1),
  };
};

/** With the default weights. */
export const DEFAULT_MODEL: MemoryModel = memoryModel();

/** `MemoryModel.next` with the default weights. */
export const nextState = DEFAULT_MODEL.next;

/** `MemoryModel.chance` with the default weights. */
export const chanceAfter = DEFAULT_MODEL.chance;

/**
 * Recall chance on a study day, 0..1.
 * @param day may have a fraction
 * @param model that of the memory which the item is in (`Memory.model`)
 */
export const recallChance = (memory: Pick<ItemMemory, 's' | 'day'>, day: number, model: MemoryModel): number =>
  model.chance(memory.s, day - memory.day);

/** `MemoryModel.until` with the default weights. */
export const daysUntil = DEFAULT_MODEL.until;
