/** `npm run bench`: measures and prints; decides nothing. Ratios compare two things in the same run, so machines may differ. */
import { benchBlocking } from './blocking.ts';
import { benchCalibration, benchFit } from './fit.ts';
import { benchFormula } from './formula.ts';
import { benchDraws, benchMarking } from './marking.ts';
import { benchCheckpoint, benchFold } from './memory.ts';
import { benchOrder } from './order.ts';
import { benchPlan, benchPlanInBrowser } from './plan.ts';
import { benchSimulate } from './simulate.ts';
import { benchStore } from './store.ts';

interface Line {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  readonly goal?: string | number | undefined;
}

const parts: readonly (readonly [string, () => Promise<readonly Line[]> | readonly Line[]])[] = [
  ['Answer to stored, checkpoint start (Chromium)', benchStore],
  ['Fold', benchFold],
  ['Checkpoint start, folding alone', benchCheckpoint],
  ['Personal weights: log loss over the truth, on later answers', benchFit],
  ['Calibration', benchCalibration],
  ['Order of the day', benchOrder],
  ['Plan for a check date (Chromium, new worker)', benchPlanInBrowser],
  ['Plan for a check date', benchPlan],
  ['The page held up at most in one go, processor slowed 4 times (Chromium)', benchBlocking],
  ['Mean recall on the day, 200 single questions, 20 simulated learners', benchSimulate],
  ['Marking of sequences', benchMarking],
  ['Formulas', benchFormula],
  ['Scenario draws', benchDraws],
];

const digits = (value: number): string =>
  value >= 1000 ? Math.round(value).toLocaleString('en-GB') : value.toPrecision(3);

for (const [title, measure] of parts) {
  console.log(`\n${title}`);
  for (const { name, value, unit, goal } of await measure()) {
    const wanted = goal === undefined ? '' : `  (goal ${goal})`;
    console.log(`  ${name.padEnd(52)} ${digits(value).padStart(10)} ${unit}${wanted}`);
  }
}
