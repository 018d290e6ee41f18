import { describe, expect, test } from 'vitest';
import { readNumber } from '../../../src/forms/limit/read-number.ts';
import type { Show, Unit } from '../../../src/model/deck.ts';

const NB = '\u00a0';
/** [typed, unit, value, echo with plain spaces, show] */
const good: [string, Unit, number, string, Show?][] = [
  ['250', 'kt', 250, '250 kt'],
  [' 250 kt ', 'kt', 250, '250 kt'],
  ['250kt', 'kt', 250, '250 kt'],
  ['1.500', 'ft', 1500, '1500 ft'],
  ['1,500', 'ft', 1500, '1500 ft'],
  ['1 500', 'ft', 1500, '1500 ft'],
  ["1'500", 'ft', 1500, '1500 ft'],
  ['1\u202f500', 'ft', 1500, '1500 ft'],
  ['12.500', 'kg', 12500, '12 500 kg'],
  ['1.500.000', 'kg', 1500000, '1 500 000 kg'],
  ['1,500.5', 'kg', 1500.5, '1500.5 kg'],
  ['1.500,5', 'kg', 1500.5, '1500.5 kg'],
  ['1 500,5', 'kg', 1500.5, '1500.5 kg'],
  ['1.50', 'ft', 1.5, '1.5 ft'],
  ['1.5000', 'ft', 1.5, '1.5 ft'],
  // Not counted in whole numbers: a mark is a decimal mark.
  ['1.500', 'NM', 1.5, '1.5 NM'],
  ['1,500', 'h', 1.5, '1.5 h'],
  ['0.750', 'ft', 0.75, '0.75 ft'],
  ['0,750', 'SM', 0.75, '0.75 SM'],
  ['.5', 'NM', 0.5, '0.5 NM'],
  ['5,', 'NM', 5, '5 NM'],
  ['1013.25', 'hPa', 1013.25, '1013.25 hPa'],
  ['29,92', 'inHg', 29.92, '29.92 inHg'],
  ['29.9', 'inHg', 29.9, '29.90 inHg'],
  ['-5', '°C', -5, '\u22125 °C'],
  ['\u0668\u0665', 'kt', 85, '85 kt'],
  ['\u06f8\u06f5', 'kt', 85, '85 kt'],
  ['\uff18\uff15', 'kt', 85, '85 kt'],
  ['\u0661\u066b\u0665', 'NM', 1.5, '1.5 NM'],
  ['\u0661\u066c\u0665\u0660\u0660', 'ft', 1500, '1500 ft'],
  ['\uff0d5', '°C', -5, '\u22125 °C'],
  ['\u20145', '°C', -5, '\u22125 °C'],
  ['\u22125', '°C', -5, '\u22125 °C'],
  ['- 5 °C', '°C', -5, '\u22125 °C'],
  ['-0', '°C', 0, '0 °C'],
  ['15°', '°', 15, '15°'],
  ['50 % N1', '% N1', 50, '50 % N1'],
  ['180', 'FL', 180, 'FL 180'],
  ['FL180', 'FL', 180, 'FL 180'],
  ['fl 60', 'FL', 60, 'FL 060'],
  ['FL180', 'ft', 18000, 'FL 180', 'flight-level'],
  ['M 0.78', 'Mach', 0.78, 'M 0.78'],
  ['Mach ,8', 'Mach', 0.8, 'M 0.80'],
  ['M.78', 'Mach', 0.78, 'M 0.78'],
  ['0', '°', 360, '360°', 'direction'],
  ['000', '°', 360, '360°', 'direction'],
  ['360°', '°', 360, '360°', 'direction'],
  ['7', '°', 7, '007°', 'direction'],
  ['07L', '°', 70, '07L', 'runway'],
  ['7', '°', 70, '07', 'runway'],
  ['rwy 25 r', '°', 250, '25R', 'runway'],
  ['250', '°', 250, '25', 'runway'],
  ['00', '°', 360, '36', 'runway'],
  ['2', 'dot', 2, '2 dot'],
];

describe('a number as it is typed', () => {
  test.each(good)('%j in %s is %d', (text, unit, value, echo, show) => {
    expect(readNumber(text, unit, show)).toEqual({ ok: true, value, echo: echo.replaceAll(' ', NB) });
  });

  test.each<[string, Unit, string, Show?]>([
    ['', 'kt', 'empty'],
    ['   ', 'kt', 'empty'],
    ['abc', 'kt', 'not-a-number'],
    ['-', 'kt', 'not-a-number'],
    ['.', 'kt', 'not-a-number'],
    ['2/1', 'kt', 'not-a-number'],
    ['1.2.3', 'kt', 'marks'],
    ['1,5.5,5', 'kt', 'marks'],
    ['1.50.000', 'ft', 'marks'],
    ['1 50', 'ft', 'marks'],
    ['0.750.000', 'ft', 'marks'],
    ['250 km/h', 'kt', 'unit'],
    ['FL180', 'kt', 'unit'],
    ['M 0.78', 'kt', 'unit'],
    ['400', '°', 'range', 'direction'],
    ['-10', '°', 'range', 'direction'],
    ['37', '°', 'range', 'runway'],
    ['07X', '°', 'not-a-number', 'runway'],
    ['Infinity', 'kt', 'not-a-number'],
    ['1e5', 'kt', 'not-a-number'],
    ['<b>5</b>', 'kt', 'not-a-number'],
  ])('%j in %s is refused: %s', (text, unit, code, show) => {
    expect(readNumber(text, unit, show)).toEqual({ ok: false, code });
  });
});
