import type { FormulaErrorCode } from '../formula/tree.ts';
import type { Args } from '../subjects/finding.ts';

const found = (a: Args): string => (a.found === '' || a.found === undefined ? 'the end' : `“${a.found}”`);

const SAY: Readonly<Record<FormulaErrorCode, (a: Args) => string>> = {
  empty: () => 'the formula is empty.',
  'too-long': (a) => `a formula has at most ${a.most} characters. Split it with let.`,
  'too-deep': (a) => `more than ${a.most} levels in one another. Split it with let.`,
  character: () => 'this character has no place in a formula.',
  number: () => 'this is no number.',
  string: () => 'a word in quotation marks is not closed.',
  expected: (a) => `expected ${a.what === 'value' ? 'a value' : `“${a.what}”`}, found ${found(a)}.`,
  reserved: (a) => `“${a.name}” is a reserved word of the formula language. Use another name.`,
  name: (a) => `“${a.name}” is no name: names start with a small letter and have letters and digits only.`,
  function: (a) => `there is no function “${a.name}”.`,
  arguments: (a) => `${a.name}() takes ${a.takes} values, not ${a.found}.`,
  literal: (a) => `${a.name}() names its limit in quotation marks, for example ${a.name}("id").`,
  end: (a) => `expected the end or an operator, found ${found(a)}.`,
};

/** @param a of a finding `formula-syntax`: `reason`, and what the parser knows */
export const formulaMessage = (a: Args): string => SAY[a.reason as FormulaErrorCode](a);
