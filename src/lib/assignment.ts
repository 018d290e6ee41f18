/** A pair that may be made, and what it is worth. */
export interface Pair {
  readonly left: number;
  readonly right: number;
  /** Greater than 0. */
  readonly worth: number;
}

/**
 * The pairs of greatest total worth of which no two share an end (maximum weight bipartite matching), not all of it needs
 * to be paired. Successive shortest paths with potentials in each connected part (Kuhn 1955, Munkres 1957): O(n³) for the n
 * of the largest part.
 */
export const bestPairs = (pairs: readonly Pair[]): Pair[] => parts(pairs).flatMap(best);

const parts = (pairs: readonly Pair[]): Pair[][] => {
  const root = new Map<string, string>();
  const find = (key: string): string => {
    let at = key;
    for (let up = root.get(at) ?? at; up !== at; up = root.get(at) ?? at) at = up;
    root.set(key, at);
    return at;
  };
  for (const { left, right } of pairs) root.set(find(`l${left}`), find(`r${right}`));
  const found = new Map<string, Pair[]>();
  for (const pair of pairs) {
    const key = find(`l${pair.left}`);
    const part = found.get(key);
    if (part === undefined) found.set(key, [pair]);
    else part.push(pair);
  }
  return [...found.values()];
};

const best = (pairs: readonly Pair[]): Pair[] => {
  const [only] = pairs;
  if (only !== undefined && pairs.length === 1) return [only];
  const lefts = [...new Set(pairs.map(({ left }) => left))];
  const rights = [...new Set(pairs.map(({ right }) => right))];
  const pairAt = new Map<number, Pair>();
  const rightAt = new Map(rights.map((right, j) => [right, j]));
  const leftAt = new Map(lefts.map((left, i) => [left, i]));
  // A column of its own for each row that stays alone: worth nothing.
  const wide = rights.length + lefts.length;
  for (const pair of pairs) {
    const key = (leftAt.get(pair.left) as number) * wide + (rightAt.get(pair.right) as number);
    if ((pairAt.get(key)?.worth ?? 0) < pair.worth) pairAt.set(key, pair);
  }
  const cost = (i: number, j: number) => -(pairAt.get(i * wide + j)?.worth ?? 0);
  const holder = cheapest(lefts.length, wide, cost);
  return [...holder].flatMap((i, j) => pairAt.get(i * wide + j) ?? []);
};

/** Rows to columns at least cost, all rows placed; rows ≤ columns. @returns the row of each column; -1: none */
const cheapest = (rows: number, columns: number, cost: (i: number, j: number) => number): Int32Array => {
  // Numbered from 1: column 0 holds the row that is being placed.
  const u = new Float64Array(rows + 1);
  const v = new Float64Array(columns + 1);
  const holder = new Int32Array(columns + 1);
  const way = new Int32Array(columns + 1);
  for (let i = 1; i <= rows; i++) {
    holder[0] = i;
    let j0 = 0;
    const least = new Float64Array(columns + 1).fill(Number.POSITIVE_INFINITY);
    const used = new Uint8Array(columns + 1);
    do {
      used[j0] = 1;
      const i0 = holder[j0] as number;
      let delta = Number.POSITIVE_INFINITY;
      let j1 = 0;
      for (let j = 1; j <= columns; j++) {
        if (used[j]) continue;
        const reduced = cost(i0 - 1, j - 1) - (u[i0] as number) - (v[j] as number);
        if (reduced < (least[j] as number)) {
          least[j] = reduced;
          way[j] = j0;
        }
        if ((least[j] as number) < delta) {
          delta = least[j] as number;
          j1 = j;
        }
      }
      for (let j = 0; j <= columns; j++) {
        if (used[j]) {
          u[holder[j] as number] = (u[holder[j] as number] as number) + delta;
          v[j] = (v[j] as number) - delta;
        } else least[j] = (least[j] as number) - delta;
      }
      j0 = j1;
    } while (holder[j0] !== 0);
    do {
      const j1 = way[j0] as number;
      holder[j0] = holder[j1] as number;
      j0 = j1;
    } while (j0 !== 0);
  }
  return holder.slice(1).map((i) => i - 1);
};
