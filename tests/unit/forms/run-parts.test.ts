import { describe, expect, test } from 'vitest';
import { faultlessRate, guessRate } from '../../../src/forms/run/guess.ts';
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

/** All arrangements of `pick` of the chips 0..total-1. */
function arrangements(total: number, pick: number): number[][] {
  const out: number[][] = [];
  const grow = (done: number[]): void => {
    if (done.length === pick) out.push(done);
    else for (let s = 0; s < total; s++) if (!done.includes(s)) grow([...done, s]);
  };
  grow([]);
  return out;
}
/** Longest rising subsequence, by trying all. */
const rise = (list: readonly number[]): number => {
  const best: number[] = [];
  list.forEach((x, i) => {
    best[i] = 1 + Math.max(0, ...list.slice(0, i).map((y, j) => (y < x ? (best[j] as number) : 0)));
  });
  return Math.max(0, ...best);
};

describe('chances counted over every way to pick and order', () => {
  test.each([
    [6, 0],
    [4, 3],
    [3, 2],
    [2, 4],
  ])('a chain of %d among %d strangers', (n, strangers) => {
    const all = arrangements(n + strangers, n);
    const stay = all.map((picked) => rise(picked.filter((s) => s < n)));
    expect(guessRate(chain(n), strangers)).toBeCloseTo(stay.reduce((a, b) => a + b, 0) / all.length / n, 12);
    const faultless = all.filter((picked) => picked.every((s, i) => s === i)).length;
    expect(faultlessRate(chain(n), strangers)).toBeCloseTo(faultless / all.length, 12);
  });

  test('2261/720 of 6 in a row', () => {
    const sum = arrangements(6, 6).reduce((total, list) => total + rise(list), 0);
    expect(sum).toBe(2261);
  });

  test('a faultless run of an order in between: right orders over all', () => {
    // 0 before 1 and 2, those before 3: two right orders of 24; of six chips four in a row: two of 360.
    const diamond = orderOf(4, [
      [0, 1],
      [0, 2],
      [1, 3],
      [2, 3],
    ]);
    expect(faultlessRate(diamond, 0)).toBeCloseTo(2 / 24, 12);
    expect(faultlessRate(diamond, 2)).toBeCloseTo(2 / 360, 12);
    // No order at all: only leaving the strangers out can go wrong. 15 ways to pick four of six.
    expect(faultlessRate(orderOf(4, []), 2)).toBeCloseTo(1 / 15, 12);
    expect(faultlessRate(orderOf(4, []), 0)).toBe(1);
  });

  test('of a long chain it is next to nothing, and never more than what a part of it gives', () => {
    expect(faultlessRate(chain(12), 0)).toBeCloseTo(1 / 479001600, 15);
    expect(faultlessRate(chain(60), 0)).toBeLessThan(1e-12);
    expect(guessRate(chain(60), 0)).toBeGreaterThan(0.15);
    expect(guessRate(chain(60), 0)).toBeLessThan(guessRate(chain(40), 0));
  });

  test('a long order that is no chain is measured by its busiest steps', () => {
    const long = orderOf(
      40,
      [...Array(39).keys()].filter((i) => i !== 20).map((i) => [i, i + 1]),
    );
    expect(guessRate(long, 0)).toBeGreaterThan(0.1);
    expect(guessRate(long, 0)).toBeLessThan(0.6);
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
