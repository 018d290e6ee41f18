import 'fake-indexeddb/auto';
import { afterAll, vi } from 'vitest';
import { noJournal } from '../../../src/journal/none.ts';
import { canonicalJson } from '../../../src/lib/canonical-json.ts';
import { unionOf } from '../../../src/log/union.ts';
import type { NewEntry } from '../../../src/model/entry.ts';
import type { Journal, JournalContent, Store, StoredDeck } from '../../../src/model/ports.ts';
import { openStore, type StoreOptions } from '../../../src/store/open.ts';

// Without locks every store of this process may write, whatever the version of Node.
vi.stubGlobal('navigator', {});
// The next file of this process finds the globals as they were.
afterAll(() => void vi.unstubAllGlobals());

/** Of a database that no other test has: test files may share one process. */
export const freshName = (): string => `store-${crypto.randomUUID()}`;

export const openAt = (name = freshName(), options: Partial<StoreOptions> = {}): Promise<Store> =>
  openStore({
    app: 'test',
    name,
    journal: async () => noJournal,
    exchange: () => import('../../../src/exchange/saved-copy.ts'),
    union: async (...input) => unionOf(...input),
    ...options,
  });

export const AT = Date.parse('2026-11-25T10:00:00Z');

/** The simplest of entries. @param at ms after the first */
export const setting = (value: unknown, at = 0): NewEntry => ({
  k: 'set',
  key: 'minutes/real',
  value,
  at: AT + at,
  off: 0,
});

/** Sorted: these lines begin with `app` and `at`, so in the order of time. */
export const linesIn = async (store: Store): Promise<string[]> => {
  const lines: string[] = [];
  await store.log.all((part) => void lines.push(...part));
  return lines.sort();
};
export const entriesIn = async (store: Store) =>
  (await linesIn(store)).map((line) => JSON.parse(line) as { id: string; k: string; value?: unknown; at: number });
/** n of the writer's entries, rising. */
export const numbersOf = async (store: Store, writer: string): Promise<number[]> =>
  (await entriesIn(store))
    .flatMap(({ id }) => (id.startsWith(`${writer}.`) ? [Number(id.slice(writer.length + 1))] : []))
    .sort((a, b) => a - b);

/** Lines as another device wrote them, one a minute from `at` on. */
export const linesOf = (writer: string, count: number, at = AT, from = 1): string[] =>
  Array.from({ length: count }, (_, i) =>
    canonicalJson({
      v: 1,
      app: 'test',
      id: `${writer}.${from + i}`,
      k: 'set',
      key: 'minutes/real',
      value: i,
      at: at + i * 60_000,
      off: 0,
    }),
  );

/** A journal in memory; `content` is what it holds. */
export const memoryJournal = (
  start: Partial<JournalContent> = {},
): Journal & { content: JournalContent; replaced: number } => {
  const put = (decks: readonly StoredDeck[], deck: StoredDeck) => [
    ...decks.filter(({ ref }) => ref !== deck.ref),
    deck,
  ];
  const journal: Journal & { content: JournalContent; replaced: number } = {
    kind: 'opfs',
    content: { lines: [], decks: [], damaged: 0, ...start },
    replaced: 0,
    append: (lines) => {
      journal.content = { ...journal.content, lines: [...new Set([...journal.content.lines, ...lines])] };
    },
    deck: (deck) => {
      journal.content = { ...journal.content, decks: put(journal.content.decks, deck) };
    },
    count: async () => {
      const { lines, decks, damaged } = journal.content;
      return { entries: lines.length, decks: decks.length, damaged };
    },
    read: async () => journal.content,
    replace: async ({ lines, decks }) => {
      journal.content = { lines, decks, damaged: 0 };
      journal.replaced += 1;
    },
    settled: async () => undefined,
    close: async () => undefined,
  };
  return journal;
};
