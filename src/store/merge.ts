import type { IDBPTransaction } from 'idb';
import { readStored } from '../log/line.ts';
import { mergeLines as union } from '../log/merge.ts';
import { parseId } from '../log/order.ts';
import type { AnyEntry, MergeReport, Progress } from '../model/ports.ts';
import { CHUNK } from './bulk.ts';
import type { Connection } from './connection.ts';
import { allLines } from './log.ts';
import { linesOf, newWriter, rowKey } from './rows.ts';
import type { Head, Schema } from './schema.ts';
import { through } from './through.ts';

interface Merging {
  readonly connection: Connection;
  readonly lines: readonly string[];
  readonly onProgress?: Progress | undefined;
}

/** What one transaction does: lines that go, lines that come. */
interface Part {
  readonly gone: readonly string[];
  readonly put: readonly { readonly line: string; readonly entry: AnyEntry }[];
}

/**
 * Union of the log with other lines, some hundred a transaction. Each leaves log and head right, so that a merge which
 * is cut off loses nothing, and the same merge once more does the rest.
 * @returns what it did, the head after it, and the lines that were added
 * @throws StoreProblem, or RangeError for a line that cannot be read
 */
export const mergeInto = async ({
  connection,
  lines,
  onProgress,
}: Merging): Promise<{ report: MergeReport; head: Head; added: readonly string[] }> => {
  const here: string[] = [];
  await allLines(connection, (part) => void here.push(...part));
  const { added, renamed, doubled, clashes, unknown } = union(here, lines);
  let head = await connection.run(async (database) => (await database.get('state', 'head')) as Head);
  const own = head.writer;
  const put = added.map((line) => ({ line, entry: readStored(line) }));
  // All that this writer wrote should be here. If not, its numbers are given elsewhere too (a copied phone), or were
  // given before the database lost its end: another writer from now on.
  const writer = put.some(({ entry }) => parseId(entry.id)?.writer === own) ? newWriter() : own;
  const at = put.reduce((latest, { entry }) => Math.max(latest, entry.at), 0);
  let done = 0;
  for (const part of partsOf(put, renamed)) {
    head = await write(connection, part, (before, more) => ({
      ...before,
      ...(before.writer === own && writer !== own && { writer, n: 0 }),
      entries: before.entries + more,
      floor: before.entries + more,
      at: Math.max(before.at, at),
    }));
    done += part.put.length;
    onProgress?.(done / put.length);
  }
  const report = {
    added: added.length - renamed.length,
    doubled,
    clashes: renamed.length > 0 ? clashes : newClashes(added),
    unknown,
  };
  return { report, head, added };
};

/** What gives its id away goes together with what takes it, and comes under its longer id at the same time. */
const partsOf = (put: Part['put'], renamed: readonly string[]): Part[] => {
  const given = new Set(renamed.map((line) => readStored(line).id));
  const together = (id: string) => renamed.length > 0 && (given.has(id) || id.includes('~'));
  const first = put.filter(({ entry }) => together(entry.id));
  const rest = put.filter(({ entry }) => !together(entry.id));
  const parts: Part[] = renamed.length > 0 ? [{ gone: renamed, put: first }] : [];
  for (let from = 0; from < rest.length; from += CHUNK) parts.push({ gone: [], put: rest.slice(from, from + CHUNK) });
  return parts;
};

/** @param headAfter of the head before and the entries that there are more now */
const write = (
  connection: Connection,
  { gone, put }: Part,
  headAfter: (before: Head, more: number) => Head,
): Promise<Head> =>
  connection.run(async (database) => {
    const transaction = database.transaction(['log', 'segments', 'state'], 'readwrite', { durability: 'strict' });
    return through(transaction, async () => {
      const log = transaction.objectStore('log');
      const state = transaction.objectStore('state');
      const before = (await state.get('head')) as Head;
      // Counted, not assumed: after a lost connection all of it may be done already.
      const less = gone.length > 0 ? await remove(transaction, gone) : 0;
      const there = await Promise.all(put.map(({ entry }) => log.getKey(rowKey(entry))));
      const after = headAfter(before, there.filter((key) => key === undefined).length - less);
      await Promise.all([...put.map(({ line, entry }) => log.put(line, rowKey(entry))), state.put(after, 'head')]);
      return after;
    });
  });

/** Ids that were claimed a second time by what came in; older clashes were told before. */
const newClashes = (added: readonly string[]): number =>
  added.filter((line) => readStored(line).id.includes('~')).length;

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
