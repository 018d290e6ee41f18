import { readStored, toLine } from '../log/line.ts';
import { studyDay } from '../log/study-day.ts';
import type { Entry, NewEntry } from '../model/entry.ts';
import type { Resume } from '../model/ports.ts';
import type { Connection } from './connection.ts';
import { problem } from './problem.ts';
import { linesOf, ownNumber, rowKey } from './rows.ts';
import type { Head, RowKey, StoredCheckpoint } from './schema.ts';
import { through } from './through.ts';

/** The head as this tab last saw it. Every transaction checks it against the database. */
export interface HeadHolder {
  head: Head;
}

/**
 * Writes entries under the next numbers, in one strict transaction. Numbers are taken from the head as remembered, so
 * that nothing has to be read first; the head read in the same transaction decides whether they were right.
 * @returns the entries and their lines, once "complete" was reported
 * @throws StoreProblem
 */
export const appendEntries = (
  connection: Connection,
  holder: HeadHolder,
  entries: readonly NewEntry[],
  app: string,
): Promise<{ entries: Entry[]; lines: string[] }> => {
  const number = (head: Head) => {
    const full = entries.map((entry, i) => ({ v: 1, id: `${head.writer}.${head.n + i + 1}`, app, ...entry }) as Entry);
    return { entries: full, lines: full.map(toLine) };
  };
  let written = number(holder.head);

  return connection.run(async (database, again) => {
    const [first] = written.entries;
    if (first === undefined) return written;
    // The connection may have been lost between the commit and the word of it.
    if (again && (await database.get('log', rowKey(first))) === written.lines[0]) {
      holder.head = ((await database.get('state', 'head')) as Head | undefined) ?? holder.head;
      return written;
    }
    for (;;) {
      const { head } = holder;
      const next: Head = {
        ...head,
        n: head.n + entries.length,
        entries: head.entries + entries.length,
        at: entries.reduce((latest, { at }) => Math.max(latest, at), head.at),
      };
      const transaction = database.transaction(['log', 'state'], 'readwrite', { durability: 'strict' });
      const state = transaction.objectStore('state');
      const log = transaction.objectStore('log');
      const found = state.get('head') as Promise<Head | undefined>;
      const requests = [
        ...written.entries.map((entry, i) => log.add(written.lines[i] ?? '', rowKey(entry))),
        state.put(next, 'head'),
      ];
      for (const request of [found, ...requests, transaction.done]) request.catch(() => undefined);
      const stored = await found;
      if (stored !== undefined && stored.writer === head.writer && stored.n === head.n) {
        // A merge or a seal elsewhere changes the other figures.
        if (stored.entries !== head.entries || stored.floor !== head.floor || stored.at !== head.at) {
          const mended = {
            ...next,
            entries: stored.entries + entries.length,
            floor: stored.floor,
            at: Math.max(next.at, stored.at),
          };
          state.put(mended, 'head').catch(() => undefined);
          holder.head = mended;
        } else holder.head = next;
        transaction.commit();
        try {
          await transaction.done;
        } catch (error) {
          holder.head = stored;
          throw error;
        }
        return written;
      }
      transaction.abort();
      await transaction.done.catch(() => undefined);
      if (stored === undefined) throw problem('unknown');
      holder.head = stored;
      written = number(stored);
    }
  });
};

/** Days before the latest entry in which those since a checkpoint are looked for first. */
const RECENT_DAYS = 2;

/**
 * The checkpoint and the entries appended since; null where there is none that stands. Only the keys of the last days
 * are read, so that a long log behind costs nothing; all keys where a clock was wrong.
 */
export const resume = (connection: Connection): Promise<Resume | null> =>
  connection.run(async (database) => {
    const transaction = database.transaction(['log', 'state']);
    const state = transaction.objectStore('state');
    const log = transaction.objectStore('log');
    const [head, checkpoint] = await Promise.all([
      state.get('head') as Promise<Head | undefined>,
      state.get('checkpoint') as Promise<StoredCheckpoint | undefined>,
    ]);
    if (head === undefined || checkpoint === undefined) return null;
    const { value, entries } = checkpoint;
    // What was folded since the last merge holds all but the writer's own last entries.
    const missing = head.entries - entries;
    if (missing < 0 || entries < head.floor) return null;
    const ownKeys = async (range?: IDBKeyRange) =>
      (await log.getAllKeys(range))
        .map((key) => ({ key, n: ownNumber(key[1], head.writer) }))
        .filter(({ n }) => n > head.n - missing);
    const recent = IDBKeyRange.lowerBound([studyDay(head.at, 0) - RECENT_DAYS]);
    let wanted = missing === 0 ? [] : await ownKeys(recent);
    if (wanted.length < missing) wanted = await ownKeys();
    if (wanted.length !== missing) return null;
    wanted.sort((a, b) => a.n - b.n);
    const lines = await Promise.all(wanted.map(({ key }) => log.get(key)));
    return { value, entries, tail: lines.map((line) => readStored(line ?? '{}')) };
  });

/** Relaxed: a lost checkpoint costs a fold. One that a merge has overtaken, or that runs ahead of the log, is not kept. */
export const putCheckpoint = (connection: Connection, checkpoint: StoredCheckpoint): Promise<void> =>
  connection.run(async (database) => {
    const transaction = database.transaction('state', 'readwrite', { durability: 'relaxed' });
    await through(transaction, async () => {
      const head = (await transaction.store.get('head')) as Head | undefined;
      const stands = head !== undefined && checkpoint.entries >= head.floor && checkpoint.entries <= head.entries;
      if (stands) await transaction.store.put({ value: checkpoint.value, entries: checkpoint.entries }, 'checkpoint');
    });
  });

const ROWS = 400;
const SEGMENTS = 8;

/** Pages through rows and segments with getAll: cursors are slow in some browsers. @param onChunk false ends it */
export const allLines = async (
  connection: Connection,
  onChunk: (lines: readonly string[]) => unknown,
): Promise<void> => {
  // Rows first: what is sealed in between is then met twice rather than not at all.
  let row: RowKey | null = null;
  const seen = new Set<string>();
  for (;;) {
    const after: IDBKeyRange | null = row === null ? null : IDBKeyRange.lowerBound(row, true);
    const page: { keys: RowKey[]; lines: string[] } = await connection.run(async (database) => {
      const { store } = database.transaction('log');
      const [keys, lines] = await Promise.all([store.getAllKeys(after, ROWS), store.getAll(after, ROWS)]);
      return { keys, lines };
    });
    for (const line of page.lines) seen.add(line);
    if (page.lines.length > 0 && (await onChunk(page.lines)) === false) return;
    row = page.keys.at(-1) ?? null;
    if (row === null || page.lines.length < ROWS) break;
  }
  let key: [number, string] | null = null;
  for (;;) {
    const after: IDBKeyRange | null = key === null ? null : IDBKeyRange.lowerBound(key, true);
    const page: { keys: [number, string][]; texts: string[] } = await connection.run(async (database) => {
      const { store } = database.transaction('segments');
      const [keys, segments] = await Promise.all([store.getAllKeys(after, SEGMENTS), store.getAll(after, SEGMENTS)]);
      return { keys, texts: segments.map(({ text }) => text) };
    });
    const lines = page.texts.flatMap((text) => linesOf(text)).filter((line) => !seen.has(line));
    if (lines.length > 0 && (await onChunk(lines)) === false) return;
    key = page.keys.at(-1) ?? null;
    if (key === null || page.texts.length < SEGMENTS) break;
  }
};
