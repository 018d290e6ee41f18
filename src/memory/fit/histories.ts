import { effective } from '../../log/effective.ts';
import { isUnknown } from '../../log/line.ts';
import { gapDays, type Moment, studyDay } from '../../log/study-day.ts';
import type { AnswerEntry, Entry, MissedEntry } from '../../model/entry.ts';
import type { ItemKey, Verdict } from '../../model/item.ts';
import type { AnyEntry } from '../../model/ports.ts';
import { emptyMemory, step } from '../step.ts';
import type { Facts } from '../types.ts';

/** What one answer said about one item. JSON. */
export interface PastAnswer {
  /** Whole study days since the item's memory last moved; 0 at first. */
  readonly gap: number;
  readonly verdict: Verdict;
  /** Chance to be right by guessing, 0..1. */
  readonly g: number;
  /** Effective time, UTC ms. */
  readonly at: number;
  /** It moved memory. Right by a guess that was not sure is logged and does not. */
  readonly moves: boolean;
  /**
   * It shows how good a prediction was. What was missed in the simulator does not: what was right there is not
   * entered, so that the entries alone would say that all is missed.
   */
  readonly counts: boolean;
}

/** All that was answered about one item, in the order of folding. */
export type History = readonly PastAnswer[];

/**
 * The histories of all items of a practice log, by the same verdicts, gaps and corrections as the fold, since it is
 * `step` that goes through the log here too. O(n log n).
 */
export const historiesOf = (entries: Iterable<AnyEntry>, facts: Facts): Map<ItemKey, History> => {
  const memory = emptyMemory();
  const histories = new Map<ItemKey, PastAnswer[]>();
  const keep = (key: ItemKey, answer: PastAnswer) => {
    const list = histories.get(key);
    if (list === undefined) histories.set(key, [answer]);
    else list.push(answer);
  };
  for (const { entry, order, timeless } of effective(entries)) {
    const keys = keysOf(entry, facts);
    if (keys.length === 0) {
      step(memory, entry, facts, order, timeless, false);
      continue;
    }
    const before = new Map(keys.map((key) => [key, memory.items.get(key)]));
    const outcome = step(memory, entry, facts, order, timeless);
    const now: Moment = { day: studyDay(order[0], (entry as Entry).off), at: order[0] };
    for (const [key, then] of before) {
      const after = memory.items.get(key);
      const moves = (after?.n ?? 0) > (then?.n ?? 0);
      const at = order[0];
      if (outcome !== null) {
        const gap = then === undefined || timeless ? 0 : gapDays(then, now);
        const verdict = outcome.verdicts[key];
        if (verdict !== undefined) keep(key, { gap, verdict, g: outcome.g, at, moves, counts: true });
      } else if (moves && after !== undefined) {
        const gap = then === undefined ? 0 : Math.max(0, after.day - then.day);
        keep(key, { gap, verdict: after.verdict, g: 0, at, moves, counts: false });
      }
    }
  }
  return histories;
};

/** The items that an entry is about, by the keys of today. */
const keysOf = (entry: AnyEntry, facts: Facts): ItemKey[] => {
  if (isUnknown(entry)) return [];
  const said =
    entry.k === 'answer'
      ? Object.keys((entry as AnswerEntry).marks)
      : entry.k === 'missed'
        ? (entry as MissedEntry).items
        : [];
  return said.map((key) => facts.today(key));
};
