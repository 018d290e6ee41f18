import { readStored } from '../log/line.ts';
import { toCheckpoint } from '../memory/checkpoint.ts';
import { fold } from '../memory/fold.ts';
import type { Facts, Outcome } from '../memory/types.ts';

/** What crosses into the worker. */
export interface FoldInput {
  /** All lines of the log, in whatever order. */
  readonly lines: readonly string[];
  readonly critical: readonly string[];
  readonly decision: readonly string[];
  readonly today: readonly (readonly [string, string])[];
  /** Id of an answer: what it did is told. */
  readonly tell?: string;
}

export interface Folded {
  /** For a checkpoint. */
  readonly value: unknown;
  readonly outcome: Outcome | null;
}

/** Folds a whole log. Lines that cannot be read were never taken in by the store. */
export const foldLines = ({ lines, critical, decision, today, tell }: FoldInput): Folded => {
  const isCritical = new Set(critical);
  const isDecision = new Set(decision);
  const now = new Map(today);
  const facts: Facts = {
    of: (key) => ({ critical: isCritical.has(key), decision: isDecision.has(key) }),
    today: (key) => now.get(key) ?? key,
  };
  let outcome: Outcome | null = null;
  const found = (one: Outcome): void => {
    if (one.entry === tell) outcome = one;
  };
  const memory = fold(lines.map(readStored), facts, undefined, tell === undefined ? undefined : found);
  return { value: toCheckpoint(memory), outcome };
};
