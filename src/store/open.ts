import { studyDay } from '../log/study-day.ts';
import type { Union, UnionInput } from '../log/union.ts';
import type { Entry, NewEntry } from '../model/entry.ts';
import type { DraftCopies, Drafts, Exchange, Journal, MergeReport, Opened, Progress, Store } from '../model/ports.ts';
import { connect } from './connection.ts';
import { createDecks } from './decks.ts';
import { takeLock } from './lock.ts';
import { allLines, appendEntries, type HeadHolder, putCheckpoint, resume } from './log.ts';
import { readMark, writeMark } from './mark.ts';
import { problem } from './problem.ts';
import { newWriter } from './rows.ts';
import { DATABASE, type Head } from './schema.ts';

export interface StoreOptions {
  /** Version of the app: goes into each entry. */
  readonly app: string;
  /** The second journal; asked for when this tab writes. */
  readonly journal: () => Promise<Journal>;
  readonly exchange: () => Promise<Exchange>;
  /** Works out a union of lines, away from this thread where there is another. */
  readonly union: (input: UnionInput, onProgress: Progress) => Promise<Union>;
  /** The second place of drafts; asked for when one is written or listed. Null: there is none here. */
  readonly draftCopies?: () => Promise<DraftCopies | null>;
  /** Name of the database, lock and channel. */
  readonly name?: string;
  /** Another tab holds an older version of the database open: ask to close it. */
  readonly onBlocked?: () => void;
}

const today = (): number => studyDay(Date.now(), -new Date().getTimezoneOffset());

const EMPTY: Head = { writer: '', n: 0, entries: 0, floor: 0, at: 0 };

/** One thing after another; a failure stops none of the later ones. */
const serial = () => {
  let last: Promise<unknown> = Promise.resolve();
  return <T>(work: () => Promise<T>): Promise<T> => {
    const next = last.then(work);
    last = next.catch(() => undefined);
    return next;
  };
};

/**
 * Opens what is kept on this device; one a page. Recovers from the journal where the browser has lost the database.
 * @throws StoreProblem where there is no database to be had
 */
