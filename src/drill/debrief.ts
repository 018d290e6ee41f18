import { type Comparison, compare, predictionsOf, type Share, sureShare } from '../memory/calibration/reliability.ts';
import { horizonOf, targetOf, whyDue } from '../memory/day-order.ts';
import { recallChance } from '../memory/fsrs.ts';
import type { Memory } from '../memory/types.ts';
import type { FormId } from '../model/form.ts';
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
  /** Right, but said not to be sure. */
  readonly unsure: readonly DebriefItem[];
  /** Of all that was met, least likely to be there on the day that counts (the check, or 30 days on), with that chance. */
  readonly weakest: readonly (DebriefItem & { readonly chance: number })[];
  /** Of items answered with Sure those that were right. */
  readonly sure: Share;
  /** Predicted against actual, of items that were answered before on another day; lucky guesses counted in. */
  readonly predicted: Comparison;
  /** Median time of an answer, for each way to ask; Don't know left out. */
  readonly times: readonly { readonly form: FormId; readonly seconds: number; readonly of: number }[];
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
  for (const { form, sure, verdicts } of counted) {
    for (const [key, verdict] of Object.entries(verdicts) as [ItemKey, Verdict][]) {
      const wrong = verdict === 'missed';
      // In a run in time nobody is asked.
      if (wrong) (sure === true && form !== 'paced' ? sureButWrong : missed).add(key);
      else if (verdict === 'unsure' && sure !== true) unsure.add(key);
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
    sure: sureShare(counted),
    predicted: compare(predictionsOf(counted)),
    times: timesOf(counted),
    next: comingBack(items, memory, day),
    daysPractised: [...memory.days].filter((one) => one > day - 28 && one <= day).length,
  };
};

const timesOf = (counted: readonly Answered[]): Debrief['times'] => {
  const times = new Map<FormId, number[]>();
  for (const { form, sure, ms } of counted)
    if (sure !== null && ms > 0) times.set(form, [...(times.get(form) ?? []), ms / 1000]);
  return [...times].map(([form, list]) => ({ form, seconds: median(list), of: list.length }));
};

const median = (list: readonly number[]): number => {
  const sorted = [...list].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  const high = sorted[half] as number;
  return sorted.length % 2 === 1 ? high : ((sorted[half - 1] as number) + high) / 2;
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
    .filter((item) => memory.items.has(item.key))
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
    if (known === undefined) continue;
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
