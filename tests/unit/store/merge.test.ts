import { afterEach, describe, expect, test, vi } from 'vitest';
import type { Store } from '../../../src/model/ports.ts';
import { failCommits } from './faults.ts';
import { AT, entriesIn, freshName, linesIn, linesOf, numbersOf, openAt, setting } from './stores.ts';

afterEach(() => {
  vi.restoreAllMocks();
  vi.stubGlobal('navigator', {});
});

const open = (name: string): Promise<IDBDatabase> =>
  new Promise((done, failed) => {
    const request = indexedDB.open(name);
    request.onsuccess = () => done(request.result);
    request.onerror = () => failed(request.error);
  });

/** All of a database, as a backup of a phone carries it to another one. */
const clone = async (from: string): Promise<string> => {
  const to = freshName();
  await (await openAt(to)).close();
  const [source, target] = [await open(from), await open(to)];
  for (const store of source.objectStoreNames) {
    const read = source.transaction(store).objectStore(store);
    const [keys, values] = [read.getAllKeys(), read.getAll()];
    await new Promise((done) => {
      read.transaction.oncomplete = done;
    });
    const write = target.transaction(store, 'readwrite').objectStore(store);
    for (const [i, value] of values.result.entries())
      write.put(value, write.keyPath === null ? keys.result[i] : undefined);
    await new Promise((done) => {
      write.transaction.oncomplete = done;
    });
  }
  source.close();
  target.close();
  return to;
};
/** What the checkpoint and its tail hold, in number; null where all is to be folded. */
const folded = async (store: Store): Promise<number | null> => {
  const resumed = await store.checkpoint.get();
  return resumed === null ? null : resumed.entries + resumed.tail.length;
};

describe('a copied phone: one writer twice', () => {
  test('all entries of both are kept, it is told, and both phones end with the same', async () => {
    const name = freshName();
    const first = await openAt(name);
    for (const n of [1, 2, 3]) await first.log.append(setting(n, n));
    await first.close();
    const other = await openAt(await clone(name));
    const one = await openAt(name);
    const { writer } = one;
    expect(other.writer).toBe(writer);
    for (const n of [4, 5]) await one.log.append(setting(`one ${n}`, n));
    for (const n of [4, 5, 6]) await other.log.append(setting(`other ${n}`, n));
    const [copyOfOne, copyOfOther] = [await one.exportAll(), await other.exportAll()];

    expect(await one.importAll(copyOfOther)).toMatchObject({ added: 3, doubled: 3, clashes: 2, badLines: 0 });
    expect((await entriesIn(one)).map(({ value }) => value).sort()).toEqual(
      [1, 2, 3, 'one 4', 'one 5', 'other 4', 'other 5', 'other 6'].sort(),
    );
    expect(await one.log.count()).toBe(8);
    expect(new Set((await entriesIn(one)).map(({ id }) => id)).size).toBe(8);
    expect(await other.importAll(copyOfOne)).toMatchObject({ added: 2, doubled: 3, clashes: 2 });
    expect(await linesIn(other)).toEqual(await linesIn(one));
    expect(await other.log.count()).toBe(8);

    // The same again: nothing new, and nothing to be told of.
    const before = await linesIn(one);
    expect(await one.importAll(copyOfOther)).toMatchObject({ added: 0, clashes: 0 });
    expect(await one.importAll(await other.exportAll())).toMatchObject({ added: 0, doubled: 8, clashes: 0 });
    expect(await linesIn(one)).toEqual(before);
    await Promise.all([one.close(), other.close()]);
  });
  test('the phone that took the other in never gives a number that the other gave', async () => {
    const name = freshName();
    const first = await openAt(name);
    await first.log.append(setting(1));
    await first.close();
    const other = await openAt(await clone(name));
    for (const n of [2, 3, 4]) await other.log.append(setting(`other ${n}`, n));
    const one = await openAt(name);
    await one.importAll(await other.exportAll());
    const next = await one.log.append(setting('one', 9));
    expect(next.id).not.toBe(`${one.writer}.2`);
    expect((await entriesIn(one)).map(({ value }) => value)).toEqual([1, 'other 2', 'other 3', 'other 4', 'one']);
    // Written on by another writer: the two phones clash no more.
    expect(one.writer).not.toBe(other.writer);
    expect(next.id).toBe(`${one.writer}.1`);
    for (const n of [5, 6]) await other.log.append(setting(`other ${n}`, n));
    expect(await one.importAll(await other.exportAll())).toMatchObject({ added: 2, clashes: 0 });
    expect(await numbersOf(one, other.writer)).toEqual([1, 2, 3, 4, 5, 6]);
    await Promise.all([one.close(), other.close()]);
  });
});

