import type { Drafts } from '../model/ports.ts';
import type { Connection } from './connection.ts';

/** @param mustWrite throws a StoreProblem where another tab writes */
export const createDrafts = (connection: Connection, mustWrite: () => void): Drafts => ({
  list: () =>
    connection.run(async (database) => (await database.getAll('drafts')).sort((a, b) => b.changed - a.changed)),
  get: (id) => connection.run(async (database) => (await database.get('drafts', id)) ?? null),
  put: async (draft, before) => {
    mustWrite();
    return connection.run(async (database, again) => {
      const transaction = database.transaction('drafts', 'readwrite', { durability: 'strict' });
      const there = (await transaction.store.get(draft.id)) ?? null;
      // Done a second time after a lost connection: the first may have gone through.
      const fits = (there?.seq ?? 0) === before || (again && there?.seq === draft.seq);
      if (fits) transaction.store.put(draft).catch(() => undefined);
      await transaction.done;
      return fits ? 'kept' : { there };
    });
  },
  remove: async (id) => {
    mustWrite();
    await connection.run((database) => database.delete('drafts', id));
  },
});
