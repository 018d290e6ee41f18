import { forceCloseDatabase } from 'fake-indexeddb';
import { afterEach, describe, expect, test, vi } from 'vitest';
import type { StoreProblem } from '../../../src/model/ports.ts';
import { failCommits, loseWordOfCommit, watchConnections } from './faults.ts';
import { AT, entriesIn, freshName, numbersOf, openAt, setting } from './stores.ts';

afterEach(() => {
  vi.restoreAllMocks();
  vi.stubGlobal('navigator', {});
});

const valuesIn = async (store: Parameters<typeof entriesIn>[0]) => (await entriesIn(store)).map(({ value }) => value);
const upTo = (n: number) => Array.from({ length: n }, (_, i) => i + 1);

describe('numbers', () => {
  test('from 1 without gaps, also when many are written at once, and on after the next start', async () => {
    const name = freshName();
    const store = await openAt(name);
    expect(store.opened).toEqual({ status: 'new', entries: 0 });
    const written = await Promise.all(upTo(20).map((value) => store.log.append(setting(value, value))));
    expect(written.map(({ id }) => id)).toEqual(upTo(20).map((n) => `${store.writer}.${n}`));
    expect(written.at(0)).toEqual({ ...setting(1, 1), v: 1, app: 'test', id: `${store.writer}.1` });
    await store.close();
    const again = await openAt(name);
    expect(again.opened).toEqual({ status: 'there', entries: 20 });
    expect(again.writer).toBe(store.writer);
    await again.log.append(setting(21, 21));
    expect(await numbersOf(again, again.writer)).toEqual(upTo(21));
    expect([await again.log.count(), await again.log.lastAt()]).toEqual([21, AT + 21]);
    await again.close();
  });
  test('two stores on one database, where there are no locks: the one whose head was moved numbers anew', async () => {
    const name = freshName();
    const [one, other] = [await openAt(name), await openAt(name)];
    expect(other.writer).toBe(one.writer);
    await one.log.append(setting('one'));
    const late = await other.log.append(setting('other'));
    expect(late.id).toBe(`${one.writer}.2`);
    await Promise.all(upTo(10).flatMap((n) => [one.log.append(setting(n)), other.log.append(setting(n))]));
    expect(await numbersOf(one, one.writer)).toEqual(upTo(22));
    expect(await one.log.count()).toBe(22);
    expect((await valuesIn(other)).sort()).toEqual([...upTo(10), ...upTo(10), 'one', 'other'].sort());
    await Promise.all([one.close(), other.close()]);
  });
});

describe('a connection that was lost', () => {
  test.each(['closed, and the page was told', 'closed without a word'])(
    '%s: opened again, written once',
    async (how) => {
      const store = await openAt();
      const connections = watchConnections();
      const opens = vi.spyOn(indexedDB, 'open');
      await store.log.append(setting(1));
      const [connection] = connections;
      if (connection === undefined) throw new Error('no connection was seen');
      if (how.endsWith('told')) forceCloseDatabase(connection as never);
      else connection.close();
      expect((await store.log.append(setting(2))).id).toBe(`${store.writer}.2`);
      expect(opens).toHaveBeenCalledTimes(1);
      expect(await valuesIn(store)).toEqual([1, 2]);
      expect(store.log.unsaved).toEqual([]);
      await store.close();
    },
  );
  test('in mid-write: once more on a new connection', async () => {
    const store = await openAt();
    const fault = failCommits('UnknownError');
    const opens = vi.spyOn(indexedDB, 'open');
    await store.log.append(setting(1));
    expect(fault.failed).toBe(1);
    expect(opens).toHaveBeenCalledTimes(1);
    await store.log.append(setting(2));
    expect(await valuesIn(store)).toEqual([1, 2]);
    expect(await numbersOf(store, store.writer)).toEqual([1, 2]);
    await store.close();
  });
  test('after the commit, before the word of it: not written a second time', async () => {
    const store = await openAt();
    await store.log.append(setting(1));
    const fault = loseWordOfCommit();
    const entry = await store.log.append(setting(2));
    expect(fault.lost).toBe(1);
    expect(entry.id).toBe(`${store.writer}.2`);
    await store.log.append(setting(3));
    expect(await numbersOf(store, store.writer)).toEqual([1, 2, 3]);
    expect(await valuesIn(store)).toEqual([1, 2, 3]);
    expect(await store.log.count()).toBe(3);
    await store.close();
  });
  test('that cannot be had again: said, nothing is lost, and a retry writes it', async () => {
    const store = await openAt();
    await store.log.append(setting(1));
    const fault = failCommits('UnknownError', { times: 2 });
    const error = await store.log.append(setting(2)).catch((caught: StoreProblem) => caught);
    expect(error).toMatchObject({
      name: 'StoreProblem',
      fault: 'unknown',
      message: expect.stringMatching(/Try again/),
    });
    expect(fault.failed).toBe(2);
    expect(store.log.unsaved).toEqual([setting(2)]);
    expect((await store.log.retry()).map(({ id }) => id)).toEqual([`${store.writer}.2`]);
    expect(store.log.unsaved).toEqual([]);
    expect(await valuesIn(store)).toEqual([1, 2]);
    await store.close();
  });
});

