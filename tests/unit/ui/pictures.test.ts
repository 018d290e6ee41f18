import { describe, expect, test } from 'vitest';
import { type PitchSketch, pitchSketch } from '../../../src/ui/pictures/pitch.ts';
import {
  extent,
  POINT,
  type Point,
  partsWords,
  turned,
  type WindParts,
  windParts,
} from '../../../src/ui/pictures/wind.ts';

const partsOf = (windDir: number, windSpeed: number, runway: number): WindParts => {
  const parts = windParts({ runway, windDir, windSpeed });
  if (parts === null) throw new Error('no parts');
  return parts;
};
const lengthOf = (arrow: WindParts['along']): number =>
  arrow === null ? 0 : Math.hypot(arrow.point[0] - arrow.tail[0], arrow.point[1] - arrow.tail[1]);

describe('the wind along and across a runway', () => {
  // headwind = speed × cos, crosswind = speed × sin of the angle between (FAA-H-8083-25, Figure 11-31): cos 30° = 0.866.
  test.each([
    [270, 20, 240, 17, 10, 'Headwind 17\u00a0kt, crosswind 10\u00a0kt from the right'],
    [210, 20, 240, 17, -10, 'Headwind 17\u00a0kt, crosswind 10\u00a0kt from the left'],
    [90, 20, 240, -17, -10, 'Tailwind 17\u00a0kt, crosswind 10\u00a0kt from the left'],
    [30, 40, 360, 35, 20, 'Headwind 35\u00a0kt, crosswind 20\u00a0kt from the right'],
    [70, 12, 70, 12, 0, 'Headwind 12\u00a0kt, no crosswind'],
    [160, 12, 70, 0, 12, 'No headwind or tailwind, crosswind 12\u00a0kt from the right'],
    [100, 0, 70, 0, 0, 'No headwind or tailwind, no crosswind'],
  ])('%i° at %i kt on %i°', (windDir, windSpeed, runway, head, cross, words) => {
    const parts = partsOf(windDir, windSpeed, runway);
    expect([parts.head, parts.cross]).toEqual([head, cross]);
    expect(partsWords(parts)).toBe(words);
    expect([parts.along === null, parts.across === null]).toEqual([head === 0, cross === 0]);
  });

  test('each arrow points where the air goes: against the way of a headwind, away from the side it comes from', () => {
    const right = partsOf(30, 40, 360);
    // y grows downwards, and the runway is used upwards.
    expect(right.along?.point[1]).toBeGreaterThan(right.along?.tail[1] ?? Number.NaN);
    expect(right.across?.point[0]).toBeLessThan(right.across?.tail[0] ?? Number.NaN);
    expect(right.across?.tail[0]).toBeGreaterThan(0);
    const behind = partsOf(210, 40, 360);
    expect(behind.along?.point[1]).toBeLessThan(behind.along?.tail[1] ?? Number.NaN);
    expect(behind.across?.tail[0]).toBeLessThan(0);
  });

  test('their lengths are to one scale: at 45° equal (sin = cos), at 30° as √3 to 1', () => {
    const even = partsOf(45, 20, 360);
    expect(lengthOf(even.along)).toBeCloseTo(lengthOf(even.across), 6);
    const off = partsOf(30, 20, 360);
    expect(lengthOf(off.along) / lengthOf(off.across)).toBeCloseTo(Math.sqrt(3), 6);
  });

  test('nothing touches the arrow of the wind nor leaves the picture, however it blows', () => {
    for (let windDir = 0; windDir < 360; windDir += 5) {
      for (const windSpeed of [1, 7, 60]) {
        const { along, across } = partsOf(windDir, windSpeed, 240);
        const [top, bottom] = extent(windDir);
        for (const arrow of [along, across]) {
          for (const end of [arrow?.tail, arrow?.point, arrow?.figure]) {
            if (end === undefined) continue;
            expect(end.every(Number.isFinite)).toBe(true);
            const [x, y] = turned(end, 240);
            // Half a figure of two digits is 10 wide and 6 high.
            expect(Math.hypot(x, y) + Math.hypot(10, 6)).toBeLessThan(POINT);
            expect(y - 6).toBeGreaterThan(top);
            expect(y + 6).toBeLessThan(bottom);
          }
        }
      }
    }
  });

  test('a quarter turn clockwise brings what is above to the right', () => {
    const [x, y] = turned([0, -10], 90) as Point;
    expect(x).toBeCloseTo(10, 9);
    expect(y).toBeCloseTo(0, 9);
  });

  test('without a number there is no picture', () => {
    expect(windParts({ runway: Number.NaN, windDir: 270, windSpeed: 20 })).toBe(null);
    expect(windParts({ runway: 240, windDir: 270, windSpeed: Number.POSITIVE_INFINITY })).toBe(null);
  });
});

