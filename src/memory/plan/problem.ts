import { type MemoryModel, memoryModel } from '../fsrs.ts';
import { type Grid, makeGrid } from './grid.ts';
import { classesOf, type Starts, type StartTable, startsOf, startTable } from './starts.ts';
import { type NodeTable, nodeTable } from './transitions.ts';
import type { PlanItems, Shares } from './types.ts';

/** Everything about a plan that prices and minutes do not change. Days are counted from today, 0. */
export interface Problem {
  /** Days on which can be practised: 0 .. days − 1; the check is on day `days`. */
  readonly days: number;
  /** For each class of items: s of a question for each unit of weight. */
  readonly costs: readonly number[];
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
  const { costs, of } = classesOf(items, isWeighted);
  const starts: Starts = startsOf(items, of, reading, isWeighted);
  return {
    days,
    costs,
    nodes: nodeTable(model, grid, shares, days),
    starts: startTable(model, grid, shares, days, starts),
    bend,
    weight: starts.weight.reduce((sum, w) => sum + w, 0),
  };
};

/** Of a recall chance the reward. */
export const rewardOf = (recall: number, bend: number): number => recall - bend * (1 - recall) ** 2;
