import { describe, expect, test } from 'vitest';
import { fewestMoves, scoreOf } from '../../../src/subjects/procedure/moves.ts';
import { isOrder, lineUp, partialOrder, restrict } from '../../../src/subjects/procedure/order.ts';
import type { PartialOrder } from '../../../src/subjects/resolved.ts';

const order = (n: number, pairs: [number, number][]): PartialOrder => {
  const p = partialOrder(n, pairs);
  if (!isOrder(p)) throw new Error(`cycle ${p.cycle}`);
  return p;
};
const chain = order(
  6,
  [0, 1, 2, 3, 4].map((i) => [i, i + 1]),
);
/** 0, then 1 2 3 in any order, then 4, 5. */
const fan = order(6, [
  [0, 1],
  [0, 2],
  [0, 3],
  [1, 4],
  [2, 4],
  [3, 4],
  [4, 5],
]);
const cross = order(6, [
  [0, 1],
  [1, 5],
  [2, 3],
  [3, 5],
  [0, 4],
]);

/**
 * V, moves and sets: brute force over all linear extensions. tau: scipy.stats.kendalltau (SciPy),
 * of the permutation against 0..5.
 */
const cases: {
  name: string;
  order: PartialOrder;
  answer: number[];
  violated: number;
  pairs: number;
  score: number;
  moves: number;
  blamed?: number[];
  tau?: number;
}[] = [
  {
    name: 'neighbours exchanged',
    order: chain,
    answer: [0, 1, 3, 2, 4, 5],
    violated: 1,
    pairs: 15,
    score: 0.9333,
    moves: 1,
    tau: 0.866667,
  },
  {
    name: 'first put last',
    order: chain,
    answer: [1, 2, 3, 4, 5, 0],
    violated: 5,
    pairs: 15,
    score: 0.6667,
    moves: 1,
    blamed: [0],
    tau: 0.333333,
  },
  {
    name: 'halves exchanged',
    order: chain,
    answer: [3, 4, 5, 0, 1, 2],
    violated: 9,
    pairs: 15,
    score: 0.4,
    moves: 3,
    tau: -0.2,
  },
  {
    name: 'ends exchanged',
    order: chain,
    answer: [5, 1, 2, 3, 4, 0],
    violated: 9,
    pairs: 15,
    score: 0.4,
    moves: 2,
    blamed: [0, 5],
    tau: -0.2,
  },
  { name: 'reversed', order: chain, answer: [5, 4, 3, 2, 1, 0], violated: 15, pairs: 15, score: 0, moves: 5, tau: -1 },
  {
    name: 'any order in the middle',
    order: fan,
    answer: [0, 3, 1, 2, 4, 5],
    violated: 0,
    pairs: 12,
    score: 1,
    moves: 0,
    blamed: [],
  },
  {
    name: 'first behind the middle',
    order: fan,
    answer: [1, 2, 3, 0, 4, 5],
    violated: 3,
    pairs: 12,
    score: 0.75,
    moves: 1,
    blamed: [0],
  },
  {
    name: 'fan reversed',
    order: fan,
    answer: [5, 4, 3, 2, 1, 0],
    violated: 12,
    pairs: 12,
    score: 0,
    moves: 3,
    blamed: [0, 4, 5],
  },
  {
    name: 'last put first',
    order: cross,
    answer: [5, 0, 1, 2, 3, 4],
    violated: 4,
    pairs: 7,
    score: 0.4286,
    moves: 1,
    blamed: [5],
  },
  { name: 'every pair violated', order: cross, answer: [4, 5, 3, 1, 2, 0], violated: 7, pairs: 7, score: 0, moves: 3 },
];

