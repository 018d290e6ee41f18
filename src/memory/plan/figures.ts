import { TARGET, TARGET_CRITICAL } from '../day-order.ts';
import { memoryModel } from '../fsrs.ts';
import type { Outcome } from './descent.ts';
import type { Problem } from './problem.ts';
import { checkDaysOf } from './starts.ts';
import type { Plan, PlanInput, PlanItems } from './types.ts';

/** Of each item the recall on its check day if nothing more is practised. */
export const idleOf = (input: PlanInput): Float32Array => {
  const { items, day, weights } = input;
  const model = memoryModel(weights);
  const checkDays = checkDaysOf(input);
  return Float32Array.from({ length: items.gap.length }, (_, i) => {
    const gap = items.gap[i] as number;
    return gap < 0 ? 0 : model.chance(items.s[i] as number, gap + (checkDays[i] as number) - day);
  });
};

export const mean = (list: ArrayLike<number>): number => {
  let sum = 0;
  for (let i = 0; i < list.length; i++) sum += list[i] as number;
  return sum / list.length;
};

type Figures = Pick<Plan, 'recall' | 'critical' | 'idle' | 'itemRecall' | 'itemAsks' | 'givenUp' | 'curve'>;

/** What is expected of each item. Of those never met that are alike the first in authored order are met. */
export const figures = (
  { items }: PlanInput,
  { starts, ends }: Problem,
  { recall, asks, met, curve }: Outcome,
  idle: Float32Array,
): Figures => {
  const { length } = items.gap;
  const itemRecall = new Float32Array(length);
  const itemAsks = new Float32Array(length);
  const givenUp: number[] = [];
  const before = new Map<number, number>();
  for (let i = 0; i < length; i++) {
    const start = starts.starts.of[i] as number;
    const chance = met[start] as number;
    let share = 1;
    if ((items.gap[i] as number) < 0 && chance > 0) {
      const rank = before.get(start) ?? 0;
      before.set(start, rank + 1);
      const places = chance * (starts.starts.items[start] as number);
      share = Math.min(1, Math.max(0, places - rank)) / chance;
    }
    itemRecall[i] = share * (recall[start] as number);
    itemAsks[i] = share * (asks[start] as number);
    const target = items.critical[i] === 1 ? TARGET_CRITICAL : TARGET;
    // What is checked already is not given up.
    const isOver = ends[starts.starts.kind[start] as number] === 0;
    if (!isOver && (itemAsks[i] as number) < 0.5 && (itemRecall[i] as number) < target) givenUp.push(i);
  }
  return {
    recall: mean(itemRecall),
    critical: criticalOf(items, itemRecall),
    idle: mean(idle),
    itemRecall,
    itemAsks,
    givenUp,
    curve: [...curve].map((sum) => sum / length),
  };
};

export const criticalOf = (items: PlanItems, recall: Float32Array): number | null => {
  const list = recall.filter((_, i) => items.critical[i] === 1);
  return list.length === 0 ? null : mean(list);
};
