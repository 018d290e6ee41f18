import { toCheckpoint } from '../memory/checkpoint.ts';
import { fold } from '../memory/fold.ts';
import { DEFAULT_MODEL, type MemoryModel, memoryModel } from '../memory/fsrs.ts';
import { modelInUse } from '../memory/own-weights.ts';
import { emptyMemory } from '../memory/step.ts';
import type { Outcome } from '../memory/types.ts';
import { entriesIn, factsIn, type LogInput } from './log-input.ts';

/** What crosses into the worker. */
export interface FoldInput extends LogInput {
  /** Id of an answer: what it did is told. */
  readonly tell?: string;
  /** The learner's own: used unless the log says that they are not wanted. */
  readonly weights?: readonly number[];
}

export interface Folded {
  /** For a checkpoint. */
  readonly value: unknown;
  readonly outcome: Outcome | null;
}

/** Folds a whole log. */
export const foldLines = (input: FoldInput): Folded => {
  const { tell, weights } = input;
  const entries = entriesIn(input);
  const facts = factsIn(input);
  const own = weights === undefined ? null : memoryModel(weights);
  let outcome: Outcome | null = null;
  const found = (one: Outcome): void => {
    if (one.entry === tell) outcome = one;
  };
  const foldWith = (model: MemoryModel) =>
    fold(entries, facts, emptyMemory(model), tell === undefined ? undefined : found);
  let memory = foldWith(own ?? DEFAULT_MODEL);
  // Only now is it known whether they are wanted.
  const wanted = modelInUse(memory.settings, own);
  if (wanted !== memory.model) memory = foldWith(wanted);
  return { value: toCheckpoint(memory), outcome };
};
