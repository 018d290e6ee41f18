import { type Fit, fitWeights } from '../memory/fit/fit-weights.ts';
import { historiesOf } from '../memory/fit/histories.ts';
import { entriesIn, factsIn, type LogInput } from './log-input.ts';

/** The learner's own weights from a whole log; JSON. 10,000 answers take below a second. */
export const fitLines = (input: LogInput): Fit =>
  fitWeights([...historiesOf(entriesIn(input), factsIn(input)).values()]);
