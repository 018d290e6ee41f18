import { readStored } from '../log/line.ts';
import type { Facts } from '../memory/types.ts';
import type { AnyEntry, Store } from '../model/ports.ts';

/** A whole log, and what folding it needs to know of the decks, as it crosses into a worker. */
export interface LogInput {
  /** All lines of the log, in whatever order. */
  readonly lines: readonly string[];
  readonly critical: readonly string[];
  readonly decision: readonly string[];
  /** Old key → key of today. */
  readonly today: readonly (readonly [string, string])[];
}

/** All lines of the log. @throws StoreProblem */
export const linesOf = async ({ log }: Store): Promise<string[]> => {
  const lines: string[] = [];
  await log.all((part) => void lines.push(...part));
  return lines;
};

/** Lines that cannot be read were never taken in by the store. */
export const entriesIn = ({ lines }: LogInput): AnyEntry[] => lines.map(readStored);

export const factsIn = ({ critical, decision, today }: LogInput): Facts => {
  const isCritical = new Set(critical);
  const isDecision = new Set(decision);
  const now = new Map(today);
  return {
    of: (key) => ({ critical: isCritical.has(key), decision: isDecision.has(key) }),
    today: (key) => now.get(key) ?? key,
  };
};
