import { effective } from '../log/effective.ts';
import { isUnknown, readStored } from '../log/line.ts';
import { studyDay } from '../log/study-day.ts';
import { type Comparison, compare, predictionsOf, type Share, sureShare } from '../memory/calibration/reliability.ts';
import { recallChance } from '../memory/fsrs.ts';
import { createTold, type Fitted } from '../memory/told.ts';
import type { Facts, Memory, Outcome } from '../memory/types.ts';
import type { AnswerEntry, Entry } from '../model/entry.ts';
import type { ItemKey } from '../model/item.ts';
import type { Before } from './missed.ts';
import { createTally, type Tally } from './tally.ts';

/** What is asked of the whole log. Study days. */
export interface PastWanted {
  /** Own weights, where they are in use: nothing is predicted in hindsight (src/memory/told.ts). */
  readonly fitted: Fitted | null;
  /** Outcomes of answers from this day on are measured. */
  readonly since: number;
  /** Drill whose answers are told. */
  readonly drill?: string;
  /** What was known before this day, and predicted for it. */
  readonly before?: number;
  /** Everything is counted, by deck and item. */
  readonly tally?: true;
}

export interface PastInput extends PastWanted {
  /** All lines of the log, in whatever order. */
  readonly lines: readonly string[];
  /** What folding needs to know of the decks. */
  readonly critical: readonly ItemKey[];
  readonly decision: readonly ItemKey[];
  /** Old key → key of today. */
  readonly today: readonly (readonly [ItemKey, ItemKey])[];
}

export interface Past {
  /** Predicted against actual, of items answered before on another day. */
  readonly predicted: Comparison;
  readonly sure: Share;
  /** Of the drill, those that count, in order. */
  readonly answers: readonly AnswerEntry[];
  readonly before: Before | null;
  /** Null where it was not asked for. */
  readonly tally: Tally | null;
}

/** Goes through a whole log once, by the same steps as the fold. O(n log n). */
export const lookBack = ({ lines, critical, decision, today, ...wanted }: PastInput): Past => {
  const isCritical = new Set(critical);
  const isDecision = new Set(decision);
  const now = new Map(today);
  const facts: Facts = {
    of: (key) => ({ critical: isCritical.has(key), decision: isDecision.has(key) }),
    today: (key) => now.get(key) ?? key,
  };
  const told = createTold(wanted.fitted);
  const outcomes: Outcome[] = [];
  const answers: AnswerEntry[] = [];
  let before: Before | null = null;
  const entries = lines.map(readStored);
  const tally = wanted.tally === true ? createTally(facts.today) : null;
  for (const { entry, order, timeless } of effective(entries)) {
    const day = isUnknown(entry) ? null : studyDay(order[0], (entry as Entry).off);
    // In order of time, so what comes now was not known before.
    if (wanted.before !== undefined && before === null && day !== null && day >= wanted.before)
      before = knownFor(told.at(order[0]), wanted.before);
    const isMeasured = day !== null && day >= wanted.since;
    const outcome = told.step(entry, facts, order, timeless, isMeasured || tally !== null);
    if (outcome !== null && isMeasured) outcomes.push(outcome);
    if (tally !== null && day !== null && !isUnknown(entry)) tally.add(entry as Entry, outcome, timeless ? null : day);
    if (!isUnknown(entry) && entry.k === 'answer' && wanted.drill !== undefined && entry.drill === wanted.drill)
      answers.push(entry as AnswerEntry);
  }
  if (wanted.before !== undefined) before ??= knownFor(told.at(Number.POSITIVE_INFINITY), wanted.before);
  return {
    predicted: compare(predictionsOf(outcomes)),
    sure: sureShare(outcomes),
    answers,
    before,
    tally: tally?.of(entries) ?? null,
  };
};

const knownFor = (memory: Memory, day: number): Before => ({
  chances: [...memory.items].map(([key, known]) => [key, recallChance(known, day, memory.model)] as const),
  answers: memory.answers,
  days: memory.days.size,
});
