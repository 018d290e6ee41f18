import type { DraftCopies, Drafts, StoredDraft } from '../model/ports.ts';
import type { Connection } from './connection.ts';
import { asProblem } from './problem.ts';

interface Around {
  readonly connection: Connection;
  /** @throws StoreProblem where another tab writes */
  mustWrite(): void;
  readonly copies: (() => Promise<DraftCopies | null>) | undefined;
}

/** Ms after a change until the second copy is written: it is a whole file each time. */
const LATER = 1500;

export const createDrafts = ({ connection, mustWrite, copies }: Around): Drafts => {
  let opened: Promise<DraftCopies | null> | null = null;
  const theCopies = (): Promise<DraftCopies | null> => {
    opened ??= copies === undefined ? Promise.resolve(null) : copies().catch(() => null);
    return opened;
  };
  const waiting = new Map<string, StoredDraft>();
  let timer: ReturnType<typeof setTimeout> | undefined;
  /** Writing copies and removing drafts, one after the other: a copy on its way would outlast its draft. */
  let queue: Promise<unknown> = Promise.resolve();
  const inTurn = (work: () => Promise<void>): Promise<void> => {
    const done = queue.then(work);
    queue = done.catch(() => undefined);
    return done;
  };
  /** Of what fails the next change writes all again; the database has it anyway. */
  const copyAll = async (): Promise<void> => {
    const second = await theCopies();
    const now = [...waiting.values()];
    waiting.clear();
    for (const draft of now) await second?.put(draft).catch(() => undefined);
  };
  const copyLater = (draft: StoredDraft): void => {
    waiting.set(draft.id, draft);
    if (timer !== undefined) return;
    timer = setTimeout(() => {
      timer = undefined;
      void inTurn(copyAll);
    }, LATER);
  };
  const all = (): Promise<StoredDraft[]> => connection.run((database) => database.getAll('drafts'));
  /** Removing takes the copy first: a copy alone is one that the database has lost. */
  const comeBack = async (here: readonly StoredDraft[]): Promise<boolean> => {
    const kept = (await (await theCopies())?.list().catch(() => [])) ?? [];
    const lost = kept.filter(({ id }) => !here.some((one) => one.id === id) && !waiting.has(id));
    for (const draft of lost) await connection.run((database) => database.put('drafts', draft));
    return lost.length > 0;
  };

  return {
    list: async () => {
      let drafts = await all();
      if (await comeBack(drafts)) drafts = await all();
      return drafts.sort((a, b) => b.changed - a.changed);
    },
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
        if (fits) copyLater(draft);
        return fits ? 'kept' : { there };
      });
    },
    remove: async (id) => {
      mustWrite();
      waiting.delete(id);
      await inTurn(async () => {
        try {
          await (await theCopies())?.remove(id);
        } catch (error) {
          throw asProblem(error);
        }
        await connection.run((database) => database.delete('drafts', id));
        // Written while it was being removed.
        waiting.delete(id);
      });
    },
  };
};
