import type { ItemKey } from '../model/item.ts';
import type { ReportSlip } from '../model/report.ts';
import type { Resolved } from '../subjects/resolved.ts';
import { type Answer, wrongAnswer } from './wrong-answer.ts';

export interface Slips {
  /** The most often given first; of one item at most `MOST_OF_ITEM`. */
  readonly told: readonly ReportSlip[];
  /** Questions answered wrongly beyond them. */
  readonly leftOut: number;
}

/** Rarer ones say little about what somebody has in mind, and an instructor reads those of a whole class. */
export const MOST_OF_ITEM = 3;

/**
 * Of wrong answers the commonest by item, with pauses, for there may be many. Left out, and counted: ways of asking that
 * have several answers in one (a sequence, who does what), worked-out numbers that no slip explains, answers about what
 * the deck no longer asks or asks otherwise by now, and the rarer ones of an item.
 * @param answers to questions of this deck, by whatever revision, with something wrong
 * @param asked keys of the items that are asked
 * @param today key of today for an old one
 */
export function* slipsInSteps(
  answers: readonly Answer[],
  resolved: Resolved,
  asked: ReadonlySet<ItemKey>,
  today: (key: ItemKey) => ItemKey,
): Generator<void, Slips> {
  const found = new Map<string, ReportSlip>();
  for (const answer of answers) {
    yield;
    const wrong = wrongAnswer(resolved, answer, today);
    if (wrong === null || !asked.has(wrong.key) || (wrong.drawn && wrong.slip === null)) continue;
    const { key, asked: what } = wrong;
    const given = wrong.drawn ? (wrong.slip ?? '') : wrong.given;
    const name = JSON.stringify([key, given]);
    found.set(name, { key, asked: what, given, times: 1 + (found.get(name)?.times ?? 0) });
  }
  const told: ReportSlip[] = [];
  const ofItem = new Map<ItemKey, number>();
  for (const slip of [...found.values()].sort((a, b) => b.times - a.times)) {
    const before = ofItem.get(slip.key) ?? 0;
    if (before >= MOST_OF_ITEM) continue;
    ofItem.set(slip.key, before + 1);
    told.push(slip);
  }
  return { told, leftOut: answers.length - told.reduce((sum, { times }) => sum + times, 0) };
}
