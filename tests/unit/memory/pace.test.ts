import fc from 'fast-check';
import { expect, test } from 'vitest';
import { Pace } from '../../../src/memory/pace.ts';

test('quick is below the median less 1.48 median absolute deviations of at least eight answers', () => {
  // ln 10,000 and four each at ± 0.1: median ln 10,000, MAD 0.1.
  const last = [0, 0.1, -0.1, 0.1, -0.1, 0.1, -0.1, 0.1, -0.1].map((x) => Math.log(10_000) + x);
  const pace = new Pace(last);
  expect(pace.isQuick(10_000 * Math.exp(-0.149))).toBe(true);
  expect(pace.isQuick(10_000 * Math.exp(-0.147))).toBe(false);
  expect(pace.isQuick(0)).toBe(false);
  expect(new Pace(last.slice(0, 7)).isQuick(100)).toBe(false);
});

const median = (list: readonly number[]): number => {
  const sorted = [...list].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  const high = sorted[half] as number;
  return sorted.length % 2 === 1 ? high : ((sorted[half - 1] as number) + high) / 2;
};

test('agrees with medians taken by sorting, over any run of answers; only the last fifty count', () => {
  const ms = fc.oneof(fc.integer({ min: 1, max: 120_000 }), fc.constantFrom(5000, 5001, 9000));
  fc.assert(
    fc.property(fc.array(ms, { maxLength: 140 }), ms, (times, now) => {
      const pace = new Pace();
      for (const one of times) pace.add(one);
      const last = times.slice(-50).map(Math.log);
      expect(pace.last).toEqual(last);
      const middle = median(last);
      const deviation = median(last.map((x) => Math.abs(x - middle)));
      expect(pace.isQuick(now)).toBe(last.length >= 8 && Math.log(now) < middle - 1.48 * deviation);
      // As a checkpoint keeps it.
      expect(new Pace(pace.last).isQuick(now)).toBe(pace.isQuick(now));
    }),
  );
});
