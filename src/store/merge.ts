import type { IDBPTransaction } from 'idb';
import { readStored } from '../log/line.ts';
import type { Union, UnionInput } from '../log/union.ts';
import type { MergeReport, Progress } from '../model/ports.ts';
import { CHUNK } from './bulk.ts';
import type { Connection } from './connection.ts';
import { allLines } from './log.ts';
import { linesOf, newWriter, rowKey } from './rows.ts';
import type { Head, Schema, Segment } from './schema.ts';
import { MOST, segmentOf } from './seal.ts';
import { through } from './through.ts';

interface Merging {
  readonly connection: Connection;
  readonly lines: readonly string[];
  /** Works out the union; in the app away from this thread. */
  readonly union: (input: UnionInput, onProgress: Progress) => Promise<Union>;
  /** Told of lines once they are stored. */
  readonly stored: (lines: readonly string[], head: Head) => void;
  readonly onProgress?: Progress | undefined;
}

/** What one transaction does: lines that go, lines that come, or lines that come sealed. */
type Part =
  | { readonly gone: readonly string[]; readonly lines: readonly string[] }
  | { readonly sealed: readonly string[] };

/** Segments a transaction: each waits for the disk, and more would keep an answer waiting. */
const SEGMENTS = 8;

/** From so many lines on they come as segments at once: as rows they would take ten times as long. */
const BULK = 2000;
/** Share of the work that the union is. */
const WORKED_OUT = 0.6;

/**
 * Union of the log with other lines, some hundred a transaction. Each leaves log and head right, so that a merge which
 * is cut off loses nothing, and the same merge once more does the rest.
 * @returns what it did, and the head after it
 * @throws StoreProblem, or RangeError for a line that cannot be read
 */
export const mergeInto = async ({
  connection,
  lines,
  union,
  stored,
  onProgress,
}: Merging): Promise<{ report: MergeReport; head: Head }> => {
  const here: string[] = [];
  await allLines(connection, (part) => void here.push(...part));
  const input = { here: here.join('\n'), incoming: lines.join('\n') };
  const found = await union(input, (share) => onProgress?.(share * WORKED_OUT));
  const { first, rest, renamed, at, writers, doubled, clashes, unknown, answers, days } = found;
  let head = await connection.run(async (database) => (await database.get('state', 'head')) as Head);
  const own = head.writer;
  // All that this writer wrote should be here. If not, its numbers are given elsewhere too (a copied phone), or were
  // given before the database lost its end: another writer from now on.
  const writer = writers.includes(own) ? newWriter() : own;
  const headAfter = (before: Head, more: number): Head => ({
    ...before,
    ...(before.writer === own && writer !== own && { writer, n: 0 }),
    entries: before.entries + more,
    floor: before.entries + more,
    at: Math.max(before.at, at),
  });
  const total = first.length + rest.length;
  let done = 0;
  for (const part of partsOf(found)) {
    const put = 'sealed' in part ? part.sealed : part.lines;
    head =
      'sealed' in part
        ? await writeSealed(connection, part.sealed, headAfter)
        : await write(connection, part.gone, part.lines, headAfter);
    stored(put, head);
    done += put.length;
    onProgress?.(WORKED_OUT + (1 - WORKED_OUT) * (done / total));
  }
  const report = { added: total - renamed.length, doubled, clashes, unknown, answers, days };
  return { report, head };
};

/** What gives its id away goes together with what takes it, and comes under its longer id at the same time. */
const partsOf = ({ renamed, first, rest }: Union): Part[] => {
  const parts: Part[] = renamed.length > 0 ? [{ gone: renamed, lines: first }] : [];
  const isBulk = rest.length >= BULK;
  const size = isBulk ? SEGMENTS * MOST : CHUNK;
  for (let from = 0; from < rest.length; from += size) {
    const lines = rest.slice(from, from + size);
    parts.push(isBulk ? { sealed: lines } : { gone: [], lines });
  }
  return parts;
};

/** @param headAfter of the head before and the entries that there are more now */
const write = (
  connection: Connection,
  gone: readonly string[],
  lines: readonly string[],
  headAfter: (before: Head, more: number) => Head,
): Promise<Head> => {
  const put = lines.map((line) => ({ line, key: rowKey(readStored(line)) }));
  return connection.run(async (database) => {
    const transaction = database.transaction(['log', 'segments', 'state'], 'readwrite', { durability: 'strict' });
    return through(transaction, async () => {
      const log = transaction.objectStore('log');
      const state = transaction.objectStore('state');
      const before = (await state.get('head')) as Head;
      // Counted, not assumed: after a lost connection all of it may be done already.
      const less = gone.length > 0 ? await remove(transaction, gone) : 0;
      const there = await Promise.all(put.map(({ key }) => log.getKey(key)));
      const after = headAfter(before, there.filter((key) => key === undefined).length - less);
      await Promise.all([...put.map(({ line, key }) => log.put(line, key)), state.put(after, 'head')]);
      return after;
    });
  });
};

/** Lines of other writers: no checkpoint has them in its tail, so that they need not be rows first. */
const writeSealed = async (
  connection: Connection,
  lines: readonly string[],
  headAfter: (before: Head, more: number) => Head,
): Promise<Head> => {
  const parts = Array.from({ length: Math.ceil(lines.length / MOST) }, (_, i) => lines.slice(i * MOST, (i + 1) * MOST));
  const put = await Promise.all(
    parts.map(async (part) => {
      const segment: Segment = await segmentOf(part);
      const key: [number, string] = [rowKey(readStored(part[0] ?? ''))[0], segment.hash];
      return { segment, key };
    }),
  );
  return connection.run(async (database) => {
    const transaction = database.transaction(['segments', 'state'], 'readwrite', { durability: 'strict' });
    return through(transaction, async () => {
      const segments = transaction.objectStore('segments');
      const state = transaction.objectStore('state');
      const before = (await state.get('head')) as Head;
      const there = await Promise.all(put.map(({ key }) => segments.getKey(key)));
      const more = put.reduce((sum, { segment }, i) => sum + (there[i] === undefined ? segment.count : 0), 0);
      const after = headAfter(before, more);
      await Promise.all([...put.map(({ segment, key }) => segments.put(segment, key)), state.put(after, 'head')]);
      return after;
    });
  });
};

type Writing = IDBPTransaction<Schema, ('log' | 'segments' | 'state')[], 'readwrite'>;

/**
 * Takes lines out of rows and segments. A segment that held one is opened again: its other lines become rows.
 * @returns how many were there
 */
const remove = async (transaction: Writing, lines: readonly string[]): Promise<number> => {
  const gone = new Set(lines);
  const log = transaction.objectStore('log');
  const segments = transaction.objectStore('segments');
  let removed = 0;
  for (const line of lines) {
    const key = rowKey(readStored(line));
    if ((await log.get(key)) !== line) continue;
    await log.delete(key);
    removed += 1;
  }
  for (const key of await segments.getAllKeys()) {
    const all = linesOf((await segments.get(key))?.text ?? '');
    const kept = all.filter((line) => !gone.has(line));
    if (kept.length === all.length) continue;
    await segments.delete(key);
    for (const line of kept) await log.put(line, rowKey(readStored(line)));
    removed += all.length - kept.length;
  }
  return removed;
};
