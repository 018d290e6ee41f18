import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { EDGE, type LaidMark, layLine, piecesOf } from '../../../src/ui/pictures/number-line.ts';
import { spread } from '../../../src/ui/pictures/spread.ts';

const ROOM = { least: 20, most: 308, from: null };
const lay = (values: readonly number[], from: number | null = null, width = 36): LaidMark[] =>
  layLine(
    values.map((value) => ({ value, width })),
    { ...ROOM, from },
  );

describe('labels beside each other', () => {
  test('that do not touch stay where they are', () => {
    expect(spread([20, 60, 100], [30, 30, 30], [0, 200])).toEqual([20, 60, 100]);
  });

  test('that would touch move as little as they can: both by the same', () => {
    // Wanted 4 apart, 30 wide: 26 too little, 13 each (by hand).
    expect(spread([100, 104], [30, 30], [0, 200])).toEqual([87, 117]);
    // Three on one place: the middle one stays.
    expect(spread([100, 100, 100], [30, 30, 30], [0, 200])).toEqual([70, 100, 130]);
  });

  test('stay in the room', () => {
    expect(spread([0, 200], [30, 30], [0, 200])).toEqual([15, 185]);
    expect(spread([200, 200], [30, 30], [0, 200])).toEqual([155, 185]);
  });

  test('none', () => {
    expect(spread([], [], [0, 200])).toEqual([]);
  });
});

describe('a line to scale', () => {
  test('the ends are the least and the greatest, and the rest between in proportion', () => {
    // 60 is a quarter of the way from 35 to 135: 20 + 288 / 4 (by hand).
    expect(lay([35, 60, 135]).map(({ x }) => x)).toEqual([20, 92, 308]);
  });

  test('from a datum it begins there', () => {
    // 450 of 550: 20 + 288 × 9 / 11 (by hand).
    const [turn, autopilot] = lay([450, 550], 0);
    expect(turn?.x).toBeCloseTo(255.64, 2);
    expect(autopilot?.x).toBe(308);
  });

  test('labels stand in turn over and under it', () => {
    expect(lay([119, 121, 126]).map(({ row }) => row)).toEqual(['over', 'under', 'over']);
  });

  test('one speed, and equal speeds, stand in the middle', () => {
    expect(lay([131])).toEqual([{ x: 164, label: 164, row: 'over' }]);
    const equal = lay([131, 131, 131]);
    expect(equal.map(({ x }) => x)).toEqual([164, 164, 164]);
    // Two of them over the line: 36 apart.
    expect(equal.map(({ label }) => label)).toEqual([146, 164, 182]);
    expect(lay([0], 0).map(({ x }) => x)).toEqual([164]);
    expect(lay([])).toEqual([]);
  });

  test('no label overlaps another nor leaves the picture, and no lead line crosses one, whatever the values', () => {
    const room = ROOM.most - ROOM.least + 2 * EDGE;
    fc.assert(
      fc.property(
        fc.array(
          fc.record({ value: fc.integer({ min: -200, max: 20_000 }), width: fc.integer({ min: 12, max: 90 }) }),
          { minLength: 1, maxLength: 40 },
        ),
        fc.boolean(),
        (unsorted, datum) => {
          const marks = unsorted.sort((a, b) => a.value - b.value);
          const pieces = piecesOf(
            marks.map(({ width }) => width),
            room,
          );
          expect(pieces.reduce((a, b) => a + b, 0)).toBe(marks.length);
          let begun = 0;
          for (const count of pieces) {
            const piece = marks.slice(begun, begun + count);
            begun += count;
            const laid = layLine(piece, { ...ROOM, from: datum ? 0 : null });
            laid.forEach((one, i) => {
              expect([one.x, one.label].every(Number.isFinite)).toBe(true);
              expect(one.x).toBeGreaterThanOrEqual(ROOM.least - 1e-9);
              expect(one.x).toBeLessThanOrEqual(ROOM.most + 1e-9);
              const half = (piece[i]?.width ?? 0) / 2;
              expect(one.label - half).toBeGreaterThanOrEqual(ROOM.least - EDGE - 1e-6);
              expect(one.label + half).toBeLessThanOrEqual(ROOM.most + EDGE + 1e-6);
              // The one before it in the same row: its label and its tick both stand before.
              const [before, itsHalf] = [laid[i - 2], (piece[i - 2]?.width ?? 0) / 2];
              if (before === undefined) return;
              expect(before.row).toBe(one.row);
              expect(one.label - before.label).toBeGreaterThanOrEqual(half + itsHalf - 1e-6);
              expect(one.x).toBeGreaterThanOrEqual(before.x - 1e-9);
            });
          }
        },
      ),
      { numRuns: 300 },
    );
  });

  test('what needs more room than there is goes on in another line', () => {
    expect(piecesOf([50, 50, 50, 50, 50], 100)).toEqual([4, 1]);
    expect(piecesOf([500, 500, 500], 100)).toEqual([1, 1, 1]);
    expect(piecesOf([], 100)).toEqual([]);
  });
});
