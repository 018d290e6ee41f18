/**
 * The one file that knows the scheduling library. Of it only the memory model is used: FSRS-6 (Ye et al.;
 * github.com/open-spaced-repetition), with its published default weights.
 */
import { checkParameters, default_w, FSRSAlgorithm } from 'ts-fsrs';
import type { Verdict } from '../model/item.ts';
import type { ItemMemory } from './types.ts';

// A list of a wrong length would silently be replaced by the default one.
const WEIGHTS = checkParameters(default_w);
const model = new FSRSAlgorithm({ w: WEIGHTS });

/** The library's grades: failed, hard, good, easy. */
const GRADE: Readonly<Record<Verdict, 1 | 2 | 3 | 4>> = { missed: 1, unsure: 2, sound: 3, fluent: 4 };

export interface State {
  /** Stability, days. */
  readonly s: number;
  /** Difficulty, 1..10. */
  readonly d: number;
}

/**
 * Memory after an answer.
 * @param before null at the first answer
 * @param gap whole study days since the last answer, ≥ 0
 */
export const nextState = (before: State | null, gap: number, verdict: Verdict): State => {
  const after = model.next_state(
    before === null ? null : { stability: before.s, difficulty: before.d },
    gap,
    GRADE[verdict],
  );
  return { s: after.stability, d: after.difficulty };
};

/** Recall chance, 0..1, that many days after the last answer: (1 + F t / S)^-w20, 0.9 at t = S. */
export const chanceAfter = (s: number, days: number): number => model.forgetting_curve(Math.max(0, days), s);

/** Recall chance on a study day. @param day may have a fraction */
export const recallChance = (memory: Pick<ItemMemory, 's' | 'day'>, day: number): number =>
  chanceAfter(memory.s, day - memory.day);

const DECAY = -(WEIGHTS[20] as number);
const FACTOR = 0.9 ** (1 / DECAY) - 1;

/** Days after which the recall chance has fallen to the target. */
export const daysUntil = (s: number, target: number): number => (s / FACTOR) * (target ** (1 / DECAY) - 1);
