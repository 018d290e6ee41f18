/** Items and questions are both counted, and neither is the other. */
export const ITEM_WORDS =
  'An item is the smallest thing asked, such as the place of a step or one number; one question may be about several.';

/** What each verdict means, by the rules that give it (src/memory/verdict.ts). */
export const VERDICT_WORDS: readonly (readonly [verdict: string, means: string])[] = [
  ['Missed', 'wrong, or not known'],
  [
    'Unsure',
    'right, but it shows little: not sure, or helped; in a sequence with a mistake in it; few answers to choose from; or asked again, more easily, on the day it was missed',
  ],
  ['Sound', 'right and sure'],
  ['Fluent', 'the same on a later day, and quicker than usual; never said of critical items and rules'],
];

/** What is counted by verdict. */
export const ANSWER_WORDS = 'A question about several items counts as an answer to each of them.';

export const RECALL_WORDS =
  'Recall now is told for a day after the last answer at least: right after a verdict everything is remembered.';
