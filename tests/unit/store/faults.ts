import { vi } from 'vitest';

/** Connections that were worked on since this was called. */
export const watchConnections = (): Set<IDBDatabase> => {
  const seen = new Set<IDBDatabase>();
  const real = IDBDatabase.prototype.transaction;
  vi.spyOn(IDBDatabase.prototype, 'transaction').mockImplementation(function (this: IDBDatabase, ...args) {
    seen.add(this);
    return real.apply(this, args);
  });
  return seen;
};

const isStrict = (args: readonly unknown[]): boolean => args[1] === 'readwrite';

/**
 * The writing transactions from the `from`-th on (from 0), `times` of them, go down with an error when they should be
 * committed, as in a browser whose device is full (`QuotaExceededError`) or whose disk failed (`UnknownError`).
 * @param of only those that write into this object store are counted
 */
export const failCommits = (
  name: string,
  { from = 0, times = 1, of }: { readonly from?: number; readonly times?: number; readonly of?: string } = {},
): { readonly failed: number } => {
  const told = { failed: 0 };
  let writes = 0;
  const real = IDBDatabase.prototype.transaction;
  vi.spyOn(IDBDatabase.prototype, 'transaction').mockImplementation(function (this: IDBDatabase, ...args) {
    const transaction = real.apply(this, args);
    if (!isStrict(args) || (of !== undefined && !transaction.objectStoreNames.contains(of))) return transaction;
    const number = writes++;
    if (number < from || number >= from + times) return transaction;
    told.failed += 1;
    // The requests of the transaction succeed first, as they do in browsers; it is the disk that says no.
    const fail = () => (transaction as unknown as { _abort(name: string): void })._abort(name);
    const { objectStore } = transaction;
    transaction.objectStore = (store) => {
      const found = objectStore.call(transaction, store);
      const { put, delete: remove } = found;
      const failing = <T extends IDBRequest>(request: T): T => {
        request.addEventListener('success', fail);
        return request;
      };
      found.put = (...given) => failing(put.apply(found, given));
      found.delete = (key) => failing(remove.call(found, key));
      return found;
    };
    return transaction;
  });
  return told;
};

/** The commit of the next writing transaction succeeds, but the connection is gone before the page hears of it. */
export const loseWordOfCommit = (): { readonly lost: number } => {
  const told = { lost: 0 };
  const real = IDBDatabase.prototype.transaction;
  vi.spyOn(IDBDatabase.prototype, 'transaction').mockImplementation(function (this: IDBDatabase, ...args) {
    const transaction = real.apply(this, args);
    if (!isStrict(args) || told.lost > 0) return transaction;
    told.lost += 1;
    const { addEventListener } = transaction;
    // Whoever would hear of the abort hears of it when it is complete.
    transaction.addEventListener = (type: string, listener: EventListenerOrEventListenerObject) => {
      if (type === 'complete') return;
      addEventListener.call(transaction, type === 'abort' ? 'complete' : type, listener);
    };
    return transaction;
  });
  return told;
};
