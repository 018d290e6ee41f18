import { readStored } from '../log/line.ts';
import { mergeLines as union } from '../log/merge.ts';
import type { MergeReport, Progress } from '../model/ports.ts';
import { putLines } from './bulk.ts';
import type { Connection } from './connection.ts';
import { allLines } from './log.ts';
import { linesOf, rowKey } from './rows.ts';
import type { Head } from './schema.ts';

interface Merging {
  readonly connection: Connection;
  readonly lines: readonly string[];
  readonly onProgress?: Progress | undefined;
}

/**
 * Union of the log with other lines.
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
  // What gave its id away goes, under its longer one it is among the added.
  if (renamed.length > 0) await remove(connection, renamed);
  const latest = await putLines(connection, added, onProgress);
  const head = await connection.run(async (database) => {
    const transaction = database.transaction('state', 'readwrite', { durability: 'strict' });
    const before = (await transaction.store.get('head')) as Head;
    const entries = before.entries + added.length - renamed.length;
    const changed = added.length > 0 || renamed.length > 0;
    const next: Head = {
      ...before,
      entries,
      floor: changed ? entries : before.floor,
      at: Math.max(before.at, latest),
    };
    if (changed) await transaction.store.put(next, 'head');
    await transaction.done;
    return next;
  });
  const report = {
    added: added.length - renamed.length,
    doubled,
    clashes: renamed.length > 0 ? clashes : newClashes(added),
    unknown,
  };
  return { report, head, added };
};

/** Ids that were claimed a second time by what came in; older clashes were told before. */
const newClashes = (added: readonly string[]): number =>
  added.filter((line) => readStored(line).id.includes('~')).length;

/** Takes lines out of rows and segments. A segment that held one is opened again: its other lines become rows. */
const remove = async (connection: Connection, lines: readonly string[]): Promise<void> => {
  const gone = new Set(lines);
  await connection.run(async (database) => {
    const transaction = database.transaction(['log', 'segments'], 'readwrite', { durability: 'strict' });
    const log = transaction.objectStore('log');
    const segments = transaction.objectStore('segments');
    for (const line of lines) {
      const key = rowKey(readStored(line));
      if ((await log.get(key)) === line) await log.delete(key);
    }
    for (const key of await segments.getAllKeys()) {
      const all = linesOf((await segments.get(key))?.text ?? '');
      if (!all.some((line) => gone.has(line))) continue;
      await segments.delete(key);
      for (const line of all) if (!gone.has(line)) await log.put(line, rowKey(readStored(line)));
    }
    await transaction.done;
  });
};
