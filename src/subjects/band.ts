import type { Band } from '../model/deck.ts';

/** Slack for binary fractions: 0.1 + 0.2 is 0.3. */
export const SLACK = 1e-9;

export interface Width {
  readonly plus: number;
  readonly minus: number;
}

export const bandOf = (accept: Band | undefined): Width =>
  accept === undefined ? { plus: 0, minus: 0 } : typeof accept === 'number' ? { plus: accept, minus: accept } : accept;

/** Is `value` within the band around `right`, ends included? */
export const within = (value: number, right: number, band: Width): boolean =>
  value - right <= band.plus + SLACK && right - value <= band.minus + SLACK;

/** Signed way from `right` to `value` on the compass, -180 < x ≤ 180: 360 equals 0. */
export function turn(value: number, right: number): number {
  const d = (((value - right) % 360) + 360) % 360;
  return d > 180 ? d - 360 : d;
}
