import type { Tree } from '../../formula/tree.ts';
import type { Drawn } from '../../model/form.ts';
import { asCall, type Comparison, isPrinted, type Lookups, numberIn } from '../formulas.ts';

export interface Margin {
  /** Least change of the compared number that turns the comparison, ≥ 0. */
  readonly distance: number;
  /** Size of the numbers compared, ≥ 1: to weigh distances of different units. */
  readonly scale: number;
  /** Only drawn values, numbers and limits are compared: nothing to compute, so nothing to round. */
  readonly printed: boolean;
}

/**
 * How far a comparison is from turning. A value held at a bound by `max` or `min` is as far as what is
 * inside: with a headwind of 12, `max(0, -headwind) > 0` is 12 away, not 0.
 * @returns null for what compares no numbers
 */
export function marginOf(c: Comparison, values: Drawn, lookups: Lookups): Margin | null {
  const left = numberIn(c.left, values, lookups);
  const right = numberIn(c.right, values, lookups);
  if (left === null || right === null) return null;
  const distance = Math.max(
    clamped(c.left, right, values, lookups) ?? clamped(c.right, left, values, lookups) ?? 0,
    Math.abs(left - right),
  );
  return {
    distance,
    scale: Math.max(1, Math.abs(left), Math.abs(right)),
    printed: isPrinted(c.left) && isPrinted(c.right),
  };
}

/** Distance of `max(…)` or `min(…)` from turning against a bound; null for anything else. */
function clamped(side: Tree, bound: number, values: Drawn, lookups: Lookups): number | null {
  const call = asCall(side);
  if (!call || (call.name !== 'max' && call.name !== 'min')) return null;
  const sign = call.name === 'max' ? 1 : -1;
  const away: number[] = [];
  for (const arg of call.args) {
    // A number written out cannot change.
    if (isPrinted(arg) && numberIn(arg, {}, lookups) !== null) continue;
    const value = numberIn(arg, values, lookups);
    if (value === null) return null;
    away.push(sign * (value - bound));
  }
  if (away.length === 0) return null;
  const above = Math.max(...away);
  return Math.abs(above);
}
