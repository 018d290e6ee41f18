/**
 * @param x where
 * @param gradient written into
 * @returns the value; Infinity or NaN where there is none
 */
export type Objective = (x: Float64Array, gradient: Float64Array) => number;

export interface Minimum {
  readonly x: Float64Array;
  readonly value: number;
  readonly steps: number;
  /** Evaluations of the objective. */
  readonly evaluations: number;
  readonly why: 'flat' | 'no progress' | 'too many steps' | 'stopped';
}

export interface MinimizeOptions {
  /** Largest part of the gradient at which it is called flat. */
  readonly flat?: number;
  /** Steps that gain less than this, twice in a row, end it. */
  readonly least?: number;
  readonly steps?: number;
  /** Asked before each evaluation. */
  readonly stopped?: () => boolean;
}

/** Constants of the weak Wolfe conditions: enough descent, enough of the slope gone (Nocedal & Wright 2006, p. 62). */
const DESCENT = 1e-4;
const SLOPE = 0.9;
const LONGEST_SEARCH = 30;

/**
 * Minimum of a smooth function by BFGS (Nocedal & Wright 2006, algorithm 6.1, initial scaling 6.20) with a
 * line search that doubles and halves until the weak Wolfe conditions hold (Lewis & Overton 2013): it also copes with
 * the kinks that clipped weights make.
 */
export const minimize = (
  objective: Objective,
  start: ArrayLike<number>,
  { flat = 1e-5, least = 1e-9, steps: most = 100, stopped = () => false }: MinimizeOptions = {},
): Minimum => {
  const n = start.length;
  let here = placeAt(objective, Float64Array.from(start));
  let evaluations = 1;
  let inverse: Float64Array | null = null;
  let small = 0;
  const end = (steps: number, why: Minimum['why']): Minimum => ({
    x: here.x,
    value: here.value,
    steps,
    evaluations,
    why,
  });

  /** The longest place along a direction that the search found and that descends; null: none, or stopped. */
  const search = (along: Float64Array, slope: number, first: number): Place | null => {
    let low: Place | null = null;
    let from = 0;
    let high = Number.POSITIVE_INFINITY;
    let length = first;
    for (let tries = 0; tries < LONGEST_SEARCH && !stopped(); tries++) {
      const there = placeAt(
        objective,
        here.x.map((one, i) => one + length * (along[i] as number)),
      );
      evaluations += 1;
      if (!(there.value <= here.value + DESCENT * length * slope)) high = length;
      else {
        low = there;
        from = length;
        if (dot(there.gradient, along) >= SLOPE * slope) break;
      }
      length = high === Number.POSITIVE_INFINITY ? 2 * from : (from + high) / 2;
    }
    return low;
  };

  for (let steps = 0; steps < most; steps++) {
    if (stopped()) return end(steps, 'stopped');
    const { gradient } = here;
    if (gradient.every((one) => Math.abs(one) <= flat)) return end(steps, 'flat');
    const size = Math.sqrt(dot(gradient, gradient));
    const along: Float64Array = inverse === null ? gradient.map((one) => -one) : downhill(inverse, gradient);
    // Nothing known of curvature: the first try goes a unit of length.
    const there = search(along, dot(gradient, along), inverse === null ? Math.min(1, 1 / size) : 1);
    if (there === null) return end(steps, stopped() ? 'stopped' : 'no progress');
    const s = there.x.map((one, i) => one - (here.x[i] as number));
    const y = there.gradient.map((one, i) => one - (gradient[i] as number));
    small = here.value - there.value < least ? small + 1 : 0;
    here = there;
    if (small >= 2) return end(steps + 1, 'flat');
    const sy = dot(s, y);
    // Without positive curvature the update would lose its positive definiteness.
    if (sy > 1e-12 * Math.sqrt(dot(s, s) * dot(y, y))) {
      inverse ??= identity(n, sy / dot(y, y));
      update(inverse, s, y, sy);
    }
  }
  return end(most, 'too many steps');
};

interface Place {
  readonly x: Float64Array;
  readonly value: number;
  readonly gradient: Float64Array;
}

const placeAt = (objective: Objective, x: Float64Array): Place => {
  const gradient = new Float64Array(x.length);
  return { x, value: objective(x, gradient), gradient };
};

/** -H g */
const downhill = (inverse: Float64Array, gradient: Float64Array): Float64Array => {
  const n = gradient.length;
  return gradient.map((_, i) => -dot(inverse.subarray(i * n, (i + 1) * n), gradient));
};

const identity = (n: number, scale: number): Float64Array => {
  const out = new Float64Array(n * n);
  for (let i = 0; i < n; i++) out[i * n + i] = scale;
  return out;
};

const dot = (a: Float64Array, b: Float64Array): number => {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += (a[i] as number) * (b[i] as number);
  return sum;
};

/** H ← (I - ρ s yᵀ) H (I - ρ y sᵀ) + ρ s sᵀ, ρ = 1 / sᵀy (Nocedal & Wright 2006, 6.17). */
const update = (inverse: Float64Array, s: Float64Array, y: Float64Array, sy: number): void => {
  const n = s.length;
  const hy = downhill(inverse, y).map((one) => -one);
  const factor = (1 + dot(y, hy) / sy) / sy;
  for (let i = 0; i < n; i++) {
    const [si, hyi] = [s[i] as number, hy[i] as number];
    for (let j = 0; j < n; j++) {
      const change = factor * si * (s[j] as number) - (hyi * (s[j] as number) + si * (hy[j] as number)) / sy;
      inverse[i * n + j] = (inverse[i * n + j] as number) + change;
    }
  }
};
