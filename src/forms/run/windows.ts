import type { RunStep } from '../../subjects/resolved.ts';

/** More rows do not fit a phone. */
export const MOST_ROWS = 12;
/** Steps of a window of a long procedure. */
export const WINDOW = 7;
/** Steps of a window at the first meeting. */
export const FIRST_WINDOW = 5;

/**
 * Cuts 0..n-1 into runs of at most `most`, overlapping by one where there is room, so that every neighbourhood
 * is asked somewhere. A cut goes where steps done together and steps of one owner are not torn apart, if a
 * shorter window allows it; the windows are of about equal length.
 * @returns index lists, rising; one list where n ≤ most
 */
export function windowsOf(steps: readonly RunStep[], most: number): number[][] {
  const n = steps.length;
  const range = (from: number, to: number): number[] => [...Array(to - from).keys()].map((i) => from + i);
  if (n <= most) return n === 0 ? [] : [range(0, n)];
  const out: number[][] = [];
  let from = 0;
  while (true) {
    if (n - from <= most) {
      out.push(range(Math.max(0, n - Math.min(most, Math.max(3, n - from))), n));
      return out;
    }
    // What is left, in equal parts that overlap by one.
    const parts = Math.ceil((n - from - 1) / (most - 1));
    const even = Math.min(most, Math.ceil((n - from - 1) / parts) + 1);
    const to = bestEnd(steps, from, even, most);
    out.push(range(from, to));
    // One step in common, so that its place is asked between both its neighbours.
    from = to - 1;
  }
}

/** The end of a window near its even length that tears the least apart. */
function bestEnd(steps: readonly RunStep[], from: number, even: number, most: number): number {
  let best = from + even;
  let cost = Number.POSITIVE_INFINITY;
  for (let size = Math.max(3, even - 2); size <= most; size++) {
    const end = from + size;
    const a = steps[end - 1];
    const b = steps[end];
    const torn =
      (a && b && a.together !== null && a.together === b.together ? 4 : 0) +
      (a && b && b.step.answers === a.step.id ? 3 : 0) +
      (a && b && a.owner === b.owner ? 1 : 0) +
      Math.abs(size - even) * 0.6;
    if (torn < cost) {
      cost = torn;
      best = end;
    }
  }
  return best;
}
