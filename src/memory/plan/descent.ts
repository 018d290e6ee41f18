import { outcomeOf } from './outcome.ts';
import type { Problem } from './problem.ts';
import { rewardOf } from './reward.ts';
import { type Transitions, WIDTH } from './transitions.ts';
import type { PlanClass } from './types.ts';

/** Weight of a wished-for choice below which it is not followed. */
export const NEGLIGIBLE = 1e-7;
/** Choices worth less than the best by more blurs than this have no share: e^-14 is a millionth. */
const BLURS = 14;
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
  /** Values of a class by the last `descend`: day × nodes, days before its check. */
  valueOf(c: number): Float32Array;
}

export interface Outcome {
  /** For each start: expected recall on its check day, and expected number of questions. */
  readonly recall: Float64Array;
  readonly asks: Float64Array;
  /** For each start: chance that it is asked at all. */
  readonly met: Float64Array;
  /** Sum over items of recall on each day, 0 .. days; after its check an item counts as on it. */
  readonly curve: Float64Array;
}

/** What is chosen after an answer, or at a start: days from `from` to before `until` to ask on, in part, or never. */
export interface Choices {
  /** At row × (days + 1) + u; u = days is never. Of other days they mean nothing. */
  readonly shares: Float64Array;
  readonly from: Uint8Array;
  readonly until: Uint8Array;
}

const choicesFor = (rows: number, days: number): Choices => ({
  shares: new Float64Array(rows * (days + 1)),
  from: new Uint8Array(rows),
  until: new Uint8Array(rows),
});

/** Everything that a solver keeps. */
export interface Workings {
  /** For each class: row t × nodes + node. */
  readonly choices: readonly Choices[];
  readonly startChoices: Choices;
  readonly mass: readonly Float64Array[];
}

interface Family {
  readonly end: number;
  readonly members: readonly number[];
  readonly value: Float64Array;
}

