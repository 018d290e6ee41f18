import { memoryModel } from './fsrs.ts';
import { minutesFor, type WhatIf, whatIf } from './plan/minutes.ts';
import type { Plan, PlanInput } from './plan/types.ts';
import { type Bands, bandsOf } from './simulate/band.ts';
import { VARIED, type Variety } from './simulate/learner.ts';

/** What is to be expected of a plan, and of no plan. */
export interface Outlook {
  /** The plan is kept. */
  readonly kept: Bands;
  /** Nothing more is practised. */
  readonly stopped: Bands;
  /** Expected mean recall at the beginning of each day, from today to the check day, if nothing more is practised. */
  readonly idleCurve: readonly number[];
}

/** What other minutes would bring. */
export interface Advice {
  /** Minutes a day, rising; those of today among them. */
  readonly others: readonly WhatIf[];
  /** Least whole minutes a day that reach `ADVISED`; null where even four hours do not. */
  readonly enough: number | null;
}

/** Expected mean recall on the check day for which minutes suffice. Chosen. */
export const ADVISED = 0.95;

/** Memory that was fitted to the learner differs less from the truth: half of what is assumed of strangers. Chosen. */
const FITTED: Variety = { stability: VARIED.stability / 2, growth: VARIED.growth / 2, day: VARIED.day };

/** Of so many learners a tenth is still several; of very many questions fewer, since their luck evens out. */
const MOST_LEARNERS = 60;
const LEAST_LEARNERS = 24;
/** Worths looked up for each band, about. */
const WORK = 250_000;

/** @param rows items × days */
const learnersFor = (rows: number): number =>
  Math.max(LEAST_LEARNERS, Math.min(MOST_LEARNERS, Math.floor(WORK / Math.max(1, rows))));

export interface OutlookAsk {
  readonly input: PlanInput;
  readonly plan: Plan;
  /** Of each item a group, 0 .. `groups` − 1. */
  readonly groupOf: ArrayLike<number>;
  readonly groups: number;
}

/**
 * @param onProgress told the share done, 0..1
 * @returns null without items
 */
export const outlookOf = (ask: OutlookAsk, onProgress?: (share: number) => void): Outlook | null => {
  const { input, plan, groupOf, groups } = ask;
  const days = Math.max(0, input.checkDay - input.day);
  const options = {
    variety: input.weights === undefined ? VARIED : FITTED,
    learners: learnersFor(input.items.gap.length * days),
    seed: 1,
    groupOf,
    groups,
  };
  const stopped = bandsOf(input, null, options);
  onProgress?.(0.1);
  const kept = bandsOf(input, plan, options);
  onProgress?.(1);
  if (stopped === null || kept === null) return null;
  return { kept, stopped, idleCurve: idleCurve(input, days) };
};

/** After its own check an item counts as on it. */
const idleCurve = ({ items, day, weights }: PlanInput, days: number): number[] => {
  const model = memoryModel(weights);
  const { length } = items.gap;
  return Array.from({ length: days + 1 }, (_, u) => {
    let sum = 0;
    for (let i = 0; i < length; i++) {
      const gap = items.gap[i] as number;
      const later = Math.min(u, (items.checkDay?.[i] ?? day + days) - day);
      if (gap >= 0) sum += model.chance(items.s[i] as number, gap + later);
    }
    return sum / length;
  });
};

/** Half, five and ten more, double. */
const around = (now: number): number[] =>
  [...new Set([Math.max(1, Math.round(now / 2)), now + 5, now + 10, now * 2])].filter((m) => m > 0 && m !== now);

/**
 * @param now minutes a day
 * @param onProgress told the share done, 0..1
 * @returns null where nothing is planned
 */
export const adviceOf = (
  { input, plan }: Pick<OutlookAsk, 'input' | 'plan'>,
  now: number,
  onProgress?: (share: number) => void,
): Advice | null => {
  if (plan.kind !== 'planned' || plan.recall === null) return null;
  const others: WhatIf[] = [
    { minutes: now, recall: plan.recall, critical: plan.critical, givenUp: plan.givenUp.length },
  ];
  const asked = around(now);
  for (const [i, minutes] of asked.entries()) {
    const found = whatIf({ ...input, from: plan }, [minutes]);
    if (found === null) return null;
    others.push(...found);
    onProgress?.((i + 1) / (asked.length + 2));
  }
  // Those that suffice already are told as they are: fewer would be no wish of theirs.
  const enough = plan.recall >= ADVISED ? now : minutesFor({ ...input, from: plan }, ADVISED);
  onProgress?.(1);
  return { others: others.sort((a, b) => a.minutes - b.minutes), enough };
};
