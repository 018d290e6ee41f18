import { meanLongestRise } from '../../lib/longest-rise.ts';
import { seeded, shuffled } from '../../lib/random.ts';
import { moveCount } from '../../subjects/procedure/order.ts';
import type { PartialOrder } from '../../subjects/resolved.ts';

/** Up to here every arrangement is tried. */
const EXACT = 5;
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

/** Steps that stay, of one arrangement; those not picked do not. */
const kept = (order: PartialOrder, picked: readonly number[]): number => picked.length - moveCount(order, picked);

function everyRate(order: PartialOrder): number {
  let sum = 0;
  let count = 0;
  const visit = (done: readonly number[]): void => {
    if (done.length === order.n) {
      sum += kept(order, done);
      count++;
    }
    for (let s = 0; s < order.n; s++) if (!done.includes(s)) visit([...done, s]);
  };
  visit([]);
  return sum / count / order.n;
}

function sampledRate(order: PartialOrder, strangers: number, seed: string): number {
  const random = seeded(seed);
  const all = [...Array(order.n + strangers).keys()];
  let sum = 0;
  for (let i = 0; i < SAMPLES; i++) {
    sum += kept(
      order,
      shuffled(random, all)
        .slice(0, order.n)
        .filter((s) => s < order.n),
    );
  }
  return sum / SAMPLES / order.n;
}
