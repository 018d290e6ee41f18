import { describe, expect, test } from 'vitest';
import { checkText } from '../../../src/deck/check.ts';
import { messageOf } from '../../../src/deck/messages.ts';
import { type Change, changed } from '../../fixtures/decks/base.ts';

/** Path and message of the first finding. */
const said = (change: Change): string => {
  const [first] = checkText(JSON.stringify(changed(change)), { today: '2026-11-25' }).findings;
  return first ? `${first.path}: ${messageOf(first)}` : '';
};

describe('a wrong form is said with a right one', () => {
  test.each<[string, Change, string]>([
    [
      '/version',
      (d) => {
        d.version = 'one';
      },
      'a version of three numbers such as 1.0.2',
    ],
    [
      '/id',
      (d) => {
        d.id = 'Base';
      },
      'publisher/name in small letters, digits and hyphens',
    ],
    [
      '/language',
      (d) => {
        d.language = 'e';
      },
      'a language tag such as en or en-GB',
    ],
    [
      '/effective',
      (d) => {
        d.effective = '1 May 2026';
      },
      'a date such as 2026-11-25',
    ],
    [
      '/sources/0/id',
      (d) => {
        d.sources[0].id = 'A';
      },
      'small letters, digits and hyphens',
    ],
    [
      '/sources/0/url',
      (d) => {
        d.sources[0].url = 'javascript:alert(1)';
      },
      'an address that starts with https://',
    ],
    [
      '/limits/0/source',
      (d) => {
        d.limits[0].source = 'som 3';
      },
      'a source, or source#place',
    ],
    [
      '/limits/0/keeps/0',
      (d) => {
        d.limits[0].keeps = ['place'];
      },
      'facet~stamp',
    ],
    [
      '/procedures/0/steps/0/rule',
      (d) => {
        d.procedures[0].steps[0].rule = 'wind';
      },
      'scenario#question',
    ],
    [
      '/day/0/id',
      (d) => {
        d.day[0].id = 'V 1';
      },
      'letters, digits and hyphens',
    ],
  ])('%s', (path, change, form) => {
    expect(said(change)).toContain(`${path}: “`);
    expect(said(change)).toContain(form);
  });
});

describe('a mistake in a formula is said with its place', () => {
  test.each([
    ['tail <= ', 'Formula, character 9: expected a value, found the end.'],
    ['tail <= 10)', 'Formula, character 11: expected the end or an operator, found “)”.'],
    ['tail <= 1e', 'Formula, character 9: this is no number.'],
    ['tail <= mean(1)', 'Formula, character 9: there is no function “mean”.'],
    ['abs(1, 2) > 0', 'Formula, character 1: abs() takes 1 values, not 2.'],
    ['limit(tail) > 0', 'Formula, character 7: limit() names its limit in quotation marks, for example limit("id").'],
    ['in > 0', 'Formula, character 1: “in” is a reserved word of the formula language. Use another name.'],
    ['Tail > 0', 'Formula, character 1: “Tail” is no name: names start with a small letter'],
    ['tail == "x', 'Formula, character 9: a word in quotation marks is not closed.'],
    ['tail # 1', 'Formula, character 6: this character has no place in a formula.'],
    ['tial > 0', 'Formula, character 1: nothing here is called “tial”. Did you mean “tail”?'],
    ['event == "fier"', 'There is no choice of event “fier”.'],
    ['limit("pouse") > 0', 'There is no limit “pouse”. Did you mean “pause”?'],
    ['tail + event > 0', 'Formula, character 8: a number is needed here, this is a word.'],
    ['tail', 'The formula gives a number, but a truth value is needed.'],
    [' ', 'Formula, character 1: the formula is empty.'],
    [`tail > ${'('.repeat(70)}`, 'more than 64 levels in one another'],
    [`tail > ${'1 + '.repeat(600)}1`, 'a formula has at most 2000 characters'],
  ])('%s', (formula, message) => {
    const text = said((d) => {
      d.scenarios[0].require = [formula];
    });
    expect(text.startsWith('/scenarios/0/require/0: ')).toBe(true);
    expect(text).toContain(message);
  });
});