describe('a merge that is cut off', () => {
  /** @returns what is here at the next start */
  const cutAfter = async (name: string, transactions: number, incoming: readonly string[]) => {
    const store = await openAt(name);
    failCommits('QuotaExceededError', { from: transactions, times: 1000 });
    const result = await store.log.merge(incoming).catch((error: unknown) => error);
    vi.restoreAllMocks();
    // The page is gone; nothing is closed in order.
    return { result, store: await openAt(name) };
  };
  const values = async (store: Store) => (await entriesIn(store)).map(({ value }) => value);

  test.each([0, 1, 2, 3, 4])('after %d transactions: what was here stays, and once more does the rest', async (cut) => {
    const name = freshName();
    const start = await openAt(name);
    for (const n of [1, 2, 3]) await start.log.append(setting(n, n));
    await start.checkpoint.put({ value: 'of three', entries: 3 });
    await start.close();
    const incoming = linesOf('other', 1000, AT + 1000);
    const { result, store } = await cutAfter(name, cut, incoming);
    if (result instanceof Error) expect(result).toMatchObject({ name: 'StoreProblem', fault: 'full' });
    const there = await values(store);
    expect(there.slice(0, 3)).toEqual([1, 2, 3]);
    // A checkpoint that does not hold what came in is not gone on from.
    expect([null, there.length]).toContain(await folded(store));
    expect(await store.log.count()).toBe(there.length);
    await store.log.merge(incoming);
    expect(await values(store)).toHaveLength(1003);
    expect(await store.log.count()).toBe(1003);
    expect(await folded(store)).toBeNull();
    await store.checkpoint.put({ value: 'of all', entries: 1003 });
    await store.log.append(setting('next'));
    expect(await folded(store)).toBe(1004);
    await store.close();
  });

  test.each([0, 1, 2, 3, 4])('of a copied phone, after %d transactions: no entry is gone', async (cut) => {
    const name = freshName();
    const start = await openAt(name);
    for (let n = 1; n <= 8; n++) await start.log.append(setting(`here ${n}`, n));
    await start.close();
    const { writer } = start;
    // Of two entries under one id the hash decides which keeps it; in eight pairs both happen.
    const incoming = linesOf(writer, 8, AT + 60_000);
    const here = Array.from({ length: 8 }, (_, i) => `here ${i + 1}`);
    const { store } = await cutAfter(name, cut, incoming);
    expect((await values(store)).filter((value) => typeof value === 'string')).toEqual(here);
    await store.log.merge(incoming);
    expect(await values(store)).toEqual([...here, 0, 1, 2, 3, 4, 5, 6, 7]);
    expect(await store.log.count()).toBe(16);
    expect(new Set((await entriesIn(store)).map(({ id }) => id)).size).toBe(16);
    await store.close();
  });
});

test('what came in is not taken for the last that was written here: all is folded anew', async () => {
  const store = await openAt();
  for (const n of [1, 2, 3]) await store.log.append(setting(n, n));
  await store.checkpoint.put({ value: 'of three', entries: 3 });
  expect(await folded(store)).toBe(3);
  await store.log.merge(linesOf('other', 2));
  expect(await store.checkpoint.get()).toBeNull();
  // Made before the merge: it is not kept either.
  await store.checkpoint.put({ value: 'of three', entries: 3 });
  expect(await store.checkpoint.get()).toBeNull();
  await store.close();
});

test('lines that are no entries: told, and nothing of them is taken in', async () => {
  const store = await openAt();
  const [one = ''] = linesOf('other', 1);
  await expect(store.log.merge([one, '{"v":1'])).rejects.toThrow(RangeError);
  expect(await store.log.count()).toBe(0);
  expect(await linesIn(store)).toEqual([]);
  await store.close();
});

describe('a large log', () => {
  const DAY = 86_400_000;
  const many = linesOf('other', 5500, AT - 400 * DAY);

  test('comes in as segments, reads the same, and clashes and further merges find what is in them', async () => {
    const store = await openAt();
    await store.log.append(setting('here'));
    const told: number[] = [];
    expect(await store.log.merge(many, (share) => told.push(share))).toMatchObject({ added: 5500, answers: 0 });
    expect(told.at(-1)).toBe(1);
    expect([...told].sort((a, b) => a - b)).toEqual(told);
    expect(await store.log.count()).toBe(5501);
    expect((await linesIn(store)).filter((line) => line.includes('"other.'))).toEqual([...many].sort());
    expect(await store.log.merge(many)).toMatchObject({ added: 0, doubled: 5500 });
    expect(await store.log.merge(linesOf('other', 3, AT))).toMatchObject({ added: 3, clashes: 3 });
    expect(await store.log.count()).toBe(5504);
    expect(await folded(store)).toBeNull();
    await store.close();
  });

  test.each([0, 1, 2])('cut off after %d transactions: once more does the rest, and nothing twice', async (cut) => {
    const name = freshName();
    const store = await openAt(name);
    failCommits('QuotaExceededError', { from: cut, times: 1000 });
    await expect(store.log.merge(many)).rejects.toMatchObject({ fault: 'full' });
    vi.restoreAllMocks();
    const again = await openAt(name);
    const there = await linesIn(again);
    expect(await again.log.count()).toBe(there.length);
    expect(there.length).toBe(cut * 2400);
    await again.log.merge(many);
    expect(await linesIn(again)).toEqual([...many].sort());
    expect(await again.log.count()).toBe(5500);
    await again.close();
  });
});
