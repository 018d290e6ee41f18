import { describe, expect, test } from 'vitest';
import { typeOf } from '../../../../src/formula/check.ts';
import { FUNCTIONS } from '../../../../src/formula/functions.ts';
import { parse } from '../../../../src/formula/parse.ts';
import type { Json } from '../../../../src/lib/canonical-json.ts';
import {
  comparedChoices,
  FUNCTION_OFFERS,
  formulaHelp,
  joined,
  putIn,
  type Value,
} from '../../../../src/ui/workshop/fields/formula-help.ts';

const DOC: Json = {
  day: [{ id: 'v1', label: 'V1', unit: 'kt', from: 90, to: 120 }],
  conditions: [
    { id: 'packsOff', label: 'Packs', yes: 'Packs off', no: 'Packs on' },
    { id: 'flaps', label: 'Flaps', options: { one: '1', two: '2' } },
    { id: 'mass', label: 'Mass', unit: 't', from: 20, to: 30 },
  ],
  limits: [
    { id: 'gate', ask: 'Gate height', unit: 'ft', sense: 'at least', value: 500 },
    { id: 'band', ask: 'Band', unit: '°', sense: 'from-to', from: 5, to: 8 },
    { id: 'by-flaps', ask: 'Speed', unit: 'kt', sense: 'at most', cases: [{ id: 'a', given: { flaps: 'one' } }] },
    { id: 'by-engine', ask: 'Torque', unit: '%', sense: 'at most', cases: [{ id: 'a', when: { engine: 'x' } }] },
    { id: 'colour', ask: 'Colour', options: { red: 'Red' } },
    { id: 'cross-width', ask: 'Crosswind for the width', unit: 'kt', table: { rows: [] } },
  ],
  scenarios: [
    {
      id: 's',
      draw: { windSpeed: { from: 4, to: 20, label: 'Wind' }, event: { oneOf: { none: '', fire: 'Fire warning' } } },
      let: { cross: 'windSpeed * 1', strong: 'cross > 10', after: '2' },
      asks: [],
    },
  ],
};

const namesAt = (path: string): string[] => formulaHelp(DOC, path).values.map(({ name, kind }) => `${name} ${kind}`);
const SHARED = ['v1 number', 'packsOff boolean', 'flaps string', 'mass number'];

test('names that the formula at a place may use, with what they are', () => {
  const drawn = ['windSpeed number', 'event string'];
  expect(namesAt('/scenarios/0/require/0')).toEqual([
    ...drawn,
    'cross number',
    'strong boolean',
    'after number',
    ...SHARED,
  ]);
  // Only what stands above it can be used.
  expect(namesAt('/scenarios/0/let/strong')).toEqual([...drawn, 'cross number', ...SHARED]);
  expect(namesAt('/procedures/0/steps/1/if')).toEqual(SHARED);
  expect(namesAt('/day/0/require/0')).toEqual(['v1 number']);
});

test('events, choices, limits and tables are ready to be put in', () => {
  const help = formulaHelp(DOC, '/scenarios/0/require/0');
  expect(help.values.flatMap(comparedChoices)).toEqual([
    { text: 'event == "none"', words: 'nothing to show' },
    { text: 'event == "fire"', words: 'Fire warning' },
    { text: 'flaps == "one"', words: '1' },
    { text: 'flaps == "two"', words: '2' },
  ]);
  // What the checker takes in limit(): one number, whatever the conditions.
  expect(help.limits.map(({ text }) => text)).toEqual(['limit("gate")', 'limit("by-engine")']);
  expect(help.tables.map(({ text }) => text)).toEqual(['lookup("cross-width", value)']);
});

test('a draft of which nothing is right offers nothing', () => {
  expect(formulaHelp({ day: 'x', conditions: [1], limits: {}, scenarios: ['y'] }, '/scenarios/0/require/0')).toEqual({
    values: [],
    limits: [],
    tables: [],
  });
});

describe('functions', () => {
  test('each of the language is offered once, with a line', () => {
    const known = [...FUNCTIONS.keys()].filter((name) => name !== 'limit' && name !== 'lookup');
    expect(FUNCTION_OFFERS.map(({ text }) => text.split('(')[0]).sort()).toEqual(known.sort());
    expect(FUNCTION_OFFERS.every(({ words }) => words.length > 5)).toBe(true);
  });

  test.each(FUNCTION_OFFERS.map((offer) => [offer.text, offer] as const))(
    '%s can be read as it is put in',
    (text, offer) => {
      const read = parse(text);
      expect(read.ok && typeOf(read.tree, () => 'number')).toEqual({ ok: true, kind: 'number' });
      expect(`${text.slice(0, offer.over?.[0])}${text.slice(offer.over?.[1])}`).toMatch(/^\w+\(\)$/);
    },
  );
});

test('what is put in stands where the cursor was, set off from a word, with what is typed over', () => {
  expect(putIn('cross > ', 8, 8, { text: 'limit("a")', words: '' })).toEqual({
    text: 'cross > limit("a")',
    from: 18,
    to: 18,
  });
  expect(putIn('a + b', 1, 1, { text: 'abs(number)', words: '', over: [4, 10] })).toEqual({
    text: 'a abs(number) + b',
    from: 6,
    to: 12,
  });
  expect(putIn('round(x)', 6, 7, { text: 'cross', words: '' }).text).toBe('round(cross)');
});

const compared: Value = { name: 'x', words: '', kind: 'number', choices: [] };
test.each([
  ['', '&&', 'x > 1', 'x > 1'],
  ['a > 1', '&&', 'x > 1', 'a > 1 && x > 1'],
  ['a > 1', '||', 'x > 1', 'a > 1 || x > 1'],
  ['a > 1 || b > 1', '&&', 'x > 1', '(a > 1 || b > 1) && x > 1'],
  ['a > 1 ? b : c', '||', 'x > 1', '(a > 1 ? b : c) || x > 1'],
] as const)('“%s” %s “%s”', (whole, by, comparison, all) => {
  expect(comparedChoices(compared)).toEqual([]);
  expect(joined(whole, by, comparison)).toBe(all);
});
