import type { Connection } from './connection.ts';
import { ownNumber } from './rows.ts';
import type { Head, RowKey, Segment, StoredCheckpoint } from './schema.ts';
import { through } from './through.ts';

/** Entries a segment has at least and at most. */
const FEWEST = 100;
export const MOST = 300;

export interface Row {
  readonly key: RowKey;
  readonly line: string;
}

const hex = (bytes: ArrayBuffer): string =>
  [...new Uint8Array(bytes)].map((byte) => byte.toString(16).padStart(2, '0')).join('');

export const segmentOf = async (lines: readonly string[]): Promise<Segment> => {
  const text = lines.map((line) => `${line}\n`).join('');
  const hash = hex(await crypto.subtle.digest('SHA-256', new TextEncoder().encode(text)));
  return { hash, count: lines.length, text };
};

/** Rows in the order of their keys, cut into segments; what is too few for one is left over. */
const cut = async (rows: readonly Row[]) => {
  const sealed: { rows: readonly Row[]; key: [number, string]; segment: Segment }[] = [];
  let from = 0;
  while (rows.length - from >= FEWEST) {
    const part = rows.slice(from, from + MOST);
    const segment = await segmentOf(part.map(({ line }) => line));
    sealed.push({ rows: part, key: [part[0]?.key[0] ?? 0, segment.hash], segment });
    from += part.length;
  }
  return { sealed, left: rows.slice(from) };
};

/**
 * Puts the rows of days before `day` into segments, a hundred entries or more each. Rows that no checkpoint holds yet
 * stay rows: the next start reads them.
 * @returns segments made
 */
export const seal = async (connection: Connection, day: number): Promise<number> => {
  const rows = await connection.run(async (database): Promise<Row[]> => {
    const transaction = database.transaction(['log', 'state']);
    const log = transaction.objectStore('log');
    const state = transaction.objectStore('state');
    const old = IDBKeyRange.upperBound([day], true);
    const [head, checkpoint, keys] = await Promise.all([
      state.get('head') as Promise<Head | undefined>,
      state.get('checkpoint') as Promise<StoredCheckpoint | undefined>,
      log.getAllKeys(old),
    ]);
    if (head === undefined || keys.length < FEWEST) return [];
    const folded = checkpoint === undefined ? head.n : head.n - (head.entries - checkpoint.entries);
    const lines = await log.getAll(old);
    return keys
      .map((key, i) => ({ key, line: lines[i] ?? '' }))
      .filter(({ key }) => ownNumber(key[1], head.writer) <= folded);
  });
  const { sealed } = await cut(rows);
  for (const { rows: part, key, segment } of sealed) {
    await connection.run(async (database) => {
      const transaction = database.transaction(['log', 'segments'], 'readwrite', { durability: 'strict' });
      const log = transaction.objectStore('log');
      await through(transaction, async () => {
        const range = IDBKeyRange.bound(part[0]?.key, part.at(-1)?.key);
        const [keys, lines] = await Promise.all([log.getAllKeys(range), log.getAll(range)]);
        const there = new Map(keys.map((at, i) => [at.join(), lines[i]]));
        // Sealed or changed by another tab meanwhile, where the browser has no locks: leave it.
        if (part.some((row) => there.get(row.key.join()) !== row.line)) return;
        await transaction.objectStore('segments').put(segment, key);
        // In one go where nothing stands between: hundreds of requests hold up a small phone.
        if (keys.length === part.length) await log.delete(range);
        else await Promise.all(part.map((row) => log.delete(row.key)));
      });
    });
  }
  return sealed.length;
};
