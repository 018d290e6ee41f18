import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { checkUsed } from '../../../src/deck/check-used.ts';
import type { Deck } from '../../../src/model/deck.ts';
import { namesOf } from '../../../src/subjects/check.ts';
import { thingsOf } from '../../../src/subjects/things.ts';
import { type Change, changed } from '../../fixtures/decks/base.ts';

const unused = (deck: Deck): string[] => {
  const found: string[] = [];
  const add = (code: string, path: string): void => void found.push(`${code} ${path}`);
  checkUsed({ deck, things: thingsOf(deck), names: namesOf(deck), add });
  return found;
};
const withCondition = (use: Change): Deck =>
  changed((d) => {
    d.conditions.push({ id: 'worked', label: 'Worked', yes: 'Worked', no: 'Not' });
    use(d);
  });

test.each<[string, Change]>([
  [
    'a step, by “if”',
    (d) => {
      d.procedures[0].steps[0].if = '!worked';
    },
  ],
  [
    'a step, as what comes true',
    (d) => {
      d.procedures[0].steps[0].cue = { event: 'worked' };
    },
  ],
  [
    'a text',
    (d) => {
      d.procedures[0].steps[0].why = 'Now {worked}.';
    },
  ],
  [
    'a case',
    (d) => {
      d.limits[3].cases[0].given = { worked: true, flaps: 'one' };
    },
  ],
  [
    'a requirement',
    (d) => {
      d.scenarios[0].require = ['worked == true'];
    },
  ],
  [
    'what is worked out',
    (d) => {
      d.scenarios[0].let.now = 'worked';
    },
  ],
  [
    'a rule',
    (d) => {
      d.scenarios[0].asks[1].choose.rules[0].if = 'tail > 5 && worked';
    },
  ],
])('used by %s', (_, use) => {
  expect(unused(withCondition(use))).toEqual([]);
});

test.each<[string, Change]>([
  ['nothing', () => {}],
  [
    'a word of a text alone',
    (d) => {
      d.procedures[0].steps[0].why = 'It worked.';
    },
  ],
  [
    'a word in quotation marks in a formula',
    (d) => {
      d.scenarios[0].require = ['event != "worked"'];
    },
  ],
])('not used: %s', (_, use) => {
  expect(unused(withCondition(use))).toEqual(['condition-unused /conditions/3']);
});

// Nothing in the deck of abnormal procedures names the landing weight.
test.each([
  ['merrow-takeoff', []],
  ['merrow-abnormal', []],
  ['wind-altimetry', []],
] as const)('%s: %o', (name, places) => {
  expect(unused(JSON.parse(readFileSync(`decks/${name}.deck.json`, 'utf8')) as Deck)).toEqual(places);
});
