import { describe, expect, it, test } from 'vitest';
import { crosswind, headwind } from '../../src/formula/flight.ts';

/** Runways and sides: an angle off from either side must give the same components. */
const RUNWAYS = [10, 70, 180, 250, 360];

// Trigonometry, one decimal, computed apart from this program; the crosswind component chart of FAA-H-8083-25,
// Figure 11-31, draws the same. [headwind, crosswind] of a 10 kt wind 0, 10 … 90° off; both are linear in the speed.
const OFF: readonly (readonly [number, number])[] = [
  [10, 0],
  [9.8, 1.7],
  [9.4, 3.4],
  [8.7, 5],
  [7.7, 6.4],
  [6.4, 7.7],
  [5, 8.7],
  [3.4, 9.4],
  [1.7, 9.8],
  [0, 10],
];
// The same for 40 kt, where a wrong second decimal would show.
const OFF_40: readonly (readonly [number, number])[] = [
  [40, 0],
  [39.4, 6.9],
  [37.6, 13.7],
  [34.6, 20],
  [30.6, 25.7],
  [25.7, 30.6],
  [20, 34.6],
  [13.7, 37.6],
  [6.9, 39.4],
  [0, 40],
];

describe.each([
  [10, OFF],
  [40, OFF_40],
] as const)('%i kt', (speed, rows) => {
  it.each(rows.map(([head, cross], i) => [10 * i, head, cross] as const))('%i° off', (angle, head, cross) => {
    for (const runway of RUNWAYS) {
      for (const side of [1, -1]) {
        const from = runway + side * angle;
        expect(Math.abs(headwind(from, speed, runway) - head)).toBeLessThanOrEqual(0.05 + 1e-9);
        expect(Math.abs(crosswind(from, speed, runway) - side * cross)).toBeLessThanOrEqual(0.05 + 1e-9);
        // From behind: a tailwind is a headwind below zero (definition).
        expect(Math.abs(headwind(from + 180, speed, runway) + head)).toBeLessThanOrEqual(0.05 + 1e-9);
      }
    }
  });
});

test('40 kt 30° off: 35 along, 20 across (trigonometry; common chart example)', () => {
  expect(headwind(30, 40, 360)).toBeCloseTo(34.641, 3);
  expect(crosswind(30, 40, 360)).toBeCloseTo(20, 9);
});

test('square across there is no headwind at all, along no crosswind (cos 90° = sin 0° = 0)', () => {
  for (let runway = 10; runway <= 360; runway += 10) {
    for (const turns of [-360, 0, 360]) {
      expect(headwind(runway + 90 + turns, 17, runway)).toBe(0);
      expect(headwind(runway - 90 + turns, 17, runway)).toBe(0);
      expect(crosswind(runway + 90 + turns, 17, runway)).toBe(17);
      expect(crosswind(runway - 90 + turns, 17, runway)).toBe(-17);
      expect(crosswind(runway + turns, 17, runway)).toBe(0);
      expect(crosswind(runway + 180 + turns, 17, runway)).toBe(0);
      expect(headwind(runway + turns, 17, runway)).toBe(17);
      expect(headwind(runway + 180 + turns, 17, runway)).toBe(-17);
    }
  }
});

test('a degree off square turns the sign, one on each side', () => {
  expect(headwind(89, 10, 360)).toBeCloseTo(0.1745, 4);
  expect(headwind(91, 10, 360)).toBeCloseTo(-0.1745, 4);
  expect(crosswind(1, 10, 360)).toBeCloseTo(0.1745, 4);
  expect(crosswind(359, 10, 360)).toBeCloseTo(-0.1745, 4);
});

test('360° is 0° (definition)', () => {
  for (const from of [10, 90, 200]) {
    expect(headwind(from, 20, 360)).toBe(headwind(from, 20, 0));
    expect(crosswind(360, 20, from)).toBe(crosswind(0, 20, from));
  }
});
