import type { NewDeck, Store, StoredDeck } from '../model/ports.ts';
import type { Connection } from './connection.ts';

export interface DeckStore {
  readonly port: Store['decks'];
  /** Takes in a revision from a copy or the journal as it is; one that is here stays. @returns whether it was not here */
  restore(deck: StoredDeck): Promise<boolean>;
}

interface Around {
  readonly connection: Connection;
  /** @throws StoreProblem where another tab writes */
  mustWrite(): void;
  /** Told of each revision that was written. */
  written(deck: StoredDeck): void;
}

export const createDecks = ({ connection, mustWrite, written }: Around): DeckStore => {
  const list = (): Promise<StoredDeck[]> =>
    connection.run(async (database) =>
      (await database.getAll('decks')).sort((a, b) => a.installed - b.installed || (a.ref < b.ref ? -1 : 1)),
    );
  /** Changes revisions in one strict transaction. */
  const change = async (work: (all: readonly StoredDeck[]) => readonly StoredDeck[]): Promise<void> => {
    mustWrite();
    const changed = await connection.run(async (database) => {
      const transaction = database.transaction('decks', 'readwrite', { durability: 'strict' });
      const next = work(await transaction.store.getAll());
      for (const deck of next) transaction.store.put(deck).catch(() => undefined);
      await transaction.done;
      return next;
    });
    for (const deck of changed) written(deck);
  };
  /** At most one revision of an id is practised. */
  const others = (all: readonly StoredDeck[], of: StoredDeck): StoredDeck[] =>
    all
      .filter(({ id, ref, active }) => id === of.id && ref !== of.ref && active)
      .map((one) => ({ ...one, active: false }));

  return {
    port: {
      list,
      put: async (deck: NewDeck) => {
        let stored: StoredDeck | null = null;
        await change((all) => {
          const ref = `${deck.id}@${deck.contentId.slice(0, 16)}`;
          const before = all.find((one) => one.ref === ref);
          stored = { ...deck, ref, installed: before?.installed ?? Date.now(), active: true };
          return [...others(all, stored), stored];
        });
        return stored as unknown as StoredDeck;
      },
      setActive: (ref, active) =>
        change((all) => {
          const deck = all.find((one) => one.ref === ref);
          if (deck === undefined) return [];
          const next = { ...deck, active };
          return active ? [...others(all, next), next] : [next];
        }),
    },
    restore: async (deck) => {
      let added = false;
      await change((all) => {
        if (all.some(({ ref }) => ref === deck.ref)) return [];
        added = true;
        // What is practised here stays practised.
        const taken = all.some(({ id, active }) => id === deck.id && active);
        return [{ ...deck, active: deck.active && !taken }];
      });
      return added;
    },
  };
};
