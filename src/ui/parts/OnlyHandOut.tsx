import type { Learner } from '../models/learner.ts';

/** The way out of the first questions for whoever brought a deck to hand it out, and does not practise it. */
export const OnlyHandOut = ({ learner }: { readonly learner: Learner }) =>
  learner.memory.value.answers > 0 ? null : (
    <p class="small soft">
      An instructor who only hands this out goes on at <a href="#/assign">Assign practice</a>.
    </p>
  );
