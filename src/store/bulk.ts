import { readStored } from '../log/line.ts';
import type { Connection } from './connection.ts';
import { rowKey } from './rows.ts';

/** Rows a transaction: more would keep an answer waiting. */
export const CHUNK = 400;

/** Puts lines as rows of the log, some hundred a transaction. Twice is once. @returns the greatest `at`, 0 for none */
export const putLines = async (connection: Connection, lines: readonly string[]): Promise<number> => {
  let latest = 0;
  for (let from = 0; from < lines.length; from += CHUNK) {
    const part = lines.slice(from, from + CHUNK).map((line) => ({ line, entry: readStored(line) }));
    await connection.run(async (database) => {
      const transaction = database.transaction('log', 'readwrite', { durability: 'strict' });
      for (const { line, entry } of part) transaction.store.put(line, rowKey(entry)).catch(() => undefined);
      await transaction.done;
    });
    for (const { entry } of part) latest = Math.max(latest, entry.at);
  }
  return latest;
};
