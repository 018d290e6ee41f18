import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fewestMoves, scoreOf } from '../../src/subjects/procedure/moves.ts';
import { isOrder, partialOrder } from '../../src/subjects/procedure/order.ts';
import type { PartialOrder } from '../../src/subjects/resolved.ts';

/** A random order on up to 7 steps and an arrangement of all of them. */
const ordered = fc.integer({ min: 1, max: 7 }).chain((n) => {
  const all = [...Array(n).keys()];
  return fc.record({
    n: fc.constant(n),
    // Pairs follow a hidden line-up, so that there is never a cycle.
    line: fc.shuffledSubarray(all, { minLength: n }),
    bits: fc.array(fc.boolean(), { minLength: (n * (n - 1)) / 2, maxLength: (n * (n - 1)) / 2 }),
    answer: fc.shuffledSubarray(all, { minLength: n }),
    chances: fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: n, maxLength: n }),
  });
});
type Case = typeof ordered extends fc.Arbitrary<infer T> ? T : never;

function orderOf({ n, line, bits }: Case): PartialOrder {
  const pairs: [number, number][] = [];
  let k = 0;
  for (let i = 0; i < n; i++)
    for (let j = i + 1; j < n; j++) if (bits[k++]) pairs.push([line[i] as number, line[j] as number]);
  const p = partialOrder(n, pairs);
  if (!isOrder(p)) throw new Error('cycle');
  return p;
}

/** Every arrangement that keeps all pairs. */
function extensions(p: PartialOrder): number[][] {
  const out: number[][] = [];
  const grow = (done: number[]): void => {
    if (done.length === p.n) out.push([...done]);
    for (let s = 0; s < p.n; s++) {
      if (done.includes(s)) continue;
      const free = [...Array(p.n).keys()].every((a) => !p.before[a]?.[s] || done.includes(a));
      if (free) grow([...done, s]);
    }
  };
  grow([]);
  return out;
}

/** Longest common subsequence of two permutations: what need not move. */
function common(a: readonly number[], b: readonly number[]): number {
  const at = b.map((_, i) => a.indexOf(b[i] as number));
  const best: number[] = [];
  at.forEach((x, i) => {
    best[i] = 1 + Math.max(0, ...at.slice(0, i).map((y, j) => (y < x ? (best[j] as number) : 0)));
  });
  return Math.max(0, ...best);
}

/** Every smallest set whose removal leaves no violated pair, by trying all subsets. */
function smallestSets(p: PartialOrder, answer: readonly number[]): number[][] {
  const at = (s: number): number => answer.indexOf(s);
  let best: number[][] = [];
  let size = Number.POSITIVE_INFINITY;
  for (let mask = 0; mask < 1 << p.n; mask++) {
    const set = [...Array(p.n).keys()].filter((s) => mask & (1 << s));
    if (set.length > size) continue;
    const clean = p.before.every((row, a) =>
      row.every((r, b) => !r || mask & (1 << a) || mask & (1 << b) || at(a) < at(b)),
    );
    if (!clean) continue;
    if (set.length < size) best = [];
    size = set.length;
    best.push(set);
  }
  return best;
}

describe('fewest moves', () => {
  test('equals n minus the best overlap with any right order (brute force over all linear extensions)', () => {
    fc.assert(
      fc.property(ordered, (c) => {
        const p = orderOf(c);
        const best = Math.max(...extensions(p).map((e) => common(e, c.answer)));
        expect(fewestMoves(p, c.answer).count).toBe(p.n - best);
      }),
      { numRuns: 120 },
    );
  });

  test('common, some and blamed agree with all smallest sets', () => {
    fc.assert(
      fc.property(ordered, (c) => {
        const p = orderOf(c);
        const sets = smallestSets(p, c.answer);
        const m = fewestMoves(p, c.answer, (s) => c.chances[s] as number);
        const inAll = [...Array(p.n).keys()].filter((s) => sets.every((set) => set.includes(s)));
        const inSome = [...Array(p.n).keys()].filter((s) => !inAll.includes(s) && sets.some((set) => set.includes(s)));
        expect(m.common).toEqual(inAll);
        expect(m.some).toEqual(inSome);
        expect(sets).toContainEqual(m.blamed);
        // The least certain step that can be blamed is blamed.
        const weakest = inSome.sort((a, b) => (c.chances[a] as number) - (c.chances[b] as number) || a - b)[0];
        if (weakest !== undefined) expect(m.blamed).toContain(weakest);
      }),
      { numRuns: 200 },
    );
  });

  test('every right order scores 1, moves nothing and marks every step right; a wrong one does neither', () => {
    fc.assert(
      fc.property(ordered, (c) => {
        const p = orderOf(c);
        const right = extensions(p);
        for (const e of right.slice(0, 50)) {
          expect(scoreOf(p, e).score).toBe(1);
          expect(fewestMoves(p, e).marks.every((x) => x === 'right')).toBe(true);
        }
        const isRight = right.some((e) => e.every((s, i) => s === c.answer[i]));
        expect(scoreOf(p, c.answer).score === 1).toBe(isRight);
        expect(fewestMoves(p, c.answer).marks.includes('wrong')).toBe(!isRight);
      }),
      { numRuns: 120 },
    );
  });

  test('on a chain the score is (1 + tau) / 2, tau counted from concordant and discordant pairs', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 9 }).chain((n) => fc.shuffledSubarray([...Array(n).keys()], { minLength: n })),
        (answer) => {
          const n = answer.length;
          const p = partialOrder(
            n,
            [...Array(n - 1).keys()].map((i) => [i, i + 1] as const),
          );
          if (!isOrder(p)) throw new Error('cycle');
          let sum = 0;
          for (let i = 0; i < n; i++)
            for (let j = i + 1; j < n; j++) sum += Math.sign((answer[j] as number) - (answer[i] as number));
          const tau = sum / ((n * (n - 1)) / 2);
          expect(scoreOf(p, answer).score).toBeCloseTo((1 + tau) / 2, 12);
        },
      ),
    );
  });
});
