/**
 * Partial orders of steps. Steps are numbers 0..n-1.
 */
import type { PartialOrder } from '../resolved.ts';

/**
 * The transitive closure and reduction of required pairs.
 * @param pairs [a, b]: a must come before b; repeats are allowed
 * @returns the order, or a cycle as the steps on it in order (each before the next, the last before the first)
 */
export function partialOrder(
  n: number,
  pairs: readonly (readonly [number, number])[],
): PartialOrder | { readonly cycle: readonly number[] } {
  const next: number[][] = Array.from({ length: n }, () => []);
  for (const [a, b] of pairs) {
    const list = next[a] as number[];
    if (a === b) return { cycle: [a] };
    if (!list.includes(b)) list.push(b);
  }
  const before: boolean[][] = Array.from({ length: n }, () => new Array<boolean>(n).fill(false));
  const state = new Int8Array(n);
  const path: number[] = [];
  let cycle: number[] | null = null;
  const visit = (a: number): void => {
    state[a] = 1;
    path.push(a);
    const row = before[a] as boolean[];
    for (const b of next[a] as number[]) {
      if (state[b] === 0) visit(b);
      else if (state[b] === 1) cycle ??= path.slice(path.indexOf(b));
      if (cycle) return;
      row[b] = true;
      const below = before[b] as boolean[];
      for (let c = 0; c < n; c++) if (below[c]) row[c] = true;
    }
    path.pop();
    state[a] = 2;
  };
  for (let a = 0; a < n && !cycle; a++) if (state[a] === 0) visit(a);
  if (cycle) return { cycle };

  const covers: [number, number][] = [];
  let count = 0;
  for (let a = 0; a < n; a++) {
    for (const b of before[a] as boolean[]) if (b) count++;
    const direct = next[a] as number[];
    for (const b of direct) if (!direct.some((z) => before[z]?.[b])) covers.push([a, b]);
  }
  return { n, before, covers, pairs: count };
}

/** Is `result` an order and not a cycle? */
export const isOrder = (result: PartialOrder | { readonly cycle: readonly number[] }): result is PartialOrder =>
  'before' in result;

/** A right order of 0..n-1, as near to 0, 1, 2, … as one by one allows: always the lowest that nothing keeps back. */
export function lineUp({ n, before }: PartialOrder): number[] {
  const out: number[] = [];
  const done = new Array<boolean>(n).fill(false);
  while (out.length < n) {
    const next = done.findIndex((d, s) => !d && before.every((row, a) => done[a] || !row[s]));
    done[next] = true;
    out.push(next);
  }
  return out;
}

/**
 * The order among some of the steps alone, renumbered by their place in `keep`.
 * Pairs that held through a step left out still hold.
 */
export function restrict(order: PartialOrder, keep: readonly number[]): PartialOrder {
  const pairs: [number, number][] = [];
  keep.forEach((a, i) => {
    keep.forEach((b, j) => {
      if (order.before[a]?.[b]) pairs.push([i, j]);
    });
  });
  return partialOrder(keep.length, pairs) as PartialOrder;
}
