import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { revision } from '../exchange/copies.ts';
import { failCommits } from './faults.ts';
import { AT, freshName, linesIn, linesOf, memoryJournal, openAt, setting } from './stores.ts';

/** What the browser keeps beside the database. */
let kept: Map<string, string>;
beforeEach(() => {
  kept = new Map();
  vi.stubGlobal('localStorage', {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => void kept.set(key, value),
  });
});
afterEach(() => {
  vi.restoreAllMocks();
  vi.unstubAllGlobals();
  vi.stubGlobal('navigator', {});
});

const drop = (name: string): Promise<void> =>
  new Promise((done, failed) => {
    const request = indexedDB.deleteDatabase(name);
    request.onsuccess = () => done();
    request.onerror = () => failed(request.error);
  });
/** A device on which something was written; then the browser loses the database. */
const lost = async (name: string, journal: ReturnType<typeof memoryJournal>, count = 3) => {
  const store = await openAt(name, { journal: async () => journal });
  const { id, version, title, nature, contentId, text } = await revision();
  const deck = await store.decks.put({ id, version, title, nature, contentId, text });
  for (let n = 1; n <= count; n++) await store.log.append(setting(n, n));
  await store.checkpoint.put({ value: 'all', entries: count });
  const lines = await linesIn(store);
  await store.close();
  await drop(name);
  return { lines, deck, writer: store.writer };
};

describe('a database that is gone', () => {
  test('comes back from the journal, under another writer, and it is told', async () => {
    const [name, journal] = [freshName(), memoryJournal()];
    const { lines, deck, writer } = await lost(name, journal);
    const store = await openAt(name, { journal: async () => journal });
    expect(store.opened).toMatchObject({ status: 'recovered', entries: 3 });
    expect(store.opened.note).toMatch(/3 entries and 1 deck came back.*nothing is missing as far as is known/);
    expect(await linesIn(store)).toEqual(lines);
    expect(await store.decks.list()).toEqual([deck]);
    expect(await store.log.lastAt()).toBe(AT + 3);
    // All is to be folded: no checkpoint came back.
    expect(await store.checkpoint.get()).toBeNull();
    expect(store.writer).not.toBe(writer);
    expect((await store.log.append(setting('next'))).id).toBe(`${store.writer}.1`);
    await store.close();
    // Told once.
    const again = await openAt(name, { journal: async () => journal });
    expect(again.opened).toEqual({ status: 'there', entries: 4 });
    await again.close();
  });
  test('of which the journal had less: how much may be missing', async () => {
    const [name, journal] = [freshName(), memoryJournal()];
    await lost(name, journal);
    journal.content = { ...journal.content, lines: journal.content.lines.slice(0, 2), damaged: 1 };
    const store = await openAt(name, { journal: async () => journal });
    expect(store.opened.note).toMatch(/2 entries and 1 deck came back.*1 entry at most may be missing/);
    await store.close();
  });
  test('lines of the journal that are no entries keep nothing else from coming back', async () => {
    const [name, journal] = [freshName(), memoryJournal()];
    const { lines } = await lost(name, journal);
    journal.content = { ...journal.content, lines: ['null', ...journal.content.lines, '{"v":1,"k":"answer"}', 'x'] };
    const store = await openAt(name, { journal: async () => journal });
    expect(store.opened).toMatchObject({ status: 'recovered', entries: 3 });
    expect(await linesIn(store)).toEqual(lines);
    await store.close();
  });
  test('is never a silent empty start, where there is no journal either', async () => {
    const [name, journal] = [freshName(), memoryJournal()];
    await lost(name, journal);
    const empty = memoryJournal();
    const store = await openAt(name, { journal: async () => empty });
    expect(store.opened).toMatchObject({ status: 'lost', entries: 0 });
    expect(store.opened.note).toMatch(/has lost what was stored here \(3 entries\)/);
    await store.close();
  });
  test('nor where the journal cannot be read', async () => {
    const [name, journal] = [freshName(), memoryJournal()];
    await lost(name, journal);
    journal.read = async () => {
      throw new Error('the worker of the journal ended');
    };
    const store = await openAt(name, { journal: async () => journal });
    expect(store.opened.status).toBe('lost');
    // It works all the same.
    await store.log.append(setting(1));
    expect(await store.log.count()).toBe(1);
    await store.close();
  });
  test.each([0, 1, 2, 3, 4])('a recovery cut off after %d transactions is done anew at the next start', async (cut) => {
    const name = freshName();
    const lines = linesOf('before', 1000);
    const journal = memoryJournal({ lines, decks: [await revision()] });
    kept.set('recency.had-data', '1000');
    failCommits('QuotaExceededError', { from: cut, times: 1000 });
    await expect(openAt(name, { journal: async () => journal })).rejects.toMatchObject({ fault: 'full' });
    vi.restoreAllMocks();
    const store = await openAt(name, { journal: async () => journal });
    expect(store.opened).toMatchObject({ status: 'recovered', entries: 1000 });
    expect(store.opened.note).toMatch(/1000 entries and 1 deck came back.*nothing is missing/);
    expect(await linesIn(store)).toEqual([...lines].sort());
    expect(await store.log.count()).toBe(1000);
    await store.close();
  });
});

test('a browser that keeps no mark, and forbids to look: a new start is a new start', async () => {
  vi.stubGlobal('localStorage', {
    getItem: () => {
      throw new DOMException('no', 'SecurityError');
    },
    setItem: () => {
      throw new DOMException('no', 'QuotaExceededError');
    },
  });
  const store = await openAt();
  expect(store.opened).toEqual({ status: 'new', entries: 0 });
  await store.log.append(setting(1));
  expect(await store.log.count()).toBe(1);
  await store.close();
});

test('no database to be had: said in words', async () => {
  vi.stubGlobal('indexedDB', undefined);
  await expect(openAt()).rejects.toMatchObject({
    name: 'StoreProblem',
    fault: 'missing',
    message: expect.stringMatching(/does not let the app keep anything/),
  });
});
