import type { Problem } from './problem.ts';
import { rewardOf } from './reward.ts';
import { expected, type Transitions, WIDTH } from './transitions.ts';
import type { PlanClass } from './types.ts';

/** Weight of a wished-for choice below which it is not followed. */
const NEGLIGIBLE = 1e-7;

/** Solves the item problems by backward induction, and follows the items forward. */
export interface Solver {
  /**
   * @param prices reward per second, for each day; Infinity where nothing can be asked
   * @param blur where two days are worth nearly as much as this, both are taken in part (soft maximum; its value is
   * never less than the maximum); 0 = the best one alone
   * @returns the sum over all items of what each is worth at these prices
   */
  descend(prices: Float64Array, blur: number): number;
  /** s asked for on each day by the last `descend`. */
  flow(): Float64Array;
  /** Recall by the choices of the last `descend`. */
  outcome(): Outcome;
  readonly values: readonly Float64Array[];
}

export interface Outcome {
  /** For each start: expected recall on the check day, and expected number of questions. */
  readonly recall: Float64Array;
  readonly asks: Float64Array;
  /** For each start: chance that it is asked at all. */
  readonly met: Float64Array;
  /** Sum over items of recall on each day, 0 .. days. */
  readonly curve: Float64Array;
}

export const makeSolver = (problem: Problem): Solver => {
  const { days, classes, nodes, starts } = problem;
  const { grid, asked, recall } = nodes;
  const size = grid.s.length;
  const { starts: list } = starts;
  // choice[class]: (t × nodes + node) × (days + 1) + u; the last one, u = days, is never to ask again.
  const width = days + 1;
  const values = classes.map(() => new Float64Array(days * size));
  const choices = classes.map(() => new Float64Array(days * size * width));
  const startChoices = new Float64Array(list.count * width);
  const scores = new Float64Array(width * size);
  const rewards = classes.map(({ bend }) => recall.map((r) => rewardOf(r, bend)));
  const mass = classes.map(() => new Float64Array(days * size));
  const used = new Float64Array(days);

  /**
   * Puts shares of the scores from `from` to `days` into `out`, from `at` on. Score u of a node is at u × size + node.
   * @returns the (soft) maximum
   */
  const choose = (node: number, from: number, blur: number, out: Float64Array, at: number): number => {
    let best = from;
    let top = scores[from * size + node] as number;
    for (let u = from + 1; u <= days; u++) {
      const score = scores[u * size + node] as number;
      if (score > top) {
        best = u;
        top = score;
      }
    }
    if (blur === 0) {
      for (let u = from; u <= days; u++) out[at + u] = 0;
      out[at + best] = 1;
      return top;
    }
    let sum = 0;
    const least = top - 16 * blur;
    for (let u = from; u <= days; u++) {
      const score = scores[u * size + node] as number;
      const share = score < least ? 0 : Math.exp((score - top) / blur);
      out[at + u] = share;
      sum += share;
    }
    for (let u = from; u <= days; u++) out[at + u] = (out[at + u] as number) / sum;
    return top + blur * Math.log(sum);
  };

  const { columns } = grid;
  const led = (row: number, table: Transitions, value: Float64Array, base: number): number =>
    expected(table, row, columns, value, base);

  const descend = (prices: Float64Array, blur: number): number => {
    for (const [c, { cost }] of classes.entries()) {
      const reward = rewards[c] as Float64Array;
      const value = values[c] as Float64Array;
      const choice = choices[c] as Float64Array;
      for (let t = days - 1; t >= 0; t--) {
        for (let u = t + 1; u < days; u++) {
          const pay = cost * (prices[u] as number);
          const from = (u - t - 1) * size;
          const base = u * size;
          for (let node = 0; node < size; node++) scores[base + node] = led(from + node, asked, value, base) - pay;
        }
        for (let node = 0; node < size; node++) {
          scores[days * size + node] = reward[(days - t) * size + node] as number;
          value[t * size + node] = choose(node, t + 1, blur, choice, (t * size + node) * width);
        }
      }
    }
    let total = 0;
    for (let start = 0; start < list.count; start++) {
      const kind = list.kind[start] as number;
      const cost = list.cost[start] as number;
      const { bend } = classes[kind] as PlanClass;
      const value = values[kind] as Float64Array;
      const gap = list.gap[start] as number;
      // What was asked today is not asked again today.
      const from = gap === 0 ? 1 : 0;
      for (let u = from; u < days; u++)
        scores[u * size] = led(start * days + u, starts.asked, value, u * size) - cost * (prices[u] as number);
      scores[days * size] = rewardOf(starts.recall[start * width + days] as number, bend);
      if (from === 1) startChoices[start * width] = 0;
      total += (list.weight[start] as number) * choose(0, from, blur, startChoices, start * width);
    }
    return total;
  };

  /** @param count what of each start is followed @param visit told of each part that waits from t to u */
  const follow = (
    count: Float64Array,
    atStart: (start: number, u: number, part: number) => void,
    atNode: (c: number, t: number, node: number, u: number, part: number) => void,
  ): void => {
    for (const m of mass) m.fill(0);
    const send = (part: number, row: number, { nodes: to, chances }: Transitions, m: Float64Array, base: number) => {
      for (let i = 0; i < WIDTH; i++) {
        const j = base + (to[row * 3 + (i >> 2)] as number) + (i & 1) + (i & 2 ? columns : 0);
        m[j] = (m[j] as number) + part * (chances[row * WIDTH + i] as number);
      }
    };
    for (let start = 0; start < list.count; start++) {
      const m = mass[list.kind[start] as number] as Float64Array;
      for (let u = 0; u <= days; u++) {
        const share = startChoices[start * width + u] as number;
        if (share < NEGLIGIBLE) continue;
        const part = share * (count[start] as number);
        atStart(start, u, part);
        if (u < days) send(part, start * days + u, starts.asked, m, u * size);
      }
    }
    for (let c = 0; c < classes.length; c++) {
      const m = mass[c] as Float64Array;
      const choice = choices[c] as Float64Array;
      for (let t = 0; t < days; t++) {
        for (let node = 0; node < size; node++) {
          const at = t * size + node;
          const whole = m[at] as number;
          if (whole < NEGLIGIBLE) continue;
          for (let u = t + 1; u <= days; u++) {
            const share = choice[at * width + u] as number;
            if (share < NEGLIGIBLE) continue;
            const part = whole * share;
            atNode(c, t, node, u, part);
            if (u < days) send(part, (u - t - 1) * size + node, asked, m, u * size);
          }
        }
      }
    }
  };

  const flow = (): Float64Array => {
    used.fill(0);
    follow(
      list.weight,
      (start, u, part) => {
        if (u === days) return;
        used[u] = (used[u] as number) + part * (list.cost[start] as number);
      },
      (c, _t, _node, u, part) => {
        if (u < days) used[u] = (used[u] as number) + part * (classes[c] as PlanClass).cost;
      },
    );
    return used;
  };

  /** Expected recall and number of questions of each start, by backward induction along the choices made. */
  const outcome = (): Outcome => {
    const { count } = list;
    const result = {
      recall: new Float64Array(count),
      asks: new Float64Array(count),
      met: new Float64Array(count),
      curve: new Float64Array(width),
    };
    const recallAfter = classes.map(() => new Float64Array(days * size));
    const asksAfter = classes.map(() => new Float64Array(days * size));
    for (let c = 0; c < classes.length; c++) {
      const choice = choices[c] as Float64Array;
      const r = recallAfter[c] as Float64Array;
      const a = asksAfter[c] as Float64Array;
      for (let t = days - 1; t >= 0; t--) {
        for (let node = 0; node < size; node++) {
          const at = t * size + node;
          const stop = choice[at * width + days] as number;
          let sum = stop * (recall[(days - t) * size + node] as number);
          let asks = 0;
          for (let u = t + 1; u < days; u++) {
            const share = choice[at * width + u] as number;
            if (share < NEGLIGIBLE) continue;
            const row = (u - t - 1) * size + node;
            sum += share * led(row, asked, r, u * size);
            asks += share * (1 + led(row, asked, a, u * size));
          }
          r[at] = sum;
          a[at] = asks;
        }
      }
    }
    for (let start = 0; start < count; start++) {
      const kind = list.kind[start] as number;
      const stop = startChoices[start * width + days] as number;
      result.recall[start] = stop * (starts.recall[start * width + days] as number);
      result.met[start] = 1 - stop;
      for (let u = 0; u < days; u++) {
        const share = startChoices[start * width + u] as number;
        if (share < NEGLIGIBLE) continue;
        const row = start * days + u;
        result.recall[start] =
          (result.recall[start] as number) +
          share * led(row, starts.asked, recallAfter[kind] as Float64Array, u * size);
        result.asks[start] =
          (result.asks[start] as number) +
          share * (1 + led(row, starts.asked, asksAfter[kind] as Float64Array, u * size));
      }
    }
    const { curve } = result;
    follow(
      list.items,
      (start, u, part) => {
        for (let day = 0; day <= u; day++)
          curve[day] = (curve[day] as number) + part * (starts.recall[start * width + day] as number);
      },
      (_c, t, node, u, part) => {
        for (let day = t + 1; day <= u; day++)
          curve[day] = (curve[day] as number) + part * (recall[(day - t) * size + node] as number);
      },
    );
    return result;
  };

  return { descend, flow, outcome, values };
};
