/** `npm run bench [-- NAME…]`: measures and prints; decides nothing. Ratios compare two things in the same run, so machines may differ. */
import { benchBlocking } from './blocking.ts';
import { benchClass } from './class.ts';
import { benchCalibration, benchFit } from './fit.ts';
import { benchFormula } from './formula.ts';
import { benchJoining } from './joining.ts';
import { benchDraws, benchMarking } from './marking.ts';
import { benchCheckpoint, benchFold } from './memory.ts';
import { benchOneHand } from './one-hand.ts';
import { benchOrder } from './order.ts';
import { benchPaced } from './paced.ts';
import { benchPlan, benchPlanInBrowser } from './plan.ts';
import { benchSimulate } from './simulate.ts';
import { benchStore } from './store.ts';
import { benchWorkshop } from './workshop.ts';

interface Line {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  readonly goal?: string | number | undefined;
}

/** Name to ask for it alone, title, measure. */
const parts: readonly (readonly [string, string, () => Promise<readonly Line[]> | readonly Line[]])[] = [
  ['store', 'Answer to stored, checkpoint start (Chromium)', benchStore],
  ['joining', 'A saved copy joined to what is here (Chromium)', benchJoining],
  ['fold', 'Fold', benchFold],
  ['checkpoint', 'Checkpoint start, folding alone', benchCheckpoint],
  ['fit', 'Personal weights: log loss over the truth, on later answers', benchFit],
  ['calibration', 'Calibration', benchCalibration],
  ['order', 'Order of the day', benchOrder],
  ['plan-page', 'Plan for a check date (Chromium, new worker)', benchPlanInBrowser],
  ['plan', 'Plan for a check date', benchPlan],
  ['blocking', 'The page held up at most in one go, processor slowed 4 times (Chromium)', benchBlocking],
  ['one-hand', 'From a tap to its effect on the screen, processor slowed 4 times (Chromium)', benchOneHand],
  ['paced', 'The paced run, processor slowed 4 times (Chromium)', benchPaced],
  ['simulate', 'Mean recall on the day, 200 single questions, 20 simulated learners', benchSimulate],
  ['marking', 'Marking of sequences', benchMarking],
  ['formula', 'Formulas', benchFormula],
  ['draws', 'Scenario draws', benchDraws],
  ['class', 'The class table opens, processor slowed 4 times (Chromium)', benchClass],
  ['workshop', 'A draft checked while typing (Chromium)', benchWorkshop],
];
const wanted = process.argv.slice(2);
const names = parts.map(([name]) => name);
const unknown = wanted.filter((name) => !names.includes(name));
if (unknown.length > 0) {
  console.error(`bench: no part is called ${unknown.join(', ')}; there are ${names.join(', ')}`);
  process.exit(2);
}

const digits = (value: number): string =>
  value >= 1000 ? Math.round(value).toLocaleString('en-GB') : value.toPrecision(3);

for (const [part, title, measure] of parts) {
  if (wanted.length > 0 && !wanted.includes(part)) continue;
  console.log(`\n${title}`);
  for (const { name, value, unit, goal } of await measure()) {
    const aim = goal === undefined ? '' : `  (goal ${goal})`;
    console.log(`  ${name.padEnd(52)} ${digits(value).padStart(10)} ${unit}${aim}`);
  }
}
