import { openDB, unwrap } from 'idb';
import { MIGRATIONS, VERSION } from './migrations/index.ts';
import { asProblem, isConnectionLoss, problem } from './problem.ts';
import type { Database, Schema } from './schema.ts';

export interface Connection {
  /** There was no database before this connection. */
  readonly fresh: boolean;
  /** The browser says that it found the data damaged and began anew (Chromium). */
  readonly dataLoss: boolean;
  /**
   * Does some work on the database. When the connection was lost, opens it again and does the work once more: it must
   * bear being done twice. The second time the flag is true.
   * @throws StoreProblem
   */
  run<T>(work: (database: Database, again: boolean) => Promise<T>): Promise<T>;
  close(): void;
}

/**
 * @param onBlocked another tab holds an older version open and does not let go
 * @throws StoreProblem
 */
export const connect = async (name: string, onBlocked?: () => void): Promise<Connection> => {
  if (typeof indexedDB === 'undefined') throw problem('missing');
  let current: Promise<Database> | null = null;
  let closed = false;
  let found: { fresh: boolean; dataLoss: boolean } | null = null;

  const open = async (): Promise<Database> => {
    let fresh = false;
    let dataLoss = false;
    const database = await openDB<Schema>(name, VERSION, {
      upgrade: (upgraded, oldVersion, _newVersion, transaction, event) => {
        fresh = oldVersion === 0;
        dataLoss = (event as IDBVersionChangeEvent & { dataLoss?: string }).dataLoss === 'total';
        // Deleted behind our back while the page was open: the next start must find it gone, and say so.
        if (fresh && found !== null) {
          transaction.abort();
          return;
        }
        for (const migrate of MIGRATIONS.slice(oldVersion)) migrate(unwrap(upgraded), unwrap(transaction));
      },
      blocked: () => onBlocked?.(),
      // A newer version of the app, or a deletion, waits for this connection: let it pass, open again when needed.
      blocking: (_current, _blocked, event) => {
        (event.target as IDBDatabase).close();
        drop();
      },
      terminated: () => drop(),
    });
    found ??= { fresh, dataLoss };
    return database;
  };
  const drop = () => {
    current = null;
  };
  const connection = (): Promise<Database> => {
    if (closed) return Promise.reject(problem('closed'));
    current ??= open().catch((error) => {
      drop();
      throw error;
    });
    return current;
  };

  try {
    await connection();
  } catch (error) {
    throw asProblem(error);
  }
  return {
    ...(found ?? { fresh: false, dataLoss: false }),
    run: async (work) => {
      try {
        return await work(await connection(), false);
      } catch (error) {
        if (closed || !isConnectionLoss(error)) throw asProblem(error);
        const lost = current;
        drop();
        // Whatever is left of it must not hold up an upgrade.
        await lost?.then(
          (database) => database.close(),
          () => undefined,
        );
      }
      try {
        return await work(await connection(), true);
      } catch (error) {
        throw asProblem(error);
      }
    },
    close: () => {
      closed = true;
      current?.then(
        (database) => database.close(),
        () => undefined,
      );
      drop();
    },
  };
};
