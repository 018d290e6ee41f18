import type { Prediction } from './scores.ts';

/** Share of the points that each local line is drawn through. */
const SPAN = 0.75;

/** From so many different predictions on, lines are drawn only this far apart, and between them is interpolated. */
const EXACT = 1000;
const APART = 0.005;

/**
 * Smooth curve through points by local straight lines with tricube weights (loess, Cleveland 1979), without his
 * robust steps: those take a miss at a predicted 0.95 for an outlier and leave it out, though misses are what counts
 * here (with three steps the curve through the ten points of the tests is 1 everywhere).
 * @param x rising
 * @returns its height at each x
 */
export const loess = (x: ArrayLike<number>, y: ArrayLike<number>, span = SPAN): Float64Array => {
  const n = x.length;
  const fitted = new Float64Array(n);
  if (n === 0) return fitted;
  const near = Math.min(n, Math.max(2, Math.floor(span * n + 1e-10)));
  const step = n > EXACT ? APART * ((x[n - 1] as number) - (x[0] as number)) : 0;
  let left = 0;
  let last = 0;
  for (let i = 0; i < n; i = after(x, i, step)) {
    const at = x[i] as number;
    while (left + near < n && at - (x[left] as number) > (x[left + near] as number) - at) left += 1;
    fitted[i] = localLine(x, y, at, left, left + near);
    const away = at - (x[last] as number);
    for (let j = last + 1; j < i; j++) {
      const share = ((x[j] as number) - (x[last] as number)) / away;
      fitted[j] = (1 - share) * (fitted[last] as number) + share * (fitted[i] as number);
    }
    last = i;
  }
  // Behind the last line are only points at its very place.
  fitted.fill(fitted[last] as number, last);
  return fitted;
};

/** Where the next line stands: at the last point within a step, or else at the first one that is further. */
const after = (x: ArrayLike<number>, i: number, step: number): number => {
  const here = x[i] as number;
  let next = i + 1;
  while (next < x.length && (x[next] as number) <= here + step) next += 1;
  return next - 1 > i && (x[next - 1] as number) > here ? next - 1 : next;
};

/** Height at a place of the line through the points from..until-1, the near ones weighing more. */
const localLine = (x: ArrayLike<number>, y: ArrayLike<number>, at: number, from: number, until: number): number => {
  const radius = Math.max(at - (x[from] as number), (x[until - 1] as number) - at);
  // All of the nearest are at this very place: then all that are there.
  if (!(radius > 0)) return meanAt(x, y, at, from);
  let weight = 0;
  let sumX = 0;
  let sumY = 0;
  let sumXX = 0;
  let sumXY = 0;
  for (let j = from; j < until; j++) {
    const away = (x[j] as number) - at;
    const far = Math.abs(away) / radius;
    const w = (1 - far * far * far) ** 3;
    const value = y[j] as number;
    weight += w;
    sumX += w * away;
    sumY += w * value;
    sumXX += w * away * away;
    sumXY += w * away * value;
  }
  const meanX = sumX / weight;
  const meanY = sumY / weight;
  const spread = sumXX / weight - meanX * meanX;
  // With weight at one place only there is no slope.
  if (!(spread > 1e-12 * radius * radius)) return meanY;
  return meanY - (meanX * (sumXY / weight - meanX * meanY)) / spread;
};

const meanAt = (x: ArrayLike<number>, y: ArrayLike<number>, at: number, inside: number): number => {
  let from = inside;
  while (from > 0 && x[from - 1] === at) from -= 1;
  let sum = 0;
  let until = from;
  for (; until < x.length && x[until] === at; until++) sum += y[until] as number;
  return sum / (until - from);
};

/**
 * Integrated calibration index: mean distance, over all predictions, between what was predicted and the smoothed
 * share that came (Austin & Steyerberg 2019, Statistics in Medicine 38: 4051–4065). Null where there is nothing.
 */
export const calibrationIndex = (list: readonly Prediction[]): number | null => {
  if (list.length === 0) return null;
  const sorted = [...list].sort((a, b) => a.p - b.p);
  const x = sorted.map(({ p }) => p);
  const smooth = loess(
    x,
    sorted.map(({ right }) => (right ? 1 : 0)),
  );
  return x.reduce((sum, p, i) => sum + Math.abs(p - (smooth[i] as number)), 0) / x.length;
};