export const makeSolver = (problem: Problem): Solver => {
  const { days, classes, ends, nodes, starts } = problem;
  const { grid, asked, recall } = nodes;
  const { columns } = grid;
  const size = grid.s.length;
  const { starts: list } = starts;
  const width = days + 1;
  // Classes of the same check day are worked out together, or the tables would be read anew for each.
  const families = [...new Set(ends)].map((end) => {
    const members = [...ends.keys()].filter((c) => ends[c] === end);
    // (t × nodes + node) × members + member.
    return { end, members, value: new Float64Array(end * size * members.length) };
  });
  const familyOf = classes.map((_, c) => families.find(({ members }) => members.includes(c)) as Family);
  const choices = ends.map((end) => choicesFor(end * size, days));
  const startChoices = choicesFor(list.count, days);
  const mass = ends.map((end) => new Float64Array(end * size));
  const rewards = classes.map(({ bend }) => recall.map((r) => rewardOf(r, bend)));
  /** Member × width + u. */
  const scores = new Float64Array(width * classes.length);
  /** What asking costs on a day: class × width + u; and the same of the start in hand. */
  const pay = new Float64Array(width * classes.length);
  const startPay = new Float64Array(width);
  const used = new Float64Array(days);

  const descend = (prices: Float64Array, blur: number): number => {
    for (const [c, { cost }] of classes.entries())
      for (let u = 0; u < days; u++) pay[c * width + u] = cost * (prices[u] as number);
    for (const family of families) {
      const { end, members, value } = family;
      const step = members.length;
      const first = members[0] as number;
      for (let t = end - 1; t >= 0; t--)
        for (let node = 0; node < size; node++) {
          const row = t * size + node;
          // Of a family the classes follow one another.
          score(asked, node * (days - 1), t + 1, end - 1, value, size, columns, step, 0, step, scores, width);
          for (let m = 0; m < step; m++) {
            const c = first + m;
            const never = (rewards[c] as Float64Array)[node * width + end - t] as number;
            const into = choices[c] as Choices;
            value[row * step + m] = choose(scores, m * width, t + 1, end, never, pay, c * width, blur, into, row, days);
          }
        }
    }
    let total = 0;
    for (let start = 0; start < list.count; start++) {
      const kind = list.kind[start] as number;
      const { end, members, value } = familyOf[kind] as Family;
      const m = members.indexOf(kind);
      // What was asked today is not asked again today.
      const from = list.gap[start] === 0 ? 1 : 0;
      const step = members.length;
      score(starts.asked, start * days + from, from, end - 1, value, size, columns, step, m, m + 1, scores, width);
      for (let u = from; u < end; u++) startPay[u] = (list.cost[start] as number) * (prices[u] as number);
      const never = rewardOf(starts.recall[start * width + end] as number, (classes[kind] as PlanClass).bend);
      const worth = choose(scores, m * width, from, end, never, startPay, 0, blur, startChoices, start, days);
      total += (list.weight[start] as number) * worth;
    }
    return total;
  };

  const flow = (): Float64Array => {
    used.fill(0);
    for (const m of mass) m.fill(0);
    for (let start = 0; start < list.count; start++) {
      const weight = list.weight[start] as number;
      const m = mass[list.kind[start] as number] as Float64Array;
      const until = startChoices.until[start] as number;
      for (let u = startChoices.from[start] as number; u < until; u++) {
        const share = startChoices.shares[start * width + u] as number;
        if (share < NEGLIGIBLE) continue;
        used[u] = (used[u] as number) + share * weight * (list.cost[start] as number);
        send(share * weight, start * days + u, starts.asked.nodes, starts.asked.chances, m, u * size, columns);
      }
    }
    for (let c = 0; c < classes.length; c++) flowOf(c);
    return used;
  };

  const flowOf = (c: number): void => {
    const m = mass[c] as Float64Array;
    const { shares, from, until } = choices[c] as Choices;
    const { cost } = classes[c] as PlanClass;
    const { chances, nodes: to } = asked;
    const end = ends[c] as number;
    for (let t = 0; t < end; t++) {
      for (let node = 0; node < size; node++) {
        const row = t * size + node;
        const whole = m[row] as number;
        if (whole < NEGLIGIBLE) continue;
        const last = until[row] as number;
        for (let u = from[row] as number; u < last; u++) {
          const part = whole * (shares[row * width + u] as number);
          if (part < NEGLIGIBLE) continue;
          used[u] = (used[u] as number) + part * cost;
          send(part, node * (days - 1) + u - t - 1, to, chances, m, u * size, columns);
        }
      }
    }
  };

  return {
    descend,
    flow,
    outcome: () => outcomeOf(problem, { choices, startChoices, mass }),
    valueOf: (c) => {
      const { end, members, value } = familyOf[c] as Family;
      const m = members.indexOf(c);
      return Float32Array.from({ length: end * size }, (_, row) => value[row * members.length + m] as number);
    },
  };
};

/**
 * Puts what is expected after asking an item on the days `from` to `until` into `scores`, for members `first` to before
 * `end` of a family. Most of the time of a plan goes here, so nothing of it is a loop, and nothing a closure.
 * @param row of the first of these days
 * @param step members of the family
 */
const score = (
  table: Transitions,
  row: number,
  from: number,
  until: number,
  value: Float64Array,
  size: number,
  columns: number,
  step: number,
  first: number,
  end: number,
  scores: Float64Array,
  width: number,
): void => {
  const { chances, nodes } = table;
  const below = columns * step;
  for (let u = from, at = row; u <= until; u++, at++) {
    const i = at * WIDTH;
    const a0 = chances[i] as number;
    const a1 = chances[i + 1] as number;
    const a2 = chances[i + 2] as number;
    const a3 = chances[i + 3] as number;
    const b0 = chances[i + 4] as number;
    const b1 = chances[i + 5] as number;
    const b2 = chances[i + 6] as number;
    const b3 = chances[i + 7] as number;
    const c0 = chances[i + 8] as number;
    const c1 = chances[i + 9] as number;
    const c2 = chances[i + 10] as number;
    const c3 = chances[i + 11] as number;
    let a = (u * size + (nodes[at * 3] as number)) * step + first;
    let b = (u * size + (nodes[at * 3 + 1] as number)) * step + first;
    let c = (u * size + (nodes[at * 3 + 2] as number)) * step + first;
    for (let m = first; m < end; m++, a++, b++, c++)
      scores[m * width + u] =
        a0 * (value[a] as number) +
        a1 * (value[a + step] as number) +
        a2 * (value[a + below] as number) +
        a3 * (value[a + below + step] as number) +
        b0 * (value[b] as number) +
        b1 * (value[b + step] as number) +
        b2 * (value[b + below] as number) +
        b3 * (value[b + below + step] as number) +
        c0 * (value[c] as number) +
        c1 * (value[c + step] as number) +
        c2 * (value[c + below] as number) +
        c3 * (value[c + below + step] as number);
  }
};

