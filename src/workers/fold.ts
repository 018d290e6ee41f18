import { readStored } from '../log/line.ts';
import { toCheckpoint } from '../memory/checkpoint.ts';
import { fold } from '../memory/fold.ts';
import type { Facts } from '../memory/types.ts';

/** What crosses into the worker. */
export interface FoldInput {
  /** All lines of the log, in whatever order. */
  readonly lines: readonly string[];
  readonly critical: readonly string[];
  readonly decision: readonly string[];
  readonly today: readonly (readonly [string, string])[];
}

/** @returns a checkpoint value of the whole log. Lines that cannot be read were never taken in by the store. */
export const foldLines = ({ lines, critical, decision, today }: FoldInput): unknown => {
  const isCritical = new Set(critical);
  const isDecision = new Set(decision);
  const now = new Map(today);
  const facts: Facts = {
    of: (key) => ({ critical: isCritical.has(key), decision: isDecision.has(key) }),
    today: (key) => now.get(key) ?? key,
  };
  return toCheckpoint(fold(lines.map(readStored), facts));
};
