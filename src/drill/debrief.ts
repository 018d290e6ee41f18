import { ASKED_FACETS, targetOf } from '../memory/day-order.ts';
import { daysUntil, recallChance } from '../memory/fsrs.ts';
import type { Memory } from '../memory/types.ts';
import type { Item, ItemKey, Verdict } from '../model/item.ts';
import type { Answered } from './types.ts';

export interface DebriefItem {
  readonly key: ItemKey;
  readonly label: string;
  readonly group: string;
  readonly critical: boolean;
}

export interface Debrief {
  /** Questions answered that count. */
  readonly questions: number;
  /** The dangerous ones. */
  readonly sureButWrong: readonly DebriefItem[];
  /** Missed, but not said to be sure. */
  readonly missed: readonly DebriefItem[];
  readonly unsure: readonly DebriefItem[];
  /** Of items answered with Sure: how many were right. */
  readonly sure: { readonly right: number; readonly of: number };
  /** Where there was a prediction: mean of it, and the share that was recalled. */
  readonly predicted: { readonly mean: number; readonly recalled: number; readonly of: number } | null;
  /** When items come back: how many on each study day from tomorrow on, soonest first. */
  readonly next: readonly { readonly day: number; readonly items: number }[];
  /** Study days with an answer in the last 28, today among them. */
  readonly daysPractised: number;
}

/**
 * @param day study day
 */
export const debrief = (
  answered: readonly Answered[],
  items: ReadonlyMap<ItemKey, Item>,
  memory: Memory,
  day: number,
): Debrief => {
  const counted = answered.filter(({ voided }) => voided === undefined);
  const sureButWrong = new Map<ItemKey, DebriefItem>();
  const missed = new Map<ItemKey, DebriefItem>();
  const unsure = new Map<ItemKey, DebriefItem>();
  let right = 0;
  let of = 0;
  let sum = 0;
  let recalled = 0;
  let predictions = 0;
  for (const { sure, verdicts, predicted } of counted) {
    for (const [key, verdict] of Object.entries(verdicts) as [ItemKey, Verdict][]) {
      const item = items.get(key);
      const told: DebriefItem = {
        key,
        label: item?.label ?? key,
        group: item?.group ?? '',
        critical: item?.critical ?? false,
      };
      const wrong = verdict === 'missed';
      if (sure === true) {
        of += 1;
        if (wrong) sureButWrong.set(key, told);
        else right += 1;
      } else if (wrong) missed.set(key, told);
      else unsure.set(key, told);
      const chance = predicted[key];
      if (chance !== undefined) {
        predictions += 1;
        sum += chance;
        if (!wrong) recalled += 1;
      }
    }
  }
  for (const key of sureButWrong.keys()) {
    missed.delete(key);
    unsure.delete(key);
  }
  for (const key of missed.keys()) unsure.delete(key);
  const byWeight = (list: Iterable<DebriefItem>) =>
    [...list].sort(
      (a, b) => Number(b.critical) - Number(a.critical) || chanceOf(memory, a, day) - chanceOf(memory, b, day),
    );
  return {
    questions: counted.length,
    sureButWrong: byWeight(sureButWrong.values()),
    missed: byWeight(missed.values()),
    unsure: byWeight(unsure.values()),
    sure: { right, of },
    predicted:
      predictions === 0 ? null : { mean: sum / predictions, recalled: recalled / predictions, of: predictions },
    next: comingBack(items, memory, day),
    daysPractised: [...memory.days].filter((one) => one > day - 28 && one <= day).length,
  };
};

const chanceOf = (memory: Memory, { key }: DebriefItem, day: number): number => {
  const known = memory.items.get(key);
  return known === undefined ? 0 : recallChance(known, day);
};

/** Days on which items fall below their target, as things stand. */
const comingBack = (items: ReadonlyMap<ItemKey, Item>, memory: Memory, day: number): Debrief['next'] => {
  const days = new Map<number, number>();
  for (const item of items.values()) {
    const known = memory.items.get(item.key);
    if (known === undefined || !ASKED_FACETS.has(item.facet)) continue;
    // Due on the first whole day on which it is below the target; never today again.
    const at = Math.max(day + 1, known.day + Math.max(1, Math.floor(daysUntil(known.s, targetOf(item))) + 1));
    days.set(at, (days.get(at) ?? 0) + 1);
  }
  return [...days]
    .sort(([a], [b]) => a - b)
    .slice(0, 4)
    .map(([at, count]) => ({ day: at, items: count }));
};
