import { describe, expect, it, test } from 'vitest';
import { densityAltitude, isaTemperature, pressureAltitude, trueAirspeed } from '../../src/formula/flight.ts';

/** hPa: the conventional inch of mercury at 0 °C, NIST SP 811 (from memory). */
const IN_HG = 33.86389;
const inside = (value: number, expected: number, tolerance: number): void =>
  expect(Math.abs(value - expected), `${value} against ${expected}`).toBeLessThanOrEqual(tolerance + 1e-9);

// 14 CFR Part 43 Appendix E (Amdt. 43-49), Table I: pressure altitude in ft, its pressure in inHg to 0.001.
const TABLE_I: readonly (readonly [number, number])[] = [
  [0, 29.921],
  [2_000, 27.821],
  [4_000, 25.842],
  [8_000, 22.225],
  [12_000, 19.029],
  [16_000, 16.216],
  [20_000, 13.75],
  [30_000, 8.885],
  [40_000, 5.538],
  [50_000, 3.425],
];
it.each(TABLE_I)('%i ft is %f inHg (14 CFR Part 43 Appendix E Table I)', (ft, inHg) => {
  expect(pressureAltitude(0, (inHg + 0.001) * IN_HG)).toBeLessThan(ft);
  expect(pressureAltitude(0, (inHg - 0.001) * IN_HG)).toBeGreaterThan(ft);
});

// 14 CFR Part 43 Appendix E, Table IV: the change of indicated altitude by setting; pressure altitude takes it off.
it.each([
  [28.1, -1727],
  [29, -863],
  [29.92, 0],
  [30.9, 893],
])('setting %f inHg: %i ft (14 CFR Part 43 Appendix E Table IV)', (setting, change) => {
  inside(pressureAltitude(0, setting * IN_HG), -change, 1.5);
  inside(pressureAltitude(4_321, setting * IN_HG), 4_321 - change, 1.5);
});

test('pressure altitude as the National Weather Service computes it: (1 - (p/1013.25)^0.190284) 145366.45', () => {
  // Its rounded constants fit altimeter settings; at 700 hPa it is 4 ft below the standard's 9,882 ft.
  for (let p = 950; p <= 1050; p += 5) inside(pressureAltitude(0, p), (1 - (p / 1013.25) ** 0.190284) * 145_366.45, 1);
  expect(pressureAltitude(250, 1013.25)).toBe(250);
});

// FAA-H-8083-25 Figure 4-3, °C to one decimal (at 8,000 ft it has -0.9 for -0.8496).
it.each([
  [0, 15],
  [1_000, 13],
  [2_000, 11],
  [3_000, 9.1],
  [4_000, 7.1],
  [5_000, 5.1],
  [6_000, 3.1],
  [7_000, 1.1],
  [8_000, -0.9],
  [9_000, -2.8],
  [10_000, -4.8],
  [12_000, -8.8],
  [15_000, -14.7],
  [18_000, -20.7],
  [20_000, -24.6],
])('%i ft: %f °C (FAA-H-8083-25 Figure 4-3)', (ft, celsius) => {
  inside(isaTemperature(ft), celsius, 0.051);
});

// Constants of ICAO Doc 7488 / ISO 2533, computed apart from this program: ft, °C, hPa, kg/m³.
const ISA: readonly (readonly [number, number, number, number])[] = [
  [0, 15, 1013.25, 1.225],
  [5_000, 5.09, 843.07, 1.0555],
  [10_000, -4.81, 696.82, 0.9046],
  [30_000, -44.44, 300.9, 0.4583],
  [36_089, -56.5, 226.32, 0.3639],
];
describe.each(ISA)('standard atmosphere at %i ft', (ft, celsius, hPa, density) => {
  it('temperature', () => inside(isaTemperature(ft), celsius, 0.01));
  it('pressure', () => {
    expect(pressureAltitude(0, hPa + 0.02)).toBeLessThan(ft);
    expect(pressureAltitude(0, hPa - 0.02)).toBeGreaterThan(ft);
  });
  it('density, by true airspeed: EAS √(ρ0/ρ) (14 CFR 1.1)', () => {
    const tas = trueAirspeed(200, ft, isaTemperature(ft));
    expect(tas).toBeGreaterThan(200 * Math.sqrt(1.225 / (density + 0.0001)));
    expect(tas).toBeLessThan(200 * Math.sqrt(1.225 / (density - 0.0001)));
  });
});

test('temperature falls 1.9812 °C in 1,000 ft, to -56.5 °C at 36,089 ft and no further (ISO 2533)', () => {
  inside(isaTemperature(0) - isaTemperature(1_000), 1.9812, 1e-9);
  inside(isaTemperature(36_089), -56.5, 0.001);
  expect(isaTemperature(36_090)).toBe(isaTemperature(60_000));
  expect(isaTemperature(36_080)).toBeGreaterThan(-56.5);
});

test('5,718 ft and 70 °F: density altitude 7,709 ft; a chart reads 7,700 (FAA handbook, Sample Problem 1)', () => {
  const found = densityAltitude(5_718, (70 - 32) / 1.8);
  inside(found, 7_709, 1);
  inside(found, 7_700, 150);
});

test('density altitude as the National Weather Service computes it, dry: 145366 (1 - (17.326 inHg / °R)^0.235)', () => {
  for (const inHg of [24, 26, 28, 29.92]) {
    for (const celsius of [-20, 0, 15, 35]) {
      const rankine = (celsius + 273.15) * 1.8;
      const theirs = 145_366 * (1 - ((17.326 * inHg) / rankine) ** 0.235);
      // Its exponent has three digits: 0.2350 for 0.23497.
      inside(densityAltitude(pressureAltitude(0, inHg * IN_HG), celsius), theirs, 20);
    }
  }
});

test('standard air is as dense as at its own height, also above the tropopause (definition)', () => {
  for (const ft of [-1_000, 0, 8_000, 36_000, 36_089, 36_090, 40_000, 60_000])
    inside(densityAltitude(ft, isaTemperature(ft)), ft, 1e-6);
});

test('thin or warm air makes true airspeed greater, by the root of the density ratio (14 CFR 1.1; gas law)', () => {
  inside(trueAirspeed(100, 0, 15), 100, 1e-9);
  inside(trueAirspeed(100, 0, 15 + 288.15), 100 * Math.SQRT2, 1e-9);
  // Four times the temperature at one pressure: a quarter of the density.
  inside(trueAirspeed(90, 0, 4 * 288.15 - 273.15), 180, 1e-9);
});

test('outside the two layers, and where air cannot be, there is no value', () => {
  for (const ft of [-16_500, 65_700, Number.NaN]) {
    expect(isaTemperature(ft)).toBeNaN();
    expect(densityAltitude(ft, 15)).toBeNaN();
    expect(trueAirspeed(100, ft, 15)).toBeNaN();
  }
  for (const hPa of [0, -5, 20, 2000]) expect(pressureAltitude(0, hPa)).toBeNaN();
  for (const oat of [-273.15, -300]) {
    expect(densityAltitude(0, oat)).toBeNaN();
    expect(trueAirspeed(100, 0, oat)).toBeNaN();
  }
});
