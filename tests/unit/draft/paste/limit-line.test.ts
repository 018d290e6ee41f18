import { expect, test } from 'vitest';
import { readLimitLine } from '../../../../src/draft/paste/limit-line.ts';

// All numbers are invented.
test.each([
  [
    'Lowest height to engage the autopilot: at least 200 ft AAL',
    { ask: 'Lowest height to engage the autopilot', sense: 'at least', value: 200, unit: 'ft', reference: 'AAL' },
  ],
  ['3. Tailwind for take-off: max 10 kt', { ask: 'Tailwind for take-off', sense: 'at most', value: 10, unit: 'kt' }],
  [
    '• Cabin altitude: below 10,000 ft',
    { ask: 'Cabin altitude', sense: 'at most', strict: true, value: 10000, unit: 'ft' },
  ],
  ['QNH step: 1,25 hPa', { ask: 'QNH step', sense: 'exactly', value: 1.25, unit: 'hPa' }],
  ['Pressure\t29.92 inHg', { ask: 'Pressure', sense: 'exactly', value: 29.92, unit: 'inHg' }],
  ['N1 for take-off = 96.5 % N1', { ask: 'N1 for take-off', sense: 'exactly', value: 96.5, unit: '% N1' }],
  ['Torque ≤ 110 %', { ask: 'Torque', sense: 'at most', value: 110, unit: '%' }],
  ['Oil temperature: −40 to 110 °C', { ask: 'Oil temperature', sense: 'from-to', from: -40, to: 110, unit: '°C' }],
  ['Oil temperature: 60–95 °C', { ask: 'Oil temperature', sense: 'from-to', from: 60, to: 95, unit: '°C' }],
  [
    'Height: gear UP: about 12 000 ft (MSL)',
    { ask: 'Height: gear UP', sense: 'about', value: 12000, unit: 'ft', reference: 'MSL' },
  ],
  ['Rate: at most 3,000 ft/min', { ask: 'Rate', sense: 'at most', value: 3000, unit: 'ft/min' }],
  ['Mass: 1.250 t', { ask: 'Mass', sense: 'exactly', value: 1.25, unit: 't' }],
])('%s', (line, read) => {
  expect(readLimitLine(line)).toEqual(read);
});

test('runs of spaces are one, and a reference ends before its signs', () => {
  expect(readLimitLine('  -   Height \t  12   000   ft   (MSL ). ; ')).toEqual({
    ask: 'Height',
    sense: 'exactly',
    value: 12000,
    unit: 'ft',
    reference: 'MSL',
  });
});

// Each of these once took seconds: a pattern that is tried anew at each letter does not come to an end in time.
test.each([
  ['a file without line breaks', JSON.stringify(Array.from({ length: 2_000 }, (_, i) => ({ [`a${i}`]: ': 1' })))],
  ['colons and numbers', '": 1"'.repeat(10_000)],
  ['spaces within', `Height:${' '.repeat(50_000)}low`],
  ['signs behind', `Height: 200 ft ${')'.repeat(50_000)}x`],
  ['digits', `Height: ${'1 000'.repeat(10_000)}`],
])('a line of more than 1,000 letters is not read: %s', (_what, line) => {
  expect(readLimitLine(line)).toBeNull();
});

test('a value is looked for behind the last ten signs and no more', () => {
  expect(readLimitLine(`Height: 200 ft${': a'.repeat(9)}`)).toMatchObject({ ask: 'Height', value: 200 });
  expect(readLimitLine(`Height: 200 ft${': a'.repeat(10)}`)).toBeNull();
});

test('a line of 1,000 letters is read', () => {
  const ask = 'a'.repeat(1_000 - ': 200 ft'.length);
  expect(readLimitLine(`${ask}: 200 ft`)).toMatchObject({ ask, value: 200 });
  expect(readLimitLine(`${ask}a: 200 ft`)).toBeNull();
});

test.each([
  '',
  'Lowest height',
  'Lowest height: low',
  'Lowest height: 200',
  'Lowest height: 200 feet',
  ': 200 ft',
  'Speed: 5 ktx',
])('nothing is made up of “%s”', (line) => {
  expect(readLimitLine(line)).toBeNull();
});
