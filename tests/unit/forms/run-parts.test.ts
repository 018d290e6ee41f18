import { describe, expect, test } from 'vitest';
import { guessRate } from '../../../src/forms/run/guess.ts';
import { windowsOf } from '../../../src/forms/run/windows.ts';
import { meanLongestRise } from '../../../src/lib/longest-rise.ts';
import { isOrder, partialOrder } from '../../../src/subjects/procedure/order.ts';
import type { PartialOrder, RunStep } from '../../../src/subjects/resolved.ts';

const orderOf = (n: number, pairs: [number, number][]): PartialOrder => {
  const p = partialOrder(n, pairs);
  if (!isOrder(p)) throw new Error('cycle');
  return p;
};
const chain = (n: number): PartialOrder =>
  orderOf(
    n,
    [...Array(n - 1).keys()].map((i) => [i, i + 1]),
  );

describe('guess rate of a run', () => {
  // Design table: .67/.56/.47/.40 at 3/5/8/12 without strangers, .30 at 8 picked of 16.
  test.each([
    [3, 0, 0.67],
    [5, 0, 0.56],
    [8, 0, 0.47],
    [12, 0, 0.4],
    [8, 8, 0.3],
  ])('a chain of %d with %d strangers: %d', (n, strangers, g) => {
    expect(Math.abs(guessRate(chain(n), strangers) - g)).toBeLessThan(0.0075);
  });

  test('mean length of a longest rising subsequence, counted over all arrangements of 4: 58/24', () => {
    expect(meanLongestRise(4)).toBeCloseTo(58 / 24, 12);
    expect(meanLongestRise(3)).toBeCloseTo(2, 12);
    expect(meanLongestRise(1)).toBeCloseTo(1, 12);
  });

  test('a free order is right by any guess, an order in between lies in between', () => {
    expect(guessRate(orderOf(4, []), 0)).toBe(1);
    const fan = orderOf(4, [
      [0, 1],
      [0, 2],
      [0, 3],
    ]);
    // The first is kept with the best of what follows it: worked out over 24 arrangements: (4+3+3+3)/4 of 4.
    expect(guessRate(fan, 0)).toBeCloseTo((4 + 3 + 3 + 3) / 16, 12);
  });

  test('the drawn estimate agrees with the exact one', () => {
    const nearChain = orderOf(
      8,
      [...Array(7).keys()]
        .filter((i) => i > 0)
        .map((i): [number, number] => [i, i + 1])
        .concat([[0, 2]]),
    );
    expect(Math.abs(guessRate(nearChain, 0) - guessRate(chain(8), 0))).toBeLessThan(0.06);
  });
});

describe('windows of a long procedure', () => {
  const steps = (n: number): RunStep[] =>
    [...Array(n).keys()].map((i) => ({
      step: { id: `s${i}`, do: `Step ${i}` },
      owner: 'p',
      text: `Step ${i}`,
      critical: false,
      place: null,
      cue: null,
      crew: null,
      words: null,
      together: null,
    }));

  test.each([
    [13, 7],
    [24, 7],
    [60, 7],
    [60, 5],
    [6, 5],
    [8, 5],
    [9, 5],
  ])('%d steps in windows of %d: none too long, none missed, neighbours share a step', (n, most) => {
    const w = windowsOf(steps(n), most);
    expect(Math.max(...w.map((x) => x.length))).toBeLessThanOrEqual(most);
    expect(Math.min(...w.map((x) => x.length))).toBeGreaterThanOrEqual(3);
    expect([...new Set(w.flat())].sort((a, b) => a - b)).toEqual([...Array(n).keys()]);
    for (let i = 1; i < w.length; i++) {
      const shared = (w[i] as number[]).filter((x) => w[i - 1]?.includes(x)).length;
      expect(shared).toBeGreaterThanOrEqual(1);
      expect(shared).toBeLessThanOrEqual(2);
    }
  });

  test('a cut does not tear apart what is done together', () => {
    const list = steps(13).map((s, i) => (i === 6 || i === 7 ? { ...s, together: 0 } : s));
    for (const w of windowsOf(list, 7)) expect(w.at(-1)).not.toBe(6);
  });

  test('short lists stay whole', () => {
    expect(windowsOf(steps(1), 7)).toEqual([[0]]);
    expect(windowsOf(steps(7), 7)).toHaveLength(1);
    expect(windowsOf([], 7)).toEqual([]);
  });
});