const sketchOf = (...degrees: number[]): PitchSketch => {
  const sketch = pitchSketch(degrees);
  if (sketch === null) throw new Error('no sketch');
  return sketch;
};
/** °, of a point against the horizon. */
const angleOf = ({ x, y }: { readonly x: number; readonly y: number }): number => (Math.atan2(-y, x) * 180) / Math.PI;

describe('a pitch against the horizon', () => {
  test.each([0, 2.5, 10.2, 16.5, 20, -3.5, -20])('%d° is drawn as it is', (degrees) => {
    const sketch = sketchOf(degrees);
    expect(sketch.attitude).toBe(degrees);
    expect(sketch.rays.map(angleOf)[0]).toBeCloseTo(degrees, 1);
    expect(sketch.beyond).toBe(null);
    expect(sketch.band).toBe(null);
  });

  test('13.5°: on an arc of 158 it stands 158 × sin 13.5° = 36.9 above the horizon (trigonometry)', () => {
    const [ray] = sketchOf(13.5).rays;
    expect(ray?.y).toBeCloseTo(-36.9, 1);
    expect(ray?.x).toBeCloseTo(153.6, 1);
  });

  test('the ends of a band stand apart, the aeroplane between them', () => {
    const sketch = sketchOf(5, 8);
    expect(sketch.attitude).toBe(6.5);
    expect(sketch.rays.map(({ degrees }) => degrees)).toEqual([8, 5]);
    expect(sketch.band).not.toBe(null);
    expect((sketch.rays[1]?.figure ?? 0) - (sketch.rays[0]?.figure ?? 0)).toBeGreaterThanOrEqual(19);
  });

  test('beyond 20° the drawing ends, and says so', () => {
    expect(sketchOf(27).attitude).toBe(20);
    expect(sketchOf(-45).attitude).toBe(-20);
    for (const degrees of [20.1, 27, -45]) expect(sketchOf(degrees).beyond).not.toBe(null);
    expect(sketchOf(10, 30).rays.map(({ degrees }) => degrees)).toEqual([30, 10]);
  });

  test('whatever the angles, nothing that is written overlaps or leaves the picture', () => {
    for (let low = -45; low <= 45; low += 1.5) {
      for (const wide of [0, 0.5, 3, 20]) {
        const { rays, horizon, beyond, top, bottom, arc, band } = sketchOf(low, low + wide);
        const written = [
          ...rays.map(({ figure }) => [figure, 19]),
          [horizon, 17],
          ...(beyond === null ? [] : [[beyond, 17]]),
        ];
        const sorted = (written as [number, number][]).sort(([a], [b]) => a - b);
        sorted.forEach(([at, size], i) => {
          expect(at - size / 2).toBeGreaterThan(top);
          expect(at + size / 2).toBeLessThan(bottom);
          const [before, its] = sorted[i - 1] ?? [Number.NEGATIVE_INFINITY, 0];
          expect(at - before).toBeGreaterThanOrEqual((size + its) / 2 - 1e-9);
        });
        // The horizon is drawn through no figure.
        for (const { figure } of rays) expect(Math.abs(figure)).toBeGreaterThan(19 / 2);
        expect(`${arc}${band}`).not.toMatch(/NaN|undefined|Infinity/);
        expect(bottom - top).toBeLessThan(170);
      }
    }
  });

  test('without a number there is no picture', () => {
    expect(pitchSketch([])).toBe(null);
    expect(pitchSketch([Number.NaN])).toBe(null);
  });
});
