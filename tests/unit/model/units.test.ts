import { expect, test } from 'vitest';
import { UNITS } from '../../../src/model/deck.ts';
import { UNIT_FACTS } from '../../../src/model/units.ts';

// UCUM (ucum.org): `{…}` annotates, `.` multiplies, `[lb_av]` is the avoirdupois pound.
test.each([
  ['rpm', '{rotation}/min'],
  ['lb/h', '[lb_av]/h'],
  ['N·m', 'N.m'],
  ['kg/h', 'kg/h'],
  ['kt', '[kn_i]'],
] as const)('%s is %s in UCUM', (unit, ucum) => {
  expect(UNITS).toContain(unit);
  expect(UNIT_FACTS[unit].ucum).toBe(ucum);
});

// The international pound is 0.45359237 kg (1959): 1000 kg/h are 2204.62 lb/h.
test('fuel flow taken for the other unit', () => {
  const [to] = UNIT_FACTS['kg/h'].factors ?? [];
  expect(to?.unit).toBe('lb/h');
  expect(1000 * (to?.factor ?? 0)).toBeCloseTo(2204.62, 2);
  for (const unit of UNITS)
    for (const { unit: other, factor } of UNIT_FACTS[unit].factors ?? []) {
      const back = UNIT_FACTS[other].factors?.find((one) => one.unit === unit);
      if (back !== undefined) expect(factor * back.factor).toBeCloseTo(1, 9);
    }
});
