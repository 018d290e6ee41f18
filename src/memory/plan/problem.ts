import { DEFAULT_WEIGHTS, memoryModel } from '../fsrs.ts';
import { type Grid, makeGrid } from './grid.ts';
import { READING, SHARES } from './shares.ts';
import { checkDaysOf, classesOf, type StartTable, startAnswers, startsOf, startTable } from './starts.ts';
import { type NodeTable, nodeTable } from './transitions.ts';
import type { PlanClass, PlanInput } from './types.ts';

/** Everything about a plan that prices and minutes do not change. Days are counted from today, 0. */
export interface Problem {
  /** Days on which can be practised: 0 .. days − 1; the last check is on day `days`. */
  readonly days: number;
  readonly classes: readonly PlanClass[];
  /** Of each class the day of its check, 0 .. days. */
  readonly ends: readonly number[];
  readonly nodes: NodeTable;
  readonly starts: StartTable;
  /** Sum of all weights. */
  readonly weight: number;
}

/**
 * @param isWeighted false: every item counts once, and what counts is recall alone
 * @returns the same problem on any grid
 */
export const problemsOf = (input: PlanInput, isWeighted: boolean): ((grid?: Grid) => Problem) => {
  const { items, day, shares = SHARES, reading = READING, weights = DEFAULT_WEIGHTS } = input;
  const days = input.checkDay - day;
  const model = memoryModel(weights);
  const { classes, of } = classesOf(items, checkDaysOf(input), isWeighted);
  const starts = startsOf(items, of, reading, isWeighted);
  const answers = startAnswers(model, days, starts);
  const ends = classes.map(({ checkDay }) => checkDay - day);
  const weight = starts.weight.reduce((sum, w) => sum + w, 0);
  return (grid = makeGrid()) => ({
    days,
    classes,
    ends,
    nodes: nodeTable(model, grid, shares, days),
    starts: startTable(model, grid, shares, days, starts, answers),
    weight,
  });
};
