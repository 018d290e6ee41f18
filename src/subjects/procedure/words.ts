import { foldText } from '../../lib/fold-text.ts';
import type { Procedure, Step } from '../../model/deck.ts';

/** The words of `do` and `say`: all that may be seen of a step before the verdict. */
export function stepText(step: Step): string {
  const said = step.say === undefined ? '' : `\u201c${step.say}\u201d`;
  if (step.do === undefined) return said;
  return said === '' ? step.do : `${step.do}: ${said}`;
}

/** Is the order of this procedure asked? Read lists are read: their order is never drilled. */
export const asksOrder = (procedure: Procedure): boolean => procedure.done === 'memory' || procedure.done === 'flow';

/** Lists of which one is told by when it is called for: with fewer there is nothing to take it for. */
export const LISTS_LEAST = 3;

/** Words that say of any list that it is one. */
const LIST_WORD = /^(check)?(lists?)?$|^checks$/;

/** Do the words that call for a list stand in a text, but for "checklist" and the like? */
export function tellsCall(called: string, text: string): boolean {
  const words = (said: string): string[] =>
    foldText(said)
      .split(' ')
      .filter((word) => !LIST_WORD.test(word));
  const said = new Set(words(text));
  return words(called).every((word) => said.has(word));
}
