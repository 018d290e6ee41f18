/**
 * Size of a largest matching of a bipartite graph, by augmenting paths (Kuhn 1955; Berge 1957).
 * @param targets for each left vertex its right neighbours, both sides numbered 0..n-1
 * @param alive vertices that count, on both sides alike; absent: all
 * O(vertices × edges), for the few dozen vertices of a procedure well under a millisecond.
 */
export function matchingSize(targets: readonly (readonly number[])[], alive?: readonly boolean[]): number {
  const n = targets.length;
  const leftOf = new Int32Array(n).fill(-1);
  const seen = new Int32Array(n).fill(-1);
  const augment = (left: number, round: number): boolean => {
    for (const right of targets[left] as readonly number[]) {
      if (seen[right] === round || (alive && !alive[right])) continue;
      seen[right] = round;
      const holder = leftOf[right] as number;
      if (holder === -1 || augment(holder, round)) {
        leftOf[right] = left;
        return true;
      }
    }
    return false;
  };
  let size = 0;
  for (let left = 0; left < n; left++) {
    if (alive && !alive[left]) continue;
    if (augment(left, left)) size++;
  }
  return size;
}

/**
 * The same for at most 31 vertices a side, neighbours as bits: some ten times as fast, for what is tried by the thousand.
 * @param rows for each left vertex the bits of its right neighbours
 */
export function matchingSizeOfBits(rows: Int32Array): number {
  const n = rows.length;
  const leftOf = new Int8Array(n).fill(-1);
  let seen = 0;
  const augment = (left: number): boolean => {
    for (let open = (rows[left] as number) & ~seen; open !== 0; open = (rows[left] as number) & ~seen) {
      const bit = open & -open;
      seen |= bit;
      const right = 31 - Math.clz32(bit);
      const holder = leftOf[right] as number;
      if (holder === -1 || augment(holder)) {
        leftOf[right] = left;
        return true;
      }
    }
    return false;
  };
  let size = 0;
  for (let left = 0; left < n; left++) {
    seen = 0;
    if (augment(left)) size++;
  }
  return size;
}
