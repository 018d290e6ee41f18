/**
 * Which entries the files of a folder hold, by their ids: numbers of a writer have no gaps, so that some ranges say it
 * for a hundred thousand. Entries that share an id (a copied phone) are always in one file together.
 */

/** Ranges `from, to, from, to, …` rising, by writer (with `/m2` for marks of a later marker); ids of clashes one by one. */
export interface Cover {
  readonly of: Readonly<Record<string, readonly number[]>>;
  readonly clashed?: readonly string[];
}

const ID = /^([a-z0-9]+)\.(\d{1,15})(~[0-9a-z]+)?((?:\/m\d+)?)$/;

export interface EntryId {
  readonly writer: string;
  readonly n: number;
  /** Took a longer id than it was written under. */
  readonly isLonger: boolean;
  /** The id it was written under. */
  readonly base: string;
}

/** @returns null where it is no id of an entry */
export const readId = (id: string): EntryId | null => {
  const m = ID.exec(id);
  if (m === null) return null;
  const [, writer, n, longer, mark] = m;
  return { writer: `${writer}${mark}`, n: Number(n), isLonger: longer !== undefined, base: `${writer}.${n}${mark}` };
};

/** @param ids of one file */
export const coverOf = (ids: readonly string[]): Cover => {
  const numbers = new Map<string, number[]>();
  const bases = new Set(ids);
  const clashed: string[] = [];
  for (const id of ids) {
    const read = readId(id);
    if (read === null) continue;
    if (read.isLonger) {
      // Without the one that kept the id it would be told by another name elsewhere.
      if (bases.has(read.base)) clashed.push(id);
      continue;
    }
    const list = numbers.get(read.writer);
    if (list === undefined) numbers.set(read.writer, [read.n]);
    else list.push(read.n);
  }
  const of: Record<string, number[]> = {};
  for (const [writer, list] of numbers) of[writer] = rangesOf(list.map((n) => [n, n]));
  return { of, ...(clashed.length > 0 && { clashed }) };
};

const rangesOf = (pairs: (readonly [number, number])[]): number[] => {
  const ranges: number[] = [];
  for (const [from, to] of pairs.sort(([a], [b]) => a - b)) {
    const last = ranges.at(-1);
    if (last !== undefined && from <= last + 1) ranges[ranges.length - 1] = Math.max(last, to);
    else ranges.push(from, to);
  }
  return ranges;
};

export interface Covered {
  has(id: EntryId, full: string): boolean;
  /** Ids that are covered. */
  readonly count: number;
}

/** All of several files together. */
export const coveredBy = (covers: readonly Cover[]): Covered => {
  const pairs = new Map<string, [number, number][]>();
  const clashed = new Set<string>();
  for (const { of, clashed: more = [] } of covers) {
    for (const id of more) clashed.add(id);
    for (const [writer, ranges] of Object.entries(of)) {
      const list = pairs.get(writer) ?? [];
      for (let i = 0; i < ranges.length; i += 2) list.push([ranges[i] as number, ranges[i + 1] as number]);
      pairs.set(writer, list);
    }
  }
  const merged = new Map([...pairs].map(([writer, list]) => [writer, rangesOf(list)]));
  let count = clashed.size;
  for (const ranges of merged.values())
    for (let i = 0; i < ranges.length; i += 2) count += (ranges[i + 1] as number) - (ranges[i] as number) + 1;
  return {
    count,
    has: ({ writer, n, isLonger }, full) => {
      if (isLonger) return clashed.has(full);
      const ranges = merged.get(writer) ?? [];
      // The last range that begins at or before n.
      let [low, high] = [0, ranges.length / 2];
      while (low < high) {
        const middle = (low + high) >> 1;
        if ((ranges[2 * middle] as number) <= n) low = middle + 1;
        else high = middle;
      }
      return low > 0 && n <= (ranges[2 * low - 1] as number);
    },
  };
};
