import { mergeLines } from '../log/merge.ts';
import type { Journal, Opened } from '../model/ports.ts';
import { putLines } from './bulk.ts';
import type { Connection } from './connection.ts';
import { readable } from './readable.ts';
import type { Head } from './schema.ts';

interface Begin {
  readonly connection: Connection;
  readonly journal: () => Promise<Journal>;
  /** Entries that were here as last known; null: nothing ever was. */
  readonly had: number | null;
  /** Of a database that is there but holds no entry. */
  readonly head: Head | undefined;
  readonly writer: string;
}

const entriesWords = (n: number) => `${n} ${n === 1 ? 'entry' : 'entries'}`;

/**
 * The start of a database without entries: new, or lost by the browser and brought back from the journal. Never a
 * silent empty start where there was something.
 * @throws StoreProblem
 */
export const beginEmpty = async ({ connection, journal, had, head, writer }: Begin) => {
  const keeper = await journal();
  const found = await keeper.read().catch(() => ({ lines: [], decks: [], damaged: 0 }));
  const kept = { ...found, lines: readable(found.lines) };
  const decksHere = await connection.run((database) => database.count('decks'));
  const isLost = had !== null && (head === undefined || (had > 0 && head.entries === 0));
  const hasMore = kept.lines.length > 0 || kept.decks.length > decksHere;
  const put = async (next: Head): Promise<Head> => {
    await connection.run(async (database) => {
      const transaction = database.transaction('state', 'readwrite', { durability: 'strict' });
      transaction.store.put(next, 'head').catch(() => undefined);
      await transaction.done;
    });
    return next;
  };

  if (hasMore) {
    for (const deck of kept.decks)
      await connection.run(async (database) => {
        if ((await database.get('decks', deck.ref)) === undefined) await database.put('decks', deck);
      });
    const lines = mergeLines([], kept.lines).lines;
    const at = await putLines(connection, lines);
    // Another writer from now on: numbers after the last one that came back may have been given before.
    const next = await put({ writer, n: 0, entries: lines.length, floor: lines.length, at });
    const missing = Math.max(0, (had ?? 0) - lines.length);
    const opened: Opened = {
      status: 'recovered',
      entries: lines.length,
      note:
        `The browser had lost what was stored here. ${entriesWords(lines.length)} and ${kept.decks.length} ` +
        `${kept.decks.length === 1 ? 'deck' : 'decks'} came back from the second copy on this device` +
        (missing > 0
          ? `; ${entriesWords(missing)} at most may be missing.`
          : '; nothing is missing as far as is known.') +
        ' Save a copy elsewhere.',
    };
    return { head: next, opened };
  }
  const next = head ?? (await put({ writer, n: 0, entries: 0, floor: 0, at: 0 }));
  if (isLost) {
    const opened: Opened = {
      status: 'lost',
      entries: 0,
      note:
        `The browser has lost what was stored here${had > 0 ? ` (${entriesWords(had)})` : ''}, and there was no second copy on ` +
        'this device. If you ever saved a copy, open it under Settings: everything in it comes back.',
    };
    return { head: next, opened };
  }
  const opened: Opened = { status: head === undefined ? 'new' : 'there', entries: 0 };
  return { head: next, opened };
};
