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
  /** Sum of all weights. */
  readonly weight: number;
}

/** @param isWeighted false: every item counts once, and what counts is recall alone */
export const problemOf = (
  items: PlanItems,
  days: number,
  shares: Shares,
  reading: number,
  weights: readonly number[] | undefined,
  isWeighted: boolean,
  grid: Grid = makeGrid(),
): Problem => {
  const model: MemoryModel = memoryModel(weights);
  const { classes, of } = classesOf(items, isWeighted);
  const starts: Starts = startsOf(items, of, reading, isWeighted);
  return {
    days,
    classes,
    nodes: nodeTable(model, grid, shares, days),
    starts: startTable(model, grid, shares, days, starts),
    weight: starts.weight.reduce((sum, w) => sum + w, 0),
  };
};
