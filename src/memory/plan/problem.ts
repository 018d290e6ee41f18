import { type MemoryModel, memoryModel } from '../fsrs.ts';
import { type Grid, makeGrid } from './grid.ts';
import { classesOf, type Starts, type StartTable, startsOf, startTable } from './starts.ts';
import { type NodeTable, nodeTable } from './transitions.ts';
import type { PlanClass, PlanItems, Shares } from './types.ts';

/** Everything about a plan that prices and minutes do not change. Days are counted from today, 0. */
export interface Problem {
  /** Days on which can be practised: 0 .. days − 1; the check is on day `days`. */
  readonly days: number;
  readonly classes: readonly PlanClass[];
  readonly nodes: NodeTable;
  readonly starts: StartTable;
  /** Reward of recall chance R on the check day is R − bend (1 − R)². */
  readonly bend: number;
  /** Sum of all weights. */
  readonly weight: number;
}

/** So much is lost by uneven recall: of two plans of the same mean the one that leaves nobody's item behind is better. */
export const EVEN_HANDED = 3;

export const problemOf = (
  items: PlanItems,
  days: number,
  shares: Shares,
  reading: number,
  weights: readonly number[] | undefined,
  bend: number,
  isWeighted: boolean,
  grid: Grid = makeGrid(),
): Problem => {
  const model: MemoryModel = memoryModel(weights);
  const { classes, of } = classesOf(items, reading, isWeighted);
  const starts: Starts = startsOf(items, of, isWeighted);
  return {
    days,
    classes,
    nodes: nodeTable(model, grid, shares, days),
    starts: startTable(model, grid, shares, days, starts),
    bend,
    weight: starts.weight.reduce((sum, w) => sum + w, 0),
  };
};

/** Of a recall chance the reward. */
export const rewardOf = (recall: number, bend: number): number => recall - bend * (1 - recall) ** 2;
