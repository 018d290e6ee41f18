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

/**
 * The least stability that the memory model knows, days, and rows of the grid from there up to `S_LEAST`: wide steps, for
 * what was missed time after time. Without them it would be planned as if one right answer made up for all of that.
 */
const S_FLOOR = 0.001;
const LOW = 2;

const LOG_FLOOR = Math.log(S_FLOOR);
const LOG_LEAST = Math.log(S_LEAST);
const LOG_SPAN = Math.log(S_MOST) - LOG_LEAST;

/** @param above rows from `S_LEAST` on */
const stabilityOf = (row: number, above: number): number =>
  Math.exp(
    row < LOW ? LOG_FLOOR + (row / LOW) * (LOG_LEAST - LOG_FLOOR) : LOG_LEAST + ((row - LOW) / (above - 1)) * LOG_SPAN,
  );

/** The other way round: between two rows too. */
const rowOf = (s: number, above: number): number => {
  const log = Math.log(s);
  return log < LOG_LEAST
    ? (LOW * (log - LOG_FLOOR)) / (LOG_LEAST - LOG_FLOOR)
    : LOW + ((log - LOG_LEAST) / LOG_SPAN) * (above - 1);
};

/** 28 × 4 suffices for good decisions; a finer one tells how much was lost by it. @param above rows from `S_LEAST` on */
export const makeGrid = (above = 28, columns = 4): Grid => {
  const rows = LOW + above;
  const s = new Float64Array(rows * columns);
  const d = new Float64Array(rows * columns);
  for (let node = 0; node < s.length; node++) {
    s[node] = stabilityOf(Math.floor(node / columns), above);
    d[node] = D_LEAST + ((D_MOST - D_LEAST) * (node % columns)) / (columns - 1);
  }
  return { rows, columns, s, d };
};

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
  const y = Math.min(rows - 1, Math.max(0, rowOf(s, rows - LOW)));
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
