/**
 * What an arrangement of steps is worth. Steps are numbers 0..n-1; an arrangement lists those placed, in the order
 * given, each at most once.
 */
import { matchingSize } from '../../lib/matching.ts';
import type { PartialOrder } from '../resolved.ts';

export interface Score {
  /** V: required pairs a<b with b placed before a. */
  readonly violated: number;
  /** Required pairs of which at least one step was left out. */
  readonly lost: number;
  /** |P| */
  readonly pairs: number;
  /** 0..1: share of required pairs that the arrangement keeps; (1 + Kendall's tau) / 2 on a chain; 1 without any pair. */
  readonly score: number;
}

export function scoreOf(order: PartialOrder, arrangement: readonly number[]): Score {
  const at = places(order.n, arrangement);
  let violated = 0;
  let lost = 0;
  for (let a = 0; a < order.n; a++) {
    for (let b = 0; b < order.n; b++) {
      if (!order.before[a]?.[b]) continue;
      const pa = at[a] as number;
      const pb = at[b] as number;
      if (pa < 0 || pb < 0) lost++;
      else if (pb < pa) violated++;
    }
  }
  return {
    violated,
    lost,
    pairs: order.pairs,
    score: order.pairs === 0 ? 1 : 1 - (violated + lost) / order.pairs,
  };
}

/** What an arrangement means for one step. */
export type StepMark = 'right' | 'wrong' | 'moved';

export interface Moves {
  /** Fewest steps to move so that every required pair among the placed steps holds. */
  readonly count: number;
  /** The set of that size that is blamed, rising. */
  readonly blamed: readonly number[];
  /** Steps in every set of that size, rising. */
  readonly common: readonly number[];
  /** Steps in some set of that size but not in all, rising. */
  readonly some: readonly number[];
  readonly omitted: readonly number[];
  /** By step: wrong = blamed or omitted; moved = in another equally small set, or behind the first of a block moved whole. */
  readonly marks: readonly StepMark[];
}

/**
 * The violated pairs are themselves a partial order, so the largest subset without one is a maximum
 * antichain; what is left over is a smallest vertex cover of the violated pairs, of the size of a largest
 * matching (Dilworth 1950; König 1931; Fulkerson 1956).
 * @param blame recall chance of a step, 0..1: among equally small sets the step with the lower chance is blamed first;
 *   equal chances: the lower number
 */
export function fewestMoves(
  order: PartialOrder,
  arrangement: readonly number[],
  blame: (step: number) => number = () => 0,
): Moves {
  const n = order.n;
  const at = places(n, arrangement);
  const { targets, touched } = violations(order, at);
  const among = [...touched.keys()].filter((s) => touched[s]);
  const clash = (a: number, b: number): boolean =>
    (targets[a] as number[]).includes(b) || (targets[b] as number[]).includes(a);
  const count = matchingSize(targets, touched);

  const common: number[] = [];
  const some: number[] = [];
  for (const s of among) {
    if (!without(targets, touched, s, count)) continue;
    // In every smallest set exactly if no largest antichain holds it, that is if keeping it costs more.
    const beside = touched.map((t, x) => t && x !== s && !clash(s, x));
    const forced = among.filter((x) => clash(s, x)).length;
    if (forced + matchingSize(targets, beside) > count) common.push(s);
    else some.push(s);
  }

  const alive = [...touched];
  const blamed: number[] = [...common];
  for (const s of common) alive[s] = false;
  let left = count - common.length;
  for (const s of [...some].sort((a, b) => blame(a) - blame(b) || a - b)) {
    if (left === 0) break;
    if (!without(targets, alive, s, left)) continue;
    blamed.push(s);
    alive[s] = false;
    left--;
  }
  blamed.sort((a, b) => a - b);

  const omitted = [...at.keys()].filter((s) => (at[s] as number) < 0);
  const marks = new Array<StepMark>(n).fill('right');
  for (const s of some) marks[s] = 'moved';
  for (const s of blamed) marks[s] = 'wrong';
  for (const s of behindFirst(order, arrangement, new Set(blamed))) marks[s] = 'moved';
  for (const s of omitted) marks[s] = 'wrong';
  return { count, blamed, common, some, omitted, marks };
}

/** The graph of violated pairs. Only steps in one can be blamed: the others are not touched. */
function violations(order: PartialOrder, at: Int32Array): { targets: number[][]; touched: boolean[] } {
  const n = order.n;
  const targets: number[][] = Array.from({ length: n }, () => []);
  const touched = new Array<boolean>(n).fill(false);
  for (let a = 0; a < n; a++) {
    const pa = at[a] as number;
    if (pa < 0) continue;
    for (let b = 0; b < n; b++) {
      const pb = at[b] as number;
      if (pb < 0 || pb >= pa || !order.before[a]?.[b]) continue;
      (targets[a] as number[]).push(b);
      touched[a] = true;
      touched[b] = true;
    }
  }
  return { targets, touched };
}

/** Place of each step in the arrangement, -1 where it was left out. */
function places(n: number, arrangement: readonly number[]): Int32Array {
  const at = new Int32Array(n).fill(-1);
  arrangement.forEach((s, i) => {
    at[s] = i;
  });
  return at;
}

/** Is `s` in some smallest set of `alive`? Then the rest needs one less. */
function without(targets: number[][], alive: boolean[], s: number, count: number): boolean {
  if (!alive[s]) return false;
  alive[s] = false;
  const size = matchingSize(targets, alive);
  alive[s] = true;
  return size === count - 1;
}

/**
 * Blamed steps behind the first of a block moved whole: neighbours in the arrangement, in right inner order,
 * that would fit together into one place among the steps that stay.
 */
function behindFirst(order: PartialOrder, arrangement: readonly number[], blamed: ReadonlySet<number>): number[] {
  const kept = arrangement.filter((s) => !blamed.has(s));
  const out: number[] = [];
  let block: number[] = [];
  const fits = (steps: readonly number[]): boolean => {
    let low = -1;
    let high = kept.length;
    kept.forEach((z, i) => {
      for (const s of steps) {
        if (order.before[z]?.[s]) low = Math.max(low, i);
        if (order.before[s]?.[z]) high = Math.min(high, i);
      }
    });
    return low < high;
  };
  for (const s of arrangement) {
    if (!blamed.has(s)) block = [];
    else if (block.length > 0 && !block.some((b) => order.before[s]?.[b]) && fits([...block, s])) {
      block.push(s);
      out.push(s);
    } else block = [s];
  }
  return out;
}
