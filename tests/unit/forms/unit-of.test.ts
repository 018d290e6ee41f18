import { expect, test } from 'vitest';
import { unitOf } from '../../../src/forms/scenario/unit-of.ts';
import { parseFormula } from '../../../src/subjects/formulas.ts';
import { scenarioDeck } from './small-decks.ts';

const all = scenarioDeck(
  {
    draw: {
      speed: { from: 90, to: 99, unit: 'kt' },
      bare: { from: 1, to: 9 },
      oat: { oneOf: [10], unit: '°C' },
      level: { oneOf: [350], unit: 'FL', show: 'flight-level' },
    },
    let: {
      cross: 'abs(crosswind(bare, bare, bare))',
      excess: 'cross - limit("most")',
      hot: 'oat > 27 ? oat - 27 : 0',
      minutes: '60 * bare / speed',
      gate: 'min(elevation + 400, 3000)',
      asked: 'bare * 2',
    },
    asks: [
      { id: 'a', ask: 'How much?', number: 'asked', unit: 'NM' },
      { id: 'b', ask: 'How long?', number: 'minutes + excess + hot + gate', unit: 'min' },
    ],
  },
  {
    day: [{ id: 'elevation', label: 'Elevation', unit: 'ft', from: 100, to: 200 }],
    limits: [{ id: 'most', ask: 'Most?', unit: 'kt', sense: 'at most', value: 20 }],
  },
);
const [view] = all.views;
const [scenario] = view?.scenarios ?? [];

test.each([
  ['speed', { unit: 'kt' }],
  ['level', { unit: 'FL', show: 'flight-level' }],
  ['cross', { unit: 'kt' }],
  ['excess', { unit: 'kt' }],
  ['-excess', { unit: 'kt' }],
  ['hot', { unit: '°C' }],
  ['gate', { unit: 'ft' }],
  ['limit("most")', { unit: 'kt' }],
  ['asked', { unit: 'NM' }],
  ['isaTemperature(bare) + 3', { unit: '°C' }],
  // A product is of another unit, which nobody has named.
  ['minutes', null],
  ['bare', null],
  ['400', null],
  ['limit("gone")', null],
  ['cross > 3', null],
  ['sqrt(speed)', null],
])('%s', (text, said) => {
  const tree = parseFormula(text);
  if (tree === null || scenario === undefined) throw new Error(text);
  expect(unitOf(all.deck, scenario, tree)).toEqual(said);
});
