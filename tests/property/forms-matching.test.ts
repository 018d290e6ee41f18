import fc from 'fast-check';
import { expect, test } from 'vitest';
import { matchingSize, matchingSizeOfBits } from '../../src/lib/matching.ts';

/** Up to 6 vertices a side, so that every set of edges can be tried. */
const graph = fc
  .integer({ min: 1, max: 6 })
  .chain((n) => fc.array(fc.integer({ min: 0, max: (1 << n) - 1 }), { minLength: n, maxLength: n }));

/** Largest matching by trying each left vertex with each free right one, or none. */
function tried(rows: readonly number[], left = 0, taken = 0): number {
  if (left === rows.length) return 0;
  let best = tried(rows, left + 1, taken);
  for (let r = 0; r < rows.length; r++) {
    const bit = 1 << r;
    if ((rows[left] as number) & bit && !(taken & bit)) best = Math.max(best, 1 + tried(rows, left + 1, taken | bit));
  }
  return best;
}

const listsOf = (rows: readonly number[]): number[][] => rows.map((r) => [...rows.keys()].filter((i) => r & (1 << i)));

test('a largest matching, by lists and by bits, is the one found by trying all', () => {
  fc.assert(
    fc.property(graph, (rows) => {
      const best = tried(rows);
      expect(matchingSize(listsOf(rows))).toBe(best);
      expect(matchingSizeOfBits(Int32Array.from(rows))).toBe(best);
    }),
  );
});

test('vertices that do not count are on no edge', () => {
  fc.assert(
    fc.property(graph, fc.integer({ min: 0, max: 63 }), (rows, dead) => {
      const alive = rows.map((_, i) => (dead & (1 << i)) === 0);
      const rest = rows.map((r, i) => (alive[i] ? r & ~dead : 0));
      expect(matchingSize(listsOf(rows), alive)).toBe(tried(rest));
    }),
  );
});

test('31 vertices a side use every bit', () => {
  const rows = Int32Array.from({ length: 31 }, (_, i) => (1 << (30 - i)) | (1 << 30));
  expect(matchingSizeOfBits(rows)).toBe(31);
  expect(matchingSizeOfBits(new Int32Array(31).fill(1 << 30))).toBe(1);
});
