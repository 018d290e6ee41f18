import { expect, test } from 'vitest';
import { type Show, UNITS, type Unit } from '../../../src/model/deck.ts';
import { tradeForm } from '../../../src/model/trade-form.ts';
import { UNIT_FACTS } from '../../../src/model/units.ts';

test.each<[number, Unit | null, string, (Show | undefined)?, (string | undefined)?]>([
  [250, 'kt', '250 kt', undefined],
  [200, 'ft', '200 ft AAL', undefined, 'AAL'],
  [10000, 'ft', '10 000 ft', undefined],
  [-4, 'kt', '\u22124 kt', undefined],
  [70, '°', '070°', 'direction'],
  [0, '°', '360°', 'direction'],
  [360, null, '360', 'direction'],
  [70, null, '07', 'runway'],
  [0, null, '36', 'runway'],
  [180, 'FL', 'FL 180', undefined],
  [18000, 'ft', 'FL 180', 'flight-level'],
  [0.8, 'Mach', 'M 0.80', undefined],
  [1.05, 'EPR', '1.05 EPR', undefined],
  [50, '% N1', '50 % N1', undefined],
  [3, '×', '3×', undefined],
  [0.1 + 0.2, 'NM', '0.3 NM', undefined],
  [1.5, null, '1.5', undefined],
])('%d in %s reads %j', (value, unit, words, show, reference) => {
  expect(tradeForm(value, unit, show, reference).replaceAll('\u00a0', ' ')).toBe(words);
});

test('the knot is not the kilotonne of UCUM, and every unit has a code', () => {
  expect(UNIT_FACTS.kt.ucum).toBe('[kn_i]');
  expect(UNITS.filter((u) => !UNIT_FACTS[u].ucum)).toEqual([]);
});

test('factors there and back agree (international foot, nautical mile and pound: NIST SP 811)', () => {
  for (const unit of UNITS) {
    for (const { unit: other, factor } of UNIT_FACTS[unit].factors ?? []) {
      const back = UNIT_FACTS[other].factors?.find((f) => f.unit === unit);
      if (back) expect(factor * back.factor).toBeCloseTo(1, 12);
    }
  }
  expect(UNIT_FACTS.kt.factors?.[1]?.factor).toBeCloseTo(0.514444, 6);
  expect(UNIT_FACTS.kg.factors?.[0]?.factor).toBeCloseTo(2.204623, 6);
});
