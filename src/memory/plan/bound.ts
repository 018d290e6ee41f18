import { makeSolver } from './descent.ts';
import { makeGrid } from './grid.ts';
import { findPrices } from './prices.ts';
import { problemsOf } from './problem.ts';
import { beginning, checkInput, EFFORT, kindOf, scaleOf, usableOf } from './solve.ts';
import type { PlanInput } from './types.ts';

/**
 * An upper bound on the expected mean recall on the check day, critical items or not, of every way to practise within
 * the minutes that asks no item twice a day: the value of the Lagrangian dual at good prices (any prices give a bound;
 * weak duality). It is taken on a finer grid than that of the plan, and what this changed is added, since interpolation
 * could make it too low.
 * @returns null where there are no items, or no days to plan
 * @throws RangeError where the input makes no sense
 */
export const boundOf = (input: PlanInput): number | null => {
  checkInput(input);
  if (kindOf(input) !== 'planned') return null;
  const { items, day, checkDay } = input;
  const days = checkDay - day;
  const budget = usableOf(input);
  const problemOn = problemsOf(input, false);
  const problem = problemOn();
  const solver = makeSolver(problem);
  const found = findPrices(solver, budget, beginning(days, day, input.from), false, EFFORT, scaleOf(problem));
  if (found === null) return null;
  const { prices } = found;
  let spent = 0;
  for (const [u, price] of prices.entries())
    if (price < Number.POSITIVE_INFINITY) spent += price * (budget[u] as number);
  const finer = problemOn(makeGrid(55, 7));
  const coarse = solver.descend(prices, 0);
  const fine = makeSolver(finer).descend(prices, 0);
  return Math.min(1, (fine + Math.abs(fine - coarse) + spent) / items.gap.length);
};
