import { type Choices, NEGLIGIBLE, type Outcome, send, type Workings } from './descent.ts';
import type { Problem } from './problem.ts';
import { expected } from './transitions.ts';

/** Expected recall and number of questions by the choices made. */
export const outcomeOf = (problem: Problem, workings: Workings): Outcome => {
  const { days, classes, ends, nodes, starts } = problem;
  const { grid, asked, recall } = nodes;
  const size = grid.s.length;
  const width = days + 1;
  const { count, kind } = starts.starts;
  const result = {
    recall: new Float64Array(count),
    asks: new Float64Array(count),
    met: new Float64Array(count),
    curve: curveOf(problem, workings),
  };
  // After an answer, by backward induction.
  const recallAfter = ends.map((end) => new Float64Array(end * size));
  const asksAfter = ends.map((end) => new Float64Array(end * size));
  for (let c = 0; c < classes.length; c++) {
    const { shares, from, until } = workings.choices[c] as Choices;
    const r = recallAfter[c] as Float64Array;
    const a = asksAfter[c] as Float64Array;
    const end = ends[c] as number;
    for (let row = end * size - 1; row >= 0; row--) {
      const t = Math.floor(row / size);
      const node = row % size;
      let sum = (shares[row * width + days] as number) * (recall[node * width + end - t] as number);
      let asks = 0;
      for (let u = from[row] as number; u < (until[row] as number); u++) {
        const share = shares[row * width + u] as number;
        if (share < NEGLIGIBLE) continue;
        const to = node * (days - 1) + u - t - 1;
        sum += share * expected(asked, to, grid.columns, r, u * size);
        asks += share * (1 + expected(asked, to, grid.columns, a, u * size));
      }
      r[row] = sum;
      a[row] = asks;
    }
  }
  const { shares, from, until } = workings.startChoices;
  for (let start = 0; start < count; start++) {
    const c = kind[start] as number;
    const stop = shares[start * width + days] as number;
    let sum = stop * (starts.recall[start * width + (ends[c] as number)] as number);
    let asks = 0;
    for (let u = from[start] as number; u < (until[start] as number); u++) {
      const share = shares[start * width + u] as number;
      if (share < NEGLIGIBLE) continue;
      const row = start * days + u;
      sum += share * expected(starts.asked, row, grid.columns, recallAfter[c] as Float64Array, u * size);
      asks += share * (1 + expected(starts.asked, row, grid.columns, asksAfter[c] as Float64Array, u * size));
    }
    result.recall[start] = sum;
    result.asks[start] = asks;
    result.met[start] = 1 - stop;
  }
  return result;
};

/** Sum over items of recall on each day: the items followed forward. */
const curveOf = (problem: Problem, { choices, startChoices, mass }: Workings): Float64Array => {
  const { days, classes, ends, nodes, starts } = problem;
  const { grid, asked, recall } = nodes;
  const size = grid.s.length;
  const width = days + 1;
  const { starts: list } = starts;
  const curve = new Float64Array(width);
  /** A part whose recall is `table[at + day]`, on days `first` to `to`; after its check as on it. */
  const add = (part: number, table: Float64Array, at: number, first: number, to: number, end: number) => {
    for (let day = first; day <= to; day++)
      curve[day] = (curve[day] as number) + part * (table[at + Math.min(day, end)] as number);
  };
  for (const m of mass) m.fill(0);
  for (let start = 0; start < list.count; start++) {
    const c = list.kind[start] as number;
    const { shares, from, until } = startChoices;
    const at = start * width;
    const whole = list.items[start] as number;
    add(whole * (shares[at + days] as number), starts.recall, at, 0, days, ends[c] as number);
    for (let u = from[start] as number; u < (until[start] as number); u++) {
      const part = whole * (shares[at + u] as number);
      if (part < NEGLIGIBLE) continue;
      add(part, starts.recall, at, 0, u, days);
      const { nodes: to, chances } = starts.asked;
      send(part, start * days + u, to, chances, mass[c] as Float64Array, u * size, grid.columns);
    }
  }
  for (let c = 0; c < classes.length; c++) {
    const { shares, from, until } = choices[c] as Choices;
    const m = mass[c] as Float64Array;
    const end = ends[c] as number;
    for (let row = 0; row < end * size; row++) {
      const whole = m[row] as number;
      if (whole < NEGLIGIBLE) continue;
      const t = Math.floor(row / size);
      const node = row % size;
      // Recall on a day is that of the gap since t.
      const at = node * width - t;
      add(whole * (shares[row * width + days] as number), recall, at, t + 1, days, end);
      for (let u = from[row] as number; u < (until[row] as number); u++) {
        const part = whole * (shares[row * width + u] as number);
        if (part < NEGLIGIBLE) continue;
        add(part, recall, at, t + 1, u, days);
        send(part, node * (days - 1) + u - t - 1, asked.nodes, asked.chances, m, u * size, grid.columns);
      }
    }
  }
  return curve;
};
