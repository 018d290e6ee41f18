import { horizonOf, targetOf, whyDue } from '../memory/day-order.ts';
import { recallChance } from '../memory/fsrs.ts';
import type { Memory } from '../memory/types.ts';
import type { Item, ItemKey, Verdict } from '../model/item.ts';
import type { Answered } from './types.ts';
import { isAsked } from './world.ts';

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
  /** Right, but said not to be sure. */
  readonly unsure: readonly DebriefItem[];
  /** Of all that was met, least likely to be there on the day that counts (the check, or 30 days on), with that chance. */
  readonly weakest: readonly (DebriefItem & { readonly chance: number })[];
  /** Of items answered with Sure: how many were right. */
  readonly sure: { readonly right: number; readonly of: number };
  /**
   * Where there was a prediction from an earlier day: its mean, lucky guesses counted in as g + (1 − g) R, and the
   * share that was right.
   */
  readonly predicted: { readonly mean: number; readonly recalled: number; readonly of: number } | null;
  /** When items come back: how many on each study day from tomorrow on, soonest first. */
  readonly next: readonly { readonly day: number; readonly items: number }[];
  /** Study days with an answer in the last 28, today among them. */
  readonly daysPractised: number;
}

/** How many of the weakest are named. */
const WEAKEST = 5;

/**
 * @param answered of the drill, voided ones too: they do not count
 * @param items of the decks of its course
 * @param day study day
 * @param checkDay study day of the check, null without one
 */
export const debrief = (
  answered: readonly Answered[],
  items: ReadonlyMap<ItemKey, Item>,
  memory: Pick<Memory, 'items' | 'model' | 'days'>,
  day: number,
  checkDay: number | null = null,
): Debrief => {
  const counted = answered.filter(({ voided }) => voided === undefined);
  const sureButWrong = new Set<ItemKey>();
  const missed = new Set<ItemKey>();
  const unsure = new Set<ItemKey>();
  const sureOf = { right: 0, of: 0 };
  const earlier = { of: 0, sum: 0, recalled: 0 };
  for (const { sure, verdicts, predicted, g } of counted) {
    for (const [key, verdict] of Object.entries(verdicts) as [ItemKey, Verdict][]) {
      const wrong = verdict === 'missed';
      if (sure === true) {
        sureOf.of += 1;
        if (wrong) sureButWrong.add(key);
        else sureOf.right += 1;
      } else if (wrong) missed.add(key);
      else if (verdict === 'unsure') unsure.add(key);
      const chance = predicted[key];
      // Asked again on the same day it was certain (1), which says nothing about memory.
      if (chance === undefined || chance >= 1) continue;
      earlier.of += 1;
      earlier.sum += g + (1 - g) * chance;
      if (!wrong) earlier.recalled += 1;
    }
  }
  for (const key of sureButWrong) missed.delete(key);
  for (const key of [...sureButWrong, ...missed]) unsure.delete(key);

  const horizon = horizonOf(day, checkDay);
  const named = (keys: Iterable<ItemKey>): DebriefItem[] =>
    [...keys]
      .map((key) => naming(items, key))
      .sort(
        (a, b) =>
          Number(b.critical) - Number(a.critical) ||
          chanceOf(memory, a.key, horizon) - chanceOf(memory, b.key, horizon),
      );
  return {
    questions: counted.length,
    sureButWrong: named(sureButWrong),
    missed: named(missed),
    unsure: named(unsure),
    weakest: weakestOf(items, memory, horizon),
    sure: sureOf,
    predicted:
      earlier.of === 0
        ? null
        : { mean: earlier.sum / earlier.of, recalled: earlier.recalled / earlier.of, of: earlier.of },
    next: comingBack(items, memory, day),
    daysPractised: [...memory.days].filter((one) => one > day - 28 && one <= day).length,
  };
};

const naming = (items: ReadonlyMap<ItemKey, Item>, key: ItemKey): DebriefItem => {
  const item = items.get(key);
  return { key, label: item?.label ?? key, group: item?.group ?? '', critical: item?.critical ?? false };
};

const weakestOf = (
  items: ReadonlyMap<ItemKey, Item>,
  memory: Pick<Memory, 'items' | 'model'>,
  horizon: number,
): Debrief['weakest'] =>
  [...items.values()]
    .filter((item) => isAsked(item) && memory.items.has(item.key))
    .map((item) => ({ ...naming(items, item.key), chance: chanceOf(memory, item.key, horizon) }))
    .sort((a, b) => a.chance - b.chance || Number(b.critical) - Number(a.critical))
    .slice(0, WEAKEST);

const chanceOf = (memory: Pick<Memory, 'items' | 'model'>, key: ItemKey, day: number): number => {
  const known = memory.items.get(key);
  return known === undefined ? 0 : recallChance(known, day, memory.model);
};

/** Study days on which items are due, as things stand: what is missed or overdue tomorrow at the latest. */
const comingBack = (
  items: ReadonlyMap<ItemKey, Item>,
  memory: Pick<Memory, 'items' | 'model'>,
  day: number,
): Debrief['next'] => {
  const days = new Map<number, number>();
  for (const item of items.values()) {
    const known = memory.items.get(item.key);
    if (known === undefined || !isAsked(item)) continue;
    const tomorrow = whyDue(item, known, day + 1, memory.model) !== null;
    // The first whole day on which it is below its target.
    const at = tomorrow
      ? day + 1
      : Math.max(day + 1, known.day + Math.floor(memory.model.until(known.s, targetOf(item))) + 1);
    days.set(at, (days.get(at) ?? 0) + 1);
  }
  return [...days]
    .sort(([a], [b]) => a - b)
    .slice(0, 4)
    .map(([at, count]) => ({ day: at, items: count }));
};
