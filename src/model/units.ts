import type { Unit } from './deck.ts';

export interface UnitFact {
  /** UCUM code for interchange (ucum.org). Where UCUM has no unit, a dimensionless annotation. The knot is `[kn_i]`: `kt` is a kilotonne there. */
  readonly ucum: string;
  /** Counted in whole numbers by the trade: one mark before exactly three digits is then a thousands mark. */
  readonly whole: boolean;
  /** The same amount in a unit it is taken for: value × factor. */
  readonly factors?: readonly { readonly unit: Unit; readonly factor: number }[];
}

/**
 * Factors are exact by definition (international foot, nautical mile, pound) except inHg:
 * 33.8639 hPa, the conventional inch of mercury at 0 °C.
 */
export const UNIT_FACTS: Readonly<Record<Unit, UnitFact>> = {
  kt: {
    ucum: '[kn_i]',
    whole: true,
    factors: [
      { unit: 'km/h', factor: 1.852 },
      { unit: 'm/s', factor: 1852 / 3600 },
    ],
  },
  'm/s': {
    ucum: 'm/s',
    whole: false,
    factors: [
      { unit: 'kt', factor: 3600 / 1852 },
      { unit: 'km/h', factor: 3.6 },
    ],
  },
  'km/h': {
    ucum: 'km/h',
    whole: true,
    factors: [
      { unit: 'kt', factor: 1 / 1.852 },
      { unit: 'm/s', factor: 1 / 3.6 },
    ],
  },
  Mach: { ucum: '{Mach}', whole: false },
  ft: { ucum: '[ft_i]', whole: true, factors: [{ unit: 'm', factor: 0.3048 }] },
  m: { ucum: 'm', whole: true, factors: [{ unit: 'ft', factor: 1 / 0.3048 }] },
  NM: { ucum: '[nmi_i]', whole: false, factors: [{ unit: 'km', factor: 1.852 }] },
  km: { ucum: 'km', whole: false, factors: [{ unit: 'NM', factor: 1 / 1.852 }] },
  FL: { ucum: '{FL}', whole: true },
  'ft/min': { ucum: '[ft_i]/min', whole: true, factors: [{ unit: 'm/s', factor: 0.3048 / 60 }] },
  'ft/NM': { ucum: '[ft_i]/[nmi_i]', whole: true },
  '°': { ucum: 'deg', whole: true },
  '°/s': { ucum: 'deg/s', whole: false },
  '°C': { ucum: 'Cel', whole: false },
  hPa: { ucum: 'hPa', whole: true, factors: [{ unit: 'inHg', factor: 1 / 33.8639 }] },
  inHg: { ucum: "[in_i'Hg]", whole: false, factors: [{ unit: 'hPa', factor: 33.8639 }] },
  psi: { ucum: '[psi]', whole: true },
  kg: { ucum: 'kg', whole: true, factors: [{ unit: 'lb', factor: 1 / 0.45359237 }] },
  t: { ucum: 't', whole: false },
  lb: { ucum: '[lb_av]', whole: true, factors: [{ unit: 'kg', factor: 0.45359237 }] },
  'kg/h': { ucum: 'kg/h', whole: true, factors: [{ unit: 'lb/h', factor: 1 / 0.45359237 }] },
  'lb/h': { ucum: '[lb_av]/h', whole: true, factors: [{ unit: 'kg/h', factor: 0.45359237 }] },
  N·m: { ucum: 'N.m', whole: true },
  rpm: { ucum: '{rotation}/min', whole: true },
  s: { ucum: 's', whole: false },
  min: { ucum: 'min', whole: false },
  h: { ucum: 'h', whole: false },
  days: { ucum: 'd', whole: true },
  months: { ucum: 'mo', whole: true },
  '%': { ucum: '%', whole: false },
  '% N1': { ucum: '%{N1}', whole: false },
  EPR: { ucum: '{EPR}', whole: false },
  g: { ucum: '[g]', whole: false },
  dot: { ucum: '{dot}', whole: false },
  V: { ucum: 'V', whole: false },
  SM: { ucum: '[mi_i]', whole: false },
  MHz: { ucum: 'MHz', whole: false },
  '×': { ucum: '{count}', whole: true },
};
