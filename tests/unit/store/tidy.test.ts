import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import type { NewDeck, Store } from '../../../src/model/ports.ts';
import { deckText, revision } from '../exchange/copies.ts';
import { AT, entriesIn, freshName, linesIn, linesOf, memoryJournal, numbersOf, openAt, setting } from './stores.ts';

const DAY = 86_400_000;

let name: string;
let store: Store;
let journal: ReturnType<typeof memoryJournal>;
beforeEach(async () => {
  // The day of today is the device's; nothing else of it is used.
  vi.useFakeTimers({ toFake: ['Date'], now: AT });
  name = freshName();
  journal = memoryJournal();
  store = await openAt(name, { journal: async () => journal });
});
afterEach(async () => {
  await store.close();
  vi.useRealTimers();
});

const newDeck = async (text = deckText()): Promise<NewDeck> => {
  const { id, version, title, nature, contentId } = await revision(text);
  return { id, version, title, nature, contentId, text };
};
const write = async (...values: readonly number[]) => {
  for (const value of values) await store.log.append(setting(value, value));
};
/** The page before: its database lost what was written after `n` entries, as a power cut does it; the journal did not. */
const restartWithout = async (last: number): Promise<void> => {
  await store.close();
  const kept = journal.content;
  const database = await new Promise<IDBDatabase>((done) => {
    const opening = indexedDB.open(name);
    opening.onsuccess = () => done(opening.result);
  });
  const transaction = database.transaction(['log', 'state', 'decks'], 'readwrite');
  const { writer } = store;
  const log = transaction.objectStore('log');
  const keys = log.getAllKeys();
  keys.onsuccess = () => {
    for (const key of keys.result as [number, string][])
      if (Number(key[1].slice(writer.length + 1)) > last) log.delete(key);
  };
  transaction.objectStore('state').put({ writer, n: last, entries: last, floor: 0, at: AT + last }, 'head');
  transaction.objectStore('decks').clear();
  await new Promise((done) => {
    transaction.oncomplete = done;
  });
  database.close();
  journal = memoryJournal(kept);
  store = await openAt(name, { journal: async () => journal });
};

test('old days are sealed, today is not, and the log reads the same', async () => {
  await store.log.merge(linesOf('other', 150, AT - 2 * DAY));
  await write(1, 2, 3);
  await store.checkpoint.put({ value: 'all', entries: 153 });
  const before = await linesIn(store);
  await store.tidy();
  const again = await openAt(name);
  expect(await linesIn(again)).toEqual(before);
  await again.close();
  const database = await new Promise<IDBDatabase>((done) => {
    const opening = indexedDB.open(name);
    opening.onsuccess = () => done(opening.result);
  });
  const rows = database.transaction('log').objectStore('log').count();
  await new Promise((done) => {
    rows.onsuccess = done;
  });
  expect(rows.result).toBe(3);
  database.close();
});

describe('journal and database are made to hold the same', () => {
  test('where they do, the journal is not written anew', async () => {
    await write(1, 2, 3);
    await store.decks.put(await newDeck());
    await store.tidy();
    expect(journal.replaced).toBe(0);
    expect([...journal.content.lines].sort()).toEqual(await linesIn(store));
  });
  test('what the journal lacks it gets', async () => {
    await write(1, 2, 3);
    const deck = await store.decks.put(await newDeck());
    await store.tidy();
    journal.content = { lines: journal.content.lines.slice(0, 1), decks: [], damaged: 0 };
    await store.tidy();
    expect(journal.replaced).toBe(1);
    expect([...journal.content.lines].sort()).toEqual(await linesIn(store));
    expect(journal.content.decks).toEqual([deck]);
  });
  test('a damaged journal is written anew', async () => {
    await write(1, 2);
    await store.tidy();
    journal.content = { ...journal.content, damaged: 1 };
    await store.tidy();
    expect(journal).toMatchObject({ replaced: 1, content: { damaged: 0 } });
    expect(journal.content.lines).toHaveLength(2);
  });
  test('entries and decks that the database lost come back', async () => {
    await write(1, 2, 3, 4);
    const deck = await store.decks.put(await newDeck());
    const all = await linesIn(store);
    await restartWithout(2);
    expect(await store.log.count()).toBe(2);
    await store.tidy();
    expect(await linesIn(store)).toEqual(all);
    expect(await store.log.count()).toBe(4);
    expect(await store.decks.list()).toEqual([deck]);
    expect([...journal.content.lines].sort()).toEqual(all);
    expect(journal.content.decks).toEqual([deck]);
  });
  test('after that the next answer is written: its number was given before', async () => {
    await write(1, 2, 3, 4);
    await restartWithout(2);
    await store.tidy();
    const next = await store.log.append(setting('next', 9));
    expect((await entriesIn(store)).map(({ value }) => value)).toEqual([1, 2, 3, 4, 'next']);
    expect(new Set((await entriesIn(store)).map(({ id }) => id)).size).toBe(5);
    expect(next.id).toBe(`${store.writer}.1`);
    expect(store.log.unsaved).toEqual([]);
  });
  test('an answer that was given under such a number before the tidying is kept beside the lost one', async () => {
    await write(1, 2, 3);
    await restartWithout(2);
    await store.log.append(setting('anew', 9));
    await store.tidy();
    expect((await entriesIn(store)).map(({ value }) => value)).toEqual([1, 2, 3, 'anew']);
    await store.log.append(setting('next', 10));
    expect(await numbersOf(store, store.writer)).toEqual([1]);
    expect((await entriesIn(store)).map(({ value }) => value)).toEqual([1, 2, 3, 'anew', 'next']);
  });
  test('a line of the journal that is no entry keeps nothing else from coming back', async () => {
    await write(1, 2, 3);
    const all = await linesIn(store);
    await restartWithout(1);
    journal.content = { ...journal.content, lines: ['{"v":1}', ...journal.content.lines, 'null'] };
    await store.tidy();
    expect(await linesIn(store)).toEqual(all);
    await store.tidy();
    expect(await linesIn(store)).toEqual(all);
    expect([...journal.content.lines].sort()).toEqual(all);
  });
});
