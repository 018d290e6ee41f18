import { meanLongestRise } from '../../lib/longest-rise.ts';
import { matchingSizeOfBits } from '../../lib/matching.ts';
import { seeded, shuffled } from '../../lib/random.ts';
import { restrict } from '../../subjects/procedure/order.ts';
import type { PartialOrder } from '../../subjects/resolved.ts';

/** Up to here every arrangement is tried. */
const EXACT = 5;
/** Steps fit the bits of a number. */
const MOST = 31;
const SAMPLES = 240;

const known = new Map<string, number>();
const KNOWN = 400;

/**
 * Guess rate of a run: share of its steps that need not be moved when as many chips as there are steps are
 * picked blindly, strangers among them. Exact on a chain (longest rising subsequence of those picked) and for
 * up to 5 steps without strangers, else from 240 draws with a fixed seed (standard error about .01).
 */
export function guessRate(order: PartialOrder, strangers: number): number {
  const n = order.n;
  if (n === 0) return 0;
  if (order.pairs === (n * (n - 1)) / 2) return chainRate(n, strangers);
  // Larger ones are asked in rehearsal alone: the steps that stand in most pairs speak for all.
  if (n > MOST) return guessRate(restrict(order, busiest(order, MOST)), strangers);
  const name = `${n} ${strangers} ${order.covers.join(' ')}`;
  const before = known.get(name);
  if (before !== undefined) return before;
  const rate = n <= EXACT && strangers === 0 ? everyRate(order) : sampledRate(order, strangers, name);
  if (known.size >= KNOWN) known.clear();
  known.set(name, rate);
  return rate;
}

function chainRate(n: number, strangers: number): number {
  if (strangers === 0) return meanRise(n) / n;
  let mean = 0;
  for (let k = Math.max(0, n - strangers); k <= n; k++) {
    mean += Math.exp(lnChoose(n, k) + lnChoose(strangers, n - k) - lnChoose(n + strangers, n)) * meanRise(k);
  }
  return mean / n;
}

const rises: number[] = [];
/** Beyond the sizes asked the mean grows like 2√n - 1.77 n^(1/6) (Baik, Deift, Johansson 1999). */
function meanRise(n: number): number {
  if (n > 16) return 2 * Math.sqrt(n) - 1.77109 * n ** (1 / 6);
  rises[n] ??= meanLongestRise(n);
  return rises[n];
}

function lnChoose(n: number, k: number): number {
  if (k < 0 || k > n) return Number.NEGATIVE_INFINITY;
  let s = 0;
  for (let i = 1; i <= k; i++) s += Math.log(n - k + i) - Math.log(i);
  return s;
}

/** For arrangements of the steps picked: how many of them stay; those not picked do not. */
function keeper(order: PartialOrder): (picked: readonly number[]) => number {
  const n = order.n;
  const after = order.before.map((row) => row.reduce((bits, b, i) => (b ? bits | (1 << i) : bits), 0));
  const rows = new Int32Array(n);
  return (picked) => {
    rows.fill(0);
    let placed = 0;
    for (const s of picked) {
      // Of the steps placed before it those that must come after it.
      rows[s] = (after[s] as number) & placed;
      placed |= 1 << s;
    }
    return picked.length - matchingSizeOfBits(rows);
  };
}

function everyRate(order: PartialOrder): number {
  const kept = keeper(order);
  let sum = 0;
  let count = 0;
  const visit = (done: readonly number[]): void => {
    if (done.length === order.n) {
      sum += kept(done);
      count++;
    }
    for (let s = 0; s < order.n; s++) if (!done.includes(s)) visit([...done, s]);
  };
  visit([]);
  return sum / count / order.n;
}

function sampledRate(order: PartialOrder, strangers: number, seed: string): number {
  const random = seeded(seed);
  const kept = keeper(order);
  const all = [...Array(order.n + strangers).keys()];
  let sum = 0;
  for (let i = 0; i < SAMPLES; i++) {
    sum += kept(
      shuffled(random, all)
        .slice(0, order.n)
        .filter((s) => s < order.n),
    );
  }
  return sum / SAMPLES / order.n;
}

/**
 * Chance that blind picking and ordering gives a faultless run: right orders over ways to pick n of all chips in a
 * row, on a chain without strangers 1/n!. It is what a faultless run is worth as proof; the steps of a faulty one are
 * as good as the guess rate. Right orders are counted over sets of steps done; of more than 16 steps by the 16 that
 * stand in most pairs, which gives an upper bound.
 */
export function faultlessRate(order: PartialOrder, strangers: number): number {
  const few = order.n <= COUNTED ? order : restrict(order, busiest(order, COUNTED));
  const n = few.n;
  const total = order.n + strangers;
  // Ways to pick and order n of all chips, against orders of those n alone: the strangers' part.
  const picked = Math.exp(-lnChoose(total, order.n));
  let ways = rightOrders(few);
  for (let i = 2; i <= n; i++) ways /= i;
  return ways * picked;
}

const COUNTED = 16;

const busiest = (order: PartialOrder, most: number): number[] => {
  const pairs = order.before.map(
    (row, a) => row.filter(Boolean).length + order.before.filter((other) => other[a]).length,
  );
  return [...pairs.keys()]
    .sort((a, b) => (pairs[b] as number) - (pairs[a] as number) || a - b)
    .slice(0, most)
    .sort((a, b) => a - b);
};

/** Number of linear extensions: ways to reach each set of steps done, in rising order of the sets' bits. */
function rightOrders({ n, before }: PartialOrder): number {
  const needs = [...Array(n).keys()].map((s) => before.reduce((bits, row, a) => (row[s] ? bits | (1 << a) : bits), 0));
  const ways = new Float64Array(1 << n);
  ways[0] = 1;
  for (let done = 0; done < ways.length; done++) {
    const here = ways[done] as number;
    if (here === 0) continue;
    for (let s = 0; s < n; s++) {
      const bit = 1 << s;
      if ((done & bit) === 0 && ((needs[s] as number) & ~done) === 0)
        ways[done | bit] = (ways[done | bit] as number) + here;
    }
  }
  return ways[ways.length - 1] as number;
}