export const openStore = async (options: StoreOptions): Promise<Store> => {
  const { app, name = DATABASE } = options;
  const [connection, lock] = await Promise.all([
    connect(name, options.onBlocked),
    takeLock(`${name}.writer`, globalThis.navigator?.locks),
  ]);
  const channel = typeof BroadcastChannel === 'undefined' ? null : new BroadcastChannel(`${name}.changed`);
  const listeners = new Set<() => void>();
  const holder: HeadHolder = { head: EMPTY };
  const appends = serial();
  /** Merging and sealing: each reads, computes, then writes what it read. */
  const heavy = serial();
  let journal: Promise<Journal> | null = null;
  let opened: Opened = { status: 'there', entries: 0 };
  let unsaved: readonly NewEntry[] = [];
  let closed = false;

  channel?.addEventListener('message', () => {
    for (const listener of listeners) listener();
  });
  /** Posting to another thread takes a tenth of the time of a strict write: whoever waits for the write goes first. */
  const afterwards = (work: () => void) => void setTimeout(() => !closed && work());
  /** Until what was put off so far is done. */
  const putOffIsDone = () => new Promise<void>((done) => setTimeout(done));
  const tellOthers = () => afterwards(() => channel?.postMessage('changed'));
  const mustWrite = () => {
    if (lock.state === 'other') throw problem('other-tab');
  };
  const theJournal = (): Promise<Journal> => {
    journal ??= options.journal();
    return journal;
  };
  // What the lost lock keeps from it, the next tidying of the tab that has the lock puts in.
  const toJournal = (write: (journal: Journal) => void) =>
    afterwards(() => lock.state !== 'other' && void theJournal().then(write));
  const readHead = async (): Promise<Head | undefined> =>
    connection.run(async (database) => (await database.get('state', 'head')) as Head | undefined);

  const decks = createDecks({
    connection,
    mustWrite,
    written: (deck) => {
      if (readMark() === null) writeMark(0);
      toJournal((one) => one.deck(deck));
      tellOthers();
    },
  });

  /** Learners write no decks: loaded when the first is asked for. */
  let drafts: Promise<Drafts> | null = null;
  const theDrafts = (): Promise<Drafts> => {
    drafts ??= import('./drafts.ts').then(({ createDrafts }) =>
      createDrafts({ connection, mustWrite, copies: options.draftCopies }),
    );
    return drafts;
  };

  /** What is here, for a tab that writes; brings back what can be where nothing is. */
  const begin = async (): Promise<void> => {
    let head = await readHead();
    if (lock.state !== 'other' && (head === undefined || head.entries === 0)) {
      const { beginEmpty } = await import('./recover.ts');
      const found = await beginEmpty({ connection, journal: theJournal, had: readMark(), head, writer: newWriter() });
      head = found.head;
      opened = found.opened;
    } else opened = { status: 'there', entries: head?.entries ?? 0 };
    holder.head = head ?? EMPTY;
    if (holder.head.entries > 0) writeMark(holder.head.entries);
  };
  await begin();

  const lost = lock.onLost(() => {
    // The file can be open in one page only.
    void journal?.then((one) => one.close());
    journal = null;
  });

  /** @param which asked for when it is their turn: a second retry must not write what the first one did */
  const write = (which: () => readonly NewEntry[]): Promise<Entry[]> =>
    appends(async () => {
      mustWrite();
      const entries = which();
      if (entries.length === 0) return [];
      const written = await appendEntries(connection, holder, entries, app);
      toJournal((one) => one.append(written.lines));
      if (holder.head.entries === entries.length) writeMark(entries.length);
      unsaved = unsaved.filter((entry) => !entries.includes(entry));
      tellOthers();
      return written.entries;
    });

  /** Within `heavy` already. */
  const mergeNow = async (lines: readonly string[], onProgress?: Progress): Promise<MergeReport> => {
    mustWrite();
    const { mergeInto } = await import('./merge.ts');
    const { report, head } = await mergeInto({
      connection,
      lines,
      onProgress,
      union: options.union,
      stored: (part, now) => {
        // What was appended meanwhile is in this head too: the transaction read it.
        holder.head = now;
        toJournal((one) => one.append(part));
      },
    });
    holder.head = head;
    if (report.added > 0) {
      writeMark(head.entries);
      tellOthers();
    }
    return report;
  };
  const merge: Store['log']['merge'] = (lines, onProgress) => heavy(() => mergeNow(lines, onProgress));

  const drill = createDrill();
  function createDrill(): Store['drill'] {
    let next: { session: unknown } | null = null;
    let writing: Promise<void> | null = null;
    const flush = async () => {
      while (next !== null && lock.state !== 'other') {
        const { session } = next;
        next = null;
        await connection
          .run(async (database) => {
            const transaction = database.transaction('state', 'readwrite', { durability: 'relaxed' });
            transaction.store.put(session, 'drill').catch(() => undefined);
            transaction.commit();
            await transaction.done;
          })
          // The next tap writes all of it again.
          .catch(() => undefined);
      }
      writing = null;
    };
    return {
      get: () => connection.run(async (database) => (await database.get('state', 'drill')) ?? null),
      put: (session) => {
        next = { session };
        writing ??= flush();
      },
      clear: async () => {
        next = null;
        await writing;
        mustWrite();
        await connection.run((database) => database.delete('state', 'drill'));
      },
    };
  }

  return {
    get opened() {
      return opened;
    },
    get writer() {
      return holder.head.writer;
    },
    decks: decks.port,
    drafts: {
      list: async () => (await theDrafts()).list(),
      get: async (id) => (await theDrafts()).get(id),
      put: async (draft, before) => (await theDrafts()).put(draft, before),
      remove: async (id) => (await theDrafts()).remove(id),
    },
    log: {
      append: async (entry) => {
        try {
          const [written] = await write(() => [entry]);
          return written as Entry;
        } catch (error) {
          unsaved = [...unsaved, entry];
          throw error;
        }
      },
      get unsaved() {
        return unsaved;
      },
      retry: () => write(() => unsaved),
      count: async () => (await readHead())?.entries ?? 0,
      lastAt: async () => (await readHead())?.at || null,
      all: (onChunk) => allLines(connection, onChunk),
      merge,
    },
    checkpoint: {
      get: () => resume(connection),
      put: async (checkpoint) => {
        mustWrite();
        await putCheckpoint(connection, checkpoint);
        writeMark(holder.head.entries);
      },
    },
    drill,
    device: {
      get: (key) => connection.run((database) => database.get('device', key)),
      put: (key, value) =>
        connection.run(async (database) => {
          await database.put('device', value, key);
        }),
    },
    exportAll: async (onProgress) => {
      const [{ saveAll }, exchange] = await Promise.all([import('./copies.ts'), options.exchange()]);
      return saveAll({ connection, decks, exchange, app, onProgress });
    },
    importAll: async (text, onProgress) => {
      mustWrite();
      const [{ takeIn }, exchange] = await Promise.all([import('./copies.ts'), options.exchange()]);
      return takeIn({ text, decks, exchange, merge, onProgress });
    },
    persist: async () => {
      if (navigator.storage?.persist === undefined) return 'unsupported';
      return (await navigator.storage.persist()) ? 'granted' : 'denied';
    },
    persisted: async () => (await navigator.storage?.persisted?.()) ?? false,
    journal: async () => (lock.state === 'other' ? 'none' : (await theJournal()).kind),
    changed: (listener) => {
      listeners.add(listener);
      return () => void listeners.delete(listener);
    },
    lock: {
      get state() {
        return lock.state;
      },
      takeOver: async () => {
        await lock.steal();
        await begin();
        tellOthers();
      },
      onLost: lock.onLost,
    },
    tidy: async () => {
      if (lock.state === 'other') return;
      const { tidy } = await import('./tidy.ts');
      await putOffIsDone();
      await heavy(() =>
        tidy({ connection, decks, journal: theJournal, merge: (lines) => mergeNow(lines), today: today() }),
      );
    },
    close: async () => {
      lost();
      await appends(async () => undefined);
      await heavy(async () => undefined);
      await putOffIsDone();
      await (await journal)?.close();
      lock.release();
      closed = true;
      channel?.close();
      connection.close();
    },
  };
};
