import { expect, test } from 'vitest';
import type { LimitShown, NextShown, NumberField, RunShown, ScenarioShown } from '../../../src/model/form.ts';
import { givenOf } from '../../../src/ui/forms/given.ts';
import { draftComplete } from '../../../src/ui/forms/registry.ts';

const run: RunShown = {
  form: 'run',
  title: 'Start',
  scene: [],
  drawn: {},
  before: ['Cleared'],
  chips: [
    { id: 'a', text: 'A' },
    { id: 'b', text: 'B' },
    { id: 'stranger-0', text: 'C' },
  ],
};
const limit = (...fields: NumberField[]): LimitShown => ({
  form: 'limit',
  ask: 'How high?',
  scene: [],
  drawn: {},
  fields,
  choices: [],
});
const height: NumberField = { label: 'Height', unit: 'ft', reference: 'AAL', sense: 'at least' };
const choice: ScenarioShown = {
  form: 'scenario',
  seed: 1,
  drawn: {},
  situation: 'Wind',
  scene: [],
  ask: 'Go?',
  fields: [],
  choices: [
    { id: 'yes', text: 'Go' },
    { id: 'no', text: 'Stop' },
  ],
  picture: null,
};

test('a run is what was numbered, in that order; nothing numbered is nothing given', () => {
  expect(givenOf(run, { order: ['b', 'stranger-0'] })).toEqual({ order: ['b', 'stranger-0'] });
  expect(givenOf(run, { order: [] })).toBeNull();
  expect(givenOf(run, {})).toBeNull();
});

test('a run need not hold every row: leaving a step out is possible', () => {
  expect(draftComplete(run, { order: ['a'] })).toBe(true);
});

test('rows that the question does not have are passed over, as in a draft kept from an older one', () => {
  expect(givenOf(run, { order: ['x', 'a', 'y'] })).toEqual({ order: ['a'] });
  expect(givenOf(run, { order: ['x'] })).toBeNull();
});

test('a number keeps what was typed beside how it was read', () => {
  expect(givenOf(limit(height), { typed: ['1.500'] })).toEqual({ typed: ['1.500'], value: [1500] });
  expect(givenOf(limit({ label: 'Rate', unit: '°/s' }), { typed: ['2,5'] })).toEqual({ typed: ['2,5'], value: [2.5] });
  expect(givenOf(limit(height), { typed: ['\u2212200'] })).toEqual({ typed: ['\u2212200'], value: [-200] });
});

test.each([
  ['nothing typed', {}],
  ['an empty field', { typed: [''] }],
  ['words', { typed: ['high'] }],
  ['marks that do not fit together', { typed: ['1.5.00,0'] }],
  ['another unit', { typed: ['200 kt'] }],
])('%s is not complete', (_, draft) => {
  expect(givenOf(limit(height), draft)).toBeNull();
  expect(draftComplete(limit(height), draft)).toBe(false);
});

test('of two numbers both are needed', () => {
  const band = limit({ label: 'From', unit: 'kt' }, { label: 'To', unit: 'kt' });
  expect(givenOf(band, { typed: ['9'] })).toBeNull();
  expect(givenOf(band, { typed: ['', '17'] })).toBeNull();
  expect(givenOf(band, { typed: ['9', '17'] })).toEqual({ typed: ['9', '17'], value: [9, 17] });
  // What was typed beyond the fields belongs to nothing.
  expect(givenOf(band, { typed: ['9', '17', '25'] })).toEqual({ typed: ['9', '17'], value: [9, 17] });
});

test('a choice is one of those shown', () => {
  expect(givenOf(choice, { choice: 'no' })).toEqual({ choice: 'no' });
  expect(givenOf(choice, { choice: 'maybe' })).toBeNull();
  expect(givenOf(choice, { typed: ['1'] })).toBeNull();
});

test('a question with neither fields nor choices takes no answer', () => {
  expect(givenOf(limit(), { typed: ['1'], choice: 'no', order: ['a'] })).toBeNull();
});

test('what comes next is one of the choices', () => {
  const next: NextShown = {
    form: 'next',
    title: 'Start',
    scene: [],
    drawn: {},
    before: ['Cleared'],
    ask: 'What comes next?',
    choices: [
      { id: 'a', text: 'A' },
      { id: 'stranger-0', text: 'B' },
    ],
  };
  expect(givenOf(next, {})).toBe(null);
  expect(givenOf(next, { choice: 'c' })).toBe(null);
  expect(givenOf(next, { choice: 'stranger-0' })).toEqual({ choice: 'stranger-0' });
  expect(givenOf({ ...next, choices: [] }, { choice: 'a' })).toBe(null);
});
