import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import type { ReceivedReport } from '../model/report.ts';
import { pack } from './packed.ts';
import { unstamped } from './query-id.ts';
import {
  type ClassSettings,
  type ClassStore,
  DEFAULT_SETTINGS,
  type Head,
  type Packed,
  type TraineeRecord,
} from './types.ts';

interface Schema extends DBSchema {
  /** By hash, as are `reports`: which is the newest is told without reading them all. */
  heads: { key: string; value: Head };
  reports: { key: string; value: Packed };
  /** By key of the device. */
  trainees: { key: string; value: TraineeRecord };
  /** One record, `class`. */
  settings: { key: string; value: ClassSettings };
}
type Database = IDBPDatabase<Schema>;

/** Apart from the learner's: no copy, no sync and no recovery of the one touches the other. */
const DATABASE = 'recency-class';
const STORES = ['heads', 'reports', 'trainees', 'settings'] as const;
const STRICT = { durability: 'strict' } as const;

export interface ClassStoreOptions {
  readonly name?: string;
  /** Whatever the database throws, as an error in words for people. */
  readonly problem: (error: unknown) => Error;
}

/** Where a request fails its transaction does, which is waited for. */
const quietly = (request: Promise<unknown>): void => void request.catch(() => undefined);

/** @throws what `problem` makes of it */
export const openClassStore = async ({ name = DATABASE, problem }: ClassStoreOptions): Promise<ClassStore> => {
  let current: Promise<Database> | null = null;
  const drop = () => {
    current = null;
  };
  const open = (): Promise<Database> =>
    openDB<Schema>(name, 1, {
      upgrade: (database) => {
        database.createObjectStore('heads', { keyPath: 'hash' });
        database.createObjectStore('reports', { keyPath: 'hash' });
        database.createObjectStore('trainees', { keyPath: 'key' });
        database.createObjectStore('settings');
      },
      // A newer version of the app, or a deletion, waits for this connection: it is opened again when needed.
      blocking: (_current, _blocked, event) => {
        (event.target as IDBDatabase).close();
        drop();
      },
      terminated: drop,
    });
  const run = async <T>(work: (database: Database) => Promise<T>): Promise<T> => {
    try {
      current ??= open();
      return await work(await current);
    } catch (error) {
      void current?.then(
        (database) => database.close(),
        () => undefined,
      );
      drop();
      throw problem(error);
    }
  };
  const bare = (key: string): TraineeRecord => ({ key, letters: '', joined: null, note: '' });
  /** Changes records of trainees in one transaction. */
  const changeTrainees = (change: (all: readonly TraineeRecord[]) => readonly TraineeRecord[]): Promise<void> =>
    run(async (database) => {
      const transaction = database.transaction('trainees', 'readwrite', STRICT);
      for (const record of change(await transaction.store.getAll())) quietly(transaction.store.put(record));
      await transaction.done;
    });
  /** Reports, and trainees without any left. @returns how many reports went */
  const removeReports = (isOut: (head: Head) => boolean): Promise<number> =>
    run(async (database) => {
      const transaction = database.transaction(['heads', 'reports', 'trainees'], 'readwrite', STRICT);
      const heads = await transaction.objectStore('heads').getAll();
      const out = heads.filter(isOut);
      for (const { hash } of out) {
        quietly(transaction.objectStore('heads').delete(hash));
        quietly(transaction.objectStore('reports').delete(hash));
      }
      const left = new Set(heads.filter((head) => !isOut(head)).map(({ key }) => key));
      const trainees = await transaction.objectStore('trainees').getAll();
      const owned = new Set(trainees.flatMap(({ key, joined }) => (left.has(key) ? [key, joined ?? key] : [])));
      for (const { key } of trainees) if (!owned.has(key)) quietly(transaction.objectStore('trainees').delete(key));
      await transaction.done;
      return out.length;
    });

  await run(async () => undefined);
  return {
    read: () =>
      run(async (database) => {
        const transaction = database.transaction(['heads', 'trainees', 'settings']);
        const [heads, trainees, settings] = await Promise.all([
          transaction.objectStore('heads').getAll(),
          transaction.objectStore('trainees').getAll(),
          transaction.objectStore('settings').get('class'),
        ]);
        return { heads, trainees, settings: { ...DEFAULT_SETTINGS, ...settings } };
      }),
    reports: (hashes) =>
      run(async (database) => {
        const { store } = database.transaction('reports');
        const found = await Promise.all(hashes.map((hash) => store.get(hash)));
        return new Map(found.flatMap((report) => (report === undefined ? [] : [[report.hash, report] as const])));
      }),
    take: (received: ReceivedReport, letters, at) =>
      run(async (database) => {
        const packed = pack(received, at);
        const { hash, key, trainee, n, made, taken } = packed;
        const transaction = database.transaction(['heads', 'reports', 'trainees'], 'readwrite', STRICT);
        const isThere = (await transaction.objectStore('heads').getKey(hash)) !== undefined;
        if (!isThere) {
          const flown = packed.decks.map(({ id, contentId, variants }) => ({ id, contentId, variants }));
          quietly(transaction.objectStore('heads').put({ hash, key, trainee, n, made, taken, flown }));
          quietly(transaction.objectStore('reports').put(packed));
          const known = await transaction.objectStore('trainees').get(key);
          quietly(transaction.objectStore('trainees').put({ ...(known ?? bare(key)), letters }));
        }
        await transaction.done;
        return isThere ? 'twice' : 'taken';
      }),
    putNote: (key, note) => changeTrainees((all) => [{ ...(all.find((one) => one.key === key) ?? bare(key)), note }]),
    putAnswered: (keys, query, on) =>
      changeTrainees((all) =>
        keys.flatMap((key, i) => {
          const record = all.find((one) => one.key === key) ?? bare(key);
          const before = Object.entries(record.answered ?? {});
          const others = before.filter(([one]) => unstamped(one) !== query);
          const answered = Object.fromEntries(on === null ? others : [...others, [query, on]]);
          return (on === null ? others.length < before.length : i === 0) ? [{ ...record, answered }] : [];
        }),
      ),
    join: (key, to) =>
      changeTrainees((all) => {
        const of = (one: string) => all.find((record) => record.key === one) ?? bare(one);
        const [from, owner] = [of(of(key).joined ?? key), of(of(to).joined ?? to)];
        if (from.key === owner.key) return [];
        const notes = [owner.note, from.note].filter((note) => note !== '').join('\n');
        const moved = all.filter(({ joined }) => joined === from.key);
        return [
          // What was answered stays so when the reports of the other device are gone.
          { ...owner, note: notes, answered: { ...from.answered, ...owner.answered } },
          ...[from, ...moved].map((record) => ({
            ...record,
            joined: owner.key,
            note: record.key === from.key ? '' : record.note,
          })),
        ];
      }),
    part: (key) =>
      changeTrainees((all) => all.filter((one) => one.key === key).map((one) => ({ ...one, joined: null }))),
    remove: async (keys) => {
      const gone = new Set(keys);
      await removeReports(({ key }) => gone.has(key));
    },
    expire: (before) => removeReports(({ taken }) => taken < before),
    putSettings: (settings) =>
      run(async (database) => {
        await database.put('settings', settings, 'class');
      }),
    clear: () =>
      run(async (database) => {
        const transaction = database.transaction(STORES, 'readwrite', STRICT);
        for (const store of STORES) quietly(transaction.objectStore(store).clear());
        await transaction.done;
      }),
    close: () => {
      void current?.then(
        (database) => database.close(),
        () => undefined,
      );
      drop();
    },
  };
};