describe('an arrangement against a partial order', () => {
  test.each(cases)('$name: $answer', (c) => {
    const s = scoreOf(c.order, c.answer);
    expect([s.violated, s.pairs]).toEqual([c.violated, c.pairs]);
    expect(s.score).toBeCloseTo(c.score, 4);
    if (c.tau !== undefined) expect(2 * s.score - 1).toBeCloseTo(c.tau, 6);
    const m = fewestMoves(c.order, c.answer);
    expect(m.count).toBe(c.moves);
    expect(m.blamed).toHaveLength(c.moves);
    if (c.blamed) {
      expect(m.blamed).toEqual(c.blamed);
      expect(m.common).toEqual(c.blamed);
    }
  });

  test('of two neighbours exchanged the one with the lower recall chance is blamed, the other is moved', () => {
    const m = fewestMoves(chain, [0, 1, 3, 2, 4, 5], (s) => (s === 3 ? 0.4 : 0.9));
    expect(m.blamed).toEqual([3]);
    expect(m.some).toEqual([2, 3]);
    expect(m.marks).toEqual(['right', 'right', 'moved', 'wrong', 'right', 'right']);
  });

  test('of a block moved whole the first is wrong, the rest moved; the other equally small set is moved too', () => {
    const m = fewestMoves(chain, [3, 4, 5, 0, 1, 2], (s) => (s >= 3 ? 0.5 : 0.9));
    expect(m.blamed).toEqual([3, 4, 5]);
    expect(m.marks).toEqual(['moved', 'moved', 'moved', 'wrong', 'moved', 'moved']);
  });

  test('two steps side by side that belong to different places are no block', () => {
    const eight = order(
      8,
      [0, 1, 2, 3, 4, 5, 6].map((i) => [i, i + 1]),
    );
    const m = fewestMoves(eight, [2, 6, 0, 1, 3, 4, 5, 7]);
    expect(m.blamed).toEqual([2, 6]);
    expect(m.marks[2]).toBe('wrong');
    expect(m.marks[6]).toBe('wrong');
  });

  test('a step left out is wrong and its pairs are not kept', () => {
    const m = fewestMoves(chain, [0, 1, 2, 4, 5]);
    expect(m.count).toBe(0);
    expect(m.omitted).toEqual([3]);
    expect(m.marks).toEqual(['right', 'right', 'right', 'wrong', 'right', 'right']);
    expect(scoreOf(chain, [0, 1, 2, 4, 5])).toEqual({ violated: 0, lost: 5, pairs: 15, score: 1 - 5 / 15 });
  });

  test('without a required pair every order scores 1', () => {
    const free = order(3, []);
    expect(scoreOf(free, [2, 0, 1]).score).toBe(1);
    expect(fewestMoves(free, [2, 0, 1]).count).toBe(0);
  });
});

describe('partialOrder', () => {
  test('closes and reduces', () => {
    const p = order(3, [
      [0, 1],
      [1, 2],
      [0, 2],
      [0, 1],
    ]);
    expect(p.pairs).toBe(3);
    expect(p.covers).toEqual([
      [0, 1],
      [1, 2],
    ]);
  });
  test('names a cycle', () => {
    const p = partialOrder(4, [
      [0, 1],
      [1, 2],
      [2, 1],
    ]);
    expect(p).toEqual({ cycle: [1, 2] });
    expect(partialOrder(1, [[0, 0]])).toEqual({ cycle: [0] });
  });
  test('restricted to a part, what held through a step left out still holds', () => {
    const part = restrict(chain, [1, 3, 5]);
    expect(part.covers).toEqual([
      [0, 1],
      [1, 2],
    ]);
  });
  test('lined up as authored, but for what must wait', () => {
    expect(lineUp(chain)).toEqual([0, 1, 2, 3, 4, 5]);
    expect(lineUp(order(4, []))).toEqual([0, 1, 2, 3]);
    // 1 must wait for 3: what comes behind 1 waits with it.
    const waits = order(5, [
      [0, 1],
      [1, 2],
      [3, 4],
      [3, 1],
    ]);
    expect(lineUp(waits)).toEqual([0, 3, 1, 2, 4]);
  });
  test('one step and none', () => {
    expect(order(1, []).pairs).toBe(0);
    expect(order(0, []).covers).toEqual([]);
  });
});
