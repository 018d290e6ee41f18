import type { Procedure, Step } from '../../model/deck.ts';

/** The words of `do` and `say`: all that may be seen of a step before the verdict. */
export function stepText(step: Step): string {
  const said = step.say === undefined ? '' : `\u201c${step.say}\u201d`;
  if (step.do === undefined) return said;
  return said === '' ? step.do : `${step.do}: ${said}`;
}

/** Is the order of this procedure asked? Read lists are read: their order is never drilled. */
export const asksOrder = (procedure: Procedure): boolean => procedure.done === 'memory' || procedure.done === 'flow';