describe('no room on the device', () => {
  test('is said to be that, is not tried again by itself, and loses nothing', async () => {
    const store = await openAt();
    await store.log.append(setting(1));
    const fault = failCommits('QuotaExceededError', { times: 3 });
    for (const value of [2, 3]) {
      const error = await store.log.append(setting(value, value)).catch((caught: StoreProblem) => caught);
      expect(error).toMatchObject({
        name: 'StoreProblem',
        fault: 'full',
        message: expect.stringMatching(/no room left/),
      });
    }
    expect(fault.failed).toBe(2);
    expect(store.log.unsaved).toEqual([setting(2, 2), setting(3, 3)]);
    await expect(store.log.retry()).rejects.toMatchObject({ fault: 'full' });
    expect(store.log.unsaved).toEqual([setting(2, 2), setting(3, 3)]);
    expect(await valuesIn(store)).toEqual([1]);
    expect(await store.log.count()).toBe(1);
    // Room was made.
    const written = await store.log.retry();
    expect(written).toMatchObject([
      { ...setting(2, 2), id: `${store.writer}.2` },
      { ...setting(3, 3), id: `${store.writer}.3` },
    ]);
    expect(store.log.unsaved).toEqual([]);
    expect(await valuesIn(store)).toEqual([1, 2, 3]);
    await store.log.append(setting(4));
    expect(await numbersOf(store, store.writer)).toEqual([1, 2, 3, 4]);
    await store.close();
  });
  test('what is answered after it is written under the next number; the earlier one keeps its time', async () => {
    const store = await openAt();
    failCommits('QuotaExceededError');
    await expect(store.log.append(setting(1, 1))).rejects.toMatchObject({ fault: 'full' });
    await store.log.append(setting(2, 2));
    await store.log.retry();
    // In the order of time.
    expect((await entriesIn(store)).map(({ id, at, value }) => [id, at - AT, value])).toEqual([
      [`${store.writer}.2`, 1, 1],
      [`${store.writer}.1`, 2, 2],
    ]);
    await store.close();
  });
  test('a button pressed twice writes once', async () => {
    const store = await openAt();
    failCommits('QuotaExceededError');
    await expect(store.log.append(setting(1))).rejects.toMatchObject({ fault: 'full' });
    const [first, second] = await Promise.all([store.log.retry(), store.log.retry()]);
    expect([first.length, second.length]).toEqual([1, 0]);
    expect(await valuesIn(store)).toEqual([1]);
    await store.close();
  });
  test('an entry that fails while others are written again stays to be written', async () => {
    const store = await openAt();
    failCommits('QuotaExceededError', { times: 1 });
    await expect(store.log.append(setting(1))).rejects.toMatchObject({ fault: 'full' });
    vi.restoreAllMocks();
    failCommits('QuotaExceededError', { from: 1 });
    const [, failed] = await Promise.allSettled([store.log.retry(), store.log.append(setting(2))]);
    expect(failed.status).toBe('rejected');
    expect(store.log.unsaved).toEqual([setting(2)]);
    await store.close();
  });
});

test('a store that was closed says so, and does not come back by itself', async () => {
  const store = await openAt();
  await store.close();
  await expect(store.log.append(setting(1))).rejects.toMatchObject({ name: 'StoreProblem', fault: 'closed' });
  expect(store.log.unsaved).toEqual([setting(1)]);
});
