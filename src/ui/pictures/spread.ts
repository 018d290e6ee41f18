/**
 * Where labels stand so that none overlaps the next and all are as near their places as they can be: the least sum of
 * squares, found by pooling neighbours that would touch (isotonic regression).
 * @param wanted centres, rising
 * @param sizes along the line, one each
 * @param least, most ends of the room; where the labels need more, they begin at `least` and go on beyond `most`
 * @returns centres, rising
 */
export const spread = (
  wanted: readonly number[],
  sizes: readonly number[],
  [least, most]: readonly [number, number],
): number[] => {
  // Less the room of those before, a centre may stand anywhere at or after the one before.
  const taken: number[] = [];
  sizes.forEach((size, i) => {
    taken.push(i === 0 ? size / 2 : (taken[i - 1] ?? 0) + ((sizes[i - 1] ?? 0) + size) / 2);
  });
  const pools: { sum: number; count: number }[] = [];
  wanted.forEach((at, i) => {
    let pool = { sum: at - (taken[i] ?? 0), count: 1 };
    for (let last = pools.at(-1); last !== undefined; last = pools.at(-1)) {
      if (last.sum / last.count <= pool.sum / pool.count) break;
      pool = { sum: pool.sum + last.sum, count: pool.count + last.count };
      pools.pop();
    }
    pools.push(pool);
  });
  const room = most - least - sizes.reduce((a, b) => a + b, 0);
  return pools
    .flatMap(({ sum, count }) => Array<number>(count).fill(sum / count))
    .map((at, i) => least + Math.max(0, Math.min(at - least, room)) + (taken[i] ?? 0));
};
