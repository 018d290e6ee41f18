import type { Width } from '../subjects/band.ts';

/**
 * Chance to hit a number by guessing it.
 *
 * A guesser who knows the kind of number takes a round one between nothing and twice the right one, in the
 * steps in which it is written (250 → 10, 1013 → 1): the band's share of those. Between .01 and .05 a field.
 * An estimate: nobody has measured how people guess limits.
 */
export function numberGuess(right: readonly number[], band: Width): number {
  let g = 1;
  for (const value of right) {
    const step = writtenStep(value);
    const range = Math.max(2 * Math.abs(value), 10 * step);
    const hits = Math.floor((band.plus + band.minus) / step + 1e-9) + 1;
    g *= Math.min(0.05, Math.max(0.01, (hits * step) / range));
  }
  return g;
}

/** The place of the last digit that is not 0: 250 → 10, 0.02 → 0.01. */
function writtenStep(value: number): number {
  if (value === 0) return 1;
  const text = String(Number(Math.abs(value).toPrecision(6)));
  const part = text.split('.')[1];
  if (part !== undefined) return 10 ** -part.length;
  const zeros = /0*$/.exec(text)?.[0].length ?? 0;
  return 10 ** zeros;
}
