/** A pair that may be made, and what it is worth. */
export interface Pair {
  readonly left: number;
  readonly right: number;
  /** Greater than 0. */
  readonly worth: number;
}

/**
 * The pairs of greatest total worth of which no two share an end (maximum weight bipartite matching), not all of it needs
 * to be paired. Successive shortest paths with potentials in each connected part (Kuhn 1955, Munkres 1957): O(n²m) for the
 * largest part, n its smaller side and m its larger.
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
  const lefts = new Map([...new Set(pairs.map(({ left }) => left))].map((left, i) => [left, i]));
  const rights = new Map([...new Set(pairs.map(({ right }) => right))].map((right, i) => [right, i]));
  const isWide = lefts.size <= rights.size;
  const [rows, columns] = isWide ? [lefts.size, rights.size] : [rights.size, lefts.size];
  // What makes no pair is worth nothing: who stays alone is put there.
  const worth = new Float64Array(rows * columns);
  const pairAt = new Map<number, Pair>();
  for (const pair of pairs) {
    const [l, r] = [lefts.get(pair.left) as number, rights.get(pair.right) as number];
    const at = isWide ? l * columns + r : r * columns + l;
    if ((worth[at] as number) >= pair.worth) continue;
    worth[at] = pair.worth;
    pairAt.set(at, pair);
  }
  const holder = assigned(rows, columns, worth);
  return [...holder].flatMap((i, j) => (i < 0 ? [] : (pairAt.get(i * columns + j) ?? [])));
};

/** Rows to columns at greatest worth, all rows placed; rows ≤ columns. @param worth row by row. @returns the row of each column; -1: none */
const assigned = (rows: number, columns: number, worth: Float64Array): Int32Array => {
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
      const row = (i0 - 1) * columns;
      let delta = Number.POSITIVE_INFINITY;
      let j1 = 0;
      for (let j = 1; j <= columns; j++) {
        if (used[j]) continue;
        const reduced = -(worth[row + j - 1] as number) - (u[i0] as number) - (v[j] as number);
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
