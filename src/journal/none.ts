import type { Journal } from '../model/ports.ts';

/** Where the browser keeps no files of ours: nothing is kept, and nothing found. */
export const noJournal: Journal = {
  kind: 'none',
  append: () => undefined,
  deck: () => undefined,
  count: async () => ({ entries: 0, decks: 0, damaged: 0 }),
  read: async () => ({ lines: [], decks: [], damaged: 0 }),
  replace: async () => undefined,
  settled: async () => undefined,
  close: async () => undefined,
};
