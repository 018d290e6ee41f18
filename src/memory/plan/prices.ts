import type { Solver } from './descent.ts';

export interface Priced {
  /** Reward per second, for each day. */
  readonly prices: Float64Array;
  /** The last blur: at it use comes closest to the minutes. */
  readonly blur: number;
  /** Times that the item problems were solved. */
  readonly rounds: number;
}

export interface Effort {
  /** Blurs, one after the other: the coarse ones show the way, the last one the prices. */
  readonly blurs: readonly number[];
  /** Steps at each of them, at most. */
  readonly steps: number;
  /** Share of the minutes that use may differ from them by, on average; three times as much before the last blur. */
  readonly near: number;
}

/** A price below this is none: a minute is worth less than a ten-thousandth of an item. */
const NOTHING = 1e-6;
/** Blur for each unit of what a question costs at the price of the day. */
const FINEST = 0.002;
/** A step changes no price by more than this factor, as a logarithm. */
const FARTHEST_STEP = 1.5;

/**
 * Prices at which the minutes are just used up: the minimum of the Lagrangian dual, convex in the prices, by BFGS on
 * their logarithms (Nocedal & Wright 2006, algorithm 6.1, with backtracking). The maximum over days is softened, or use
 * would jump from day to day, as all items never met are alike.
 * @param budget s for each day; 0 closes it
 * @param from first prices
 * @param cost s that a question takes, about
 * @param progress told the share done, 0..1; false stops
 */
export const findPrices = (
  solver: Solver,
  budget: Float64Array,
  from: Float64Array,
  { blurs, steps, near }: Effort,
  cost: number,
  progress: (share: number) => boolean = () => true,
): Priced | null => {
  const open = [...budget.keys()].filter((day) => (budget[day] as number) > 0);
  const size = open.length;
  const prices = Float64Array.from(budget, (b) => (b > 0 ? 0 : Number.POSITIVE_INFINITY));
  let rounds = 0;
  const whole = open.reduce((sum, day) => sum + (budget[day] as number), 0);

  const at = (logs: Float64Array, blur: number): { value: number; slope: Float64Array; off: number } => {
    for (const [i, day] of open.entries()) prices[day] = Math.exp(logs[i] as number);
    let value = solver.descend(prices, blur);
    const used = solver.flow();
    rounds += 1;
    const slope = new Float64Array(size);
    let off = 0;
    for (const [i, day] of open.entries()) {
      const price = prices[day] as number;
      const left = (budget[day] as number) - (used[day] as number);
      value += price * (budget[day] as number);
      slope[i] = left * price;
      // Minutes left over at no price are no fault.
      off += price > NOTHING * 10 ? Math.abs(left) : Math.max(0, -left);
    }
    return { value, slope, off: off / whole };
  };

  const logs = Float64Array.from(open, (day) => Math.log(Math.max(NOTHING, from[day] as number)));
  if (size === 0) solver.descend(prices, 0);
  let last = 0;
  for (const [stage, blur] of blurs.entries()) {
    // Where prices are high a finer choice than this makes use jump, and nothing better.
    const finest = size === 0 ? 0 : FINEST * middle(prices, open) * cost;
    if (size === 0 || (stage > 0 && blur < finest)) break;
    last = blur;
    const next = blurs[stage + 1];
    const enough = next === undefined || next < finest ? near : 3 * near;
    let here = at(logs, blur);
    const inverse = identity(size);
    let isFresh = true;
    for (let step = 0; step < steps; step++) {
      if (!progress((stage + step / steps) / blurs.length)) return null;
      if (here.off < enough) break;
      const move = times(inverse, here.slope);
      if (isFresh) {
        // The first step: a tenth, where use differs most.
        const most = Math.max(...move.map(Math.abs), 1e-300);
        for (let i = 0; i < size; i++) move[i] = ((move[i] as number) / most) * 0.3;
      }
      const longest = Math.max(...move.map(Math.abs));
      if (longest > FARTHEST_STEP)
        for (let i = 0; i < size; i++) move[i] = (move[i] as number) * (FARTHEST_STEP / longest);
      const descent = dot(move, here.slope);
      if (!(descent > 0)) {
        inverse.set(identity(size));
        if (isFresh) break;
        isFresh = true;
        continue;
      }
      const aim = new Float64Array(size);
      let length = 1;
      let there = here;
      for (let tries = 0; tries < 6; tries++, length /= 3) {
        for (let i = 0; i < size; i++)
          aim[i] = Math.max(Math.log(NOTHING), (logs[i] as number) - length * (move[i] as number));
        there = at(aim, blur);
        if (there.value <= here.value - 1e-4 * length * descent) break;
      }
      if (there.value > here.value) {
        if (isFresh) break;
        inverse.set(identity(size));
        isFresh = true;
        continue;
      }
      const moved = new Float64Array(size);
      const bent = new Float64Array(size);
      for (let i = 0; i < size; i++) {
        moved[i] = (aim[i] as number) - (logs[i] as number);
        bent[i] = (there.slope[i] as number) - (here.slope[i] as number);
      }
      const curve = dot(moved, bent);
      if (curve > 1e-12) {
        if (isFresh) scale(inverse, curve / dot(bent, bent));
        update(inverse, moved, bent, curve);
        isFresh = false;
      }
      logs.set(aim);
      here = there;
    }
  }
  for (const [i, day] of open.entries()) {
    const price = Math.exp(logs[i] as number);
    prices[day] = price <= NOTHING * 1.01 ? 0 : price;
  }
  return { prices, blur: last, rounds };
};

const middle = (prices: Float64Array, open: readonly number[]): number => {
  const sorted = open.map((day) => prices[day] as number).sort((a, b) => a - b);
  return sorted[sorted.length >> 1] ?? 0;
};

const dot = (a: Float64Array, b: Float64Array): number => {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += (a[i] as number) * (b[i] as number);
  return sum;
};

const identity = (size: number): Float64Array =>
  Float64Array.from({ length: size * size }, (_, i) => (i % (size + 1) === 0 ? 1 : 0));

const scale = (matrix: Float64Array, by: number): void => {
  for (let i = 0; i < matrix.length; i++) matrix[i] = (matrix[i] as number) * by;
};

const times = (matrix: Float64Array, vector: Float64Array): Float64Array => {
  const size = vector.length;
  return Float64Array.from(vector, (_, i) => {
    let sum = 0;
    for (let j = 0; j < size; j++) sum += (matrix[i * size + j] as number) * (vector[j] as number);
    return sum;
  });
};

/** H ← (I − ρ s yᵀ) H (I − ρ y sᵀ) + ρ s sᵀ with ρ = 1 / yᵀs. */
const update = (inverse: Float64Array, s: Float64Array, y: Float64Array, curve: number): void => {
  const size = s.length;
  const hy = times(inverse, y);
  const both = (1 + dot(y, hy) / curve) / curve;
  for (let i = 0; i < size; i++)
    for (let j = 0; j < size; j++)
      inverse[i * size + j] =
        (inverse[i * size + j] as number) +
        both * (s[i] as number) * (s[j] as number) -
        ((hy[i] as number) * (s[j] as number) + (s[i] as number) * (hy[j] as number)) / curve;
};