/**
 * e^x for x ≤ 0, nought below −BLURS: Taylor's four terms for a sixty-fourth of x, then squared six times. Off by less
 * than 2e-6 of its value down to −5 and 3e-4 at −14, and three times as fast as the exact one, which took half the time.
 */
const powerOfE = (x: number): number => {
  if (x < -BLURS) return 0;
  const y = x / 64;
  const once = 1 + y * (1 + y * (1 / 2 + y * (1 / 6 + y / 24)));
  const to4 = once * once * (once * once);
  const to16 = to4 * to4 * (to4 * to4);
  return to16 * to16 * (to16 * to16);
};

/**
 * Puts the shares of the days `from` to before `end` and of never asking again into `into`.
 * @param scores those of the item begin `at`
 * @param pay what asking costs, from `payAt` on
 * @returns the (soft) maximum
 */
const choose = (
  scores: Float64Array,
  at: number,
  from: number,
  end: number,
  never: number,
  pay: Float64Array,
  payAt: number,
  blur: number,
  into: Choices,
  row: number,
  days: number,
): number => {
  const { shares } = into;
  let top = never;
  for (let u = from; u < end; u++) {
    const one = (scores[at + u] as number) - (pay[payAt + u] as number);
    scores[at + u] = one;
    if (one > top) top = one;
  }
  const least = top - BLURS * blur;
  let low = from;
  let high = end - 1;
  while (low <= high && (scores[at + low] as number) < least) low += 1;
  while (high >= low && (scores[at + high] as number) < least) high -= 1;
  const out = row * (days + 1);
  into.from[row] = low;
  if (blur === 0) {
    // One day alone, the first of the best; never only if it is better than all.
    into.until[row] = Math.min(low, high) + 1;
    if (low <= high) shares[out + low] = 1;
    shares[out + days] = low <= high ? 0 : 1;
    return top;
  }
  into.until[row] = high + 1;
  let sum = 0;
  for (let u = low; u <= high; u++) {
    const share = powerOfE(((scores[at + u] as number) - top) / blur);
    shares[out + u] = share;
    sum += share;
  }
  const last = powerOfE((never - top) / blur);
  sum += last;
  const part = 1 / sum;
  for (let u = low; u <= high; u++) shares[out + u] = (shares[out + u] as number) * part;
  shares[out + days] = last * part;
  return top + blur * Math.log(sum);
};

/** Adds what an answer leads to, to the mass of the nodes of its day, which begin at `base`. */
export const send = (
  part: number,
  row: number,
  to: Uint16Array,
  chances: Float64Array,
  m: Float64Array,
  base: number,
  columns: number,
): void => {
  for (let v = 0; v < 3; v++) {
    const i = row * WIDTH + 4 * v;
    const j = base + (to[row * 3 + v] as number);
    m[j] = (m[j] as number) + part * (chances[i] as number);
    m[j + 1] = (m[j + 1] as number) + part * (chances[i + 1] as number);
    m[j + columns] = (m[j + columns] as number) + part * (chances[i + 2] as number);
    m[j + columns + 1] = (m[j + columns + 1] as number) + part * (chances[i + 3] as number);
  }
};
