import type { RunGiven, RunShown } from '../../model/form.ts';
import type { Form } from '../contract.ts';
import { drawRun } from './draw.ts';
import { markRun } from './mark.ts';
import { runOffers } from './offers.ts';

/** Put the steps of a procedure, or of a part of it, in order. Proves their places, nothing else. */
export const runForm: Form<RunShown, RunGiven> = {
  id: 'run',
  offers: (resolved, wanted) => runOffers(resolved, wanted),
  draw: drawRun,
  mark: markRun,
};
