/** Where values are kept: log stability × difficulty. Between, they are interpolated. */
export interface Grid {
  /** Number of stabilities, and of difficulties. */
  readonly rows: number;
  readonly columns: number;
  /** Stability, days, and difficulty of each node; node = row × columns + column. */
  readonly s: Float64Array;
  readonly d: Float64Array;
}

const S_LEAST = 0.05;
const S_MOST = 1500;
const D_LEAST = 1;
const D_MOST = 10;

/** 28 × 4 suffices for good decisions; a finer one tells how much was lost by it. */
export const makeGrid = (rows = 28, columns = 4): Grid => {
  const s = new Float64Array(rows * columns);
  const d = new Float64Array(rows * columns);
  for (let node = 0; node < s.length; node++) {
    const row = Math.floor(node / columns);
    s[node] = S_LEAST * (S_MOST / S_LEAST) ** (row / (rows - 1));
    d[node] = D_LEAST + ((D_MOST - D_LEAST) * (node % columns)) / (columns - 1);
  }
  return { rows, columns, s, d };
};

const LOG_LEAST = Math.log(S_LEAST);
const LOG_SPAN = Math.log(S_MOST) - LOG_LEAST;

/**
 * The four nodes around a state (bilinear in log stability and difficulty; outside the grid its edge).
 * @param share what the four weights add up to
 * @param weights where they are put, from `at` on: of the node returned, the next, and the two that lie `columns` on
 * @returns the first of the four nodes
 */
export const locate = (
  { rows, columns }: Grid,
  s: number,
  d: number,
  share: number,
  weights: Float64Array,
  at: number,
): number => {
  const y = Math.min(rows - 1, Math.max(0, ((Math.log(s) - LOG_LEAST) / LOG_SPAN) * (rows - 1)));
  const x = Math.min(columns - 1, Math.max(0, ((d - D_LEAST) / (D_MOST - D_LEAST)) * (columns - 1)));
  const row = Math.min(rows - 2, Math.floor(y));
  const column = Math.min(columns - 2, Math.floor(x));
  const fy = y - row;
  const fx = x - column;
  weights[at] = share * (1 - fy) * (1 - fx);
  weights[at + 1] = share * (1 - fy) * fx;
  weights[at + 2] = share * fy * (1 - fx);
  weights[at + 3] = share * fy * fx;
  return row * columns + column;
};
