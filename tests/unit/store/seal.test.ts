import { createHash } from 'node:crypto';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { studyDay } from '../../../src/log/study-day.ts';
import type { Store } from '../../../src/model/ports.ts';
import { type Connection, connect } from '../../../src/store/connection.ts';
import { seal } from '../../../src/store/seal.ts';
import { failCommits } from './faults.ts';
import { AT, entriesIn, freshName, linesIn, linesOf, openAt, setting } from './stores.ts';

const DAY = 86_400_000;
const today = studyDay(AT, 0);

let name: string;
let store: Store;
let connection: Connection;
beforeEach(async () => {
  name = freshName();
  store = await openAt(name);
  connection = await connect(name);
});
afterEach(async () => {
  vi.restoreAllMocks();
  connection.close();
  await store.close();
  vi.stubGlobal('navigator', {});
});

/** What lies where. */
const layout = () =>
  connection.run(async (database) => ({
    rows: await database.count('log'),
    segments: await database.getAll('segments'),
    keys: await database.getAllKeys('segments'),
  }));
const counts = async () => {
  const { rows, segments } = await layout();
  return { rows, sealed: segments.map(({ count }) => count) };
};
/** Entries of another device, one a minute, `days` ago; what was merged is folded. */
const lay = async (count: number, days: number, writer = `d${days}`) => {
  const { added } = await store.log.merge(linesOf(writer, count, AT - days * DAY));
  expect(added).toBe(count);
  await store.checkpoint.put({ value: 'all', entries: await store.log.count() });
};

describe('what is sealed', () => {
  test('days before today, not today; the log reads the same', async () => {
    await lay(120, 3);
    await lay(30, 1);
    await lay(110, 0);
    const before = await linesIn(store);
    expect(await seal(connection, today)).toBe(1);
    expect(await counts()).toEqual({ rows: 110, sealed: [150] });
    expect(await linesIn(store)).toEqual(before);
    expect(await store.log.count()).toBe(260);
  });
  test.each([
    [99, { rows: 99, sealed: [] }],
    [100, { rows: 0, sealed: [100] }],
    [300, { rows: 0, sealed: [300] }],
    [399, { rows: 99, sealed: [300] }],
    [715, { rows: 0, sealed: [115, 300, 300] }],
  ])('of %d entries, a hundred or more and three hundred at most together', async (count, layed) => {
    await lay(count, 2);
    const before = await linesIn(store);
    await seal(connection, today);
    const { rows, sealed } = await counts();
    expect({ rows, sealed: sealed.sort() }).toEqual(layed);
    expect(await linesIn(store)).toEqual(before);
  });
  test('a segment is named by what it holds, and by its first day', async () => {
    await lay(150, 4);
    await lay(150, 2);
    await seal(connection, today);
    const { segments, keys } = await layout();
    const [{ hash, text, count } = { hash: '', text: '', count: 0 }] = segments;
    expect(keys).toEqual([[today - 4, hash]]);
    // By another implementation of SHA-256.
    expect(hash).toBe(createHash('sha256').update(text, 'utf8').digest('hex'));
    expect(text.endsWith('\n')).toBe(true);
    expect(text.trimEnd().split('\n')).toHaveLength(count);
    expect(text.trimEnd().split('\n').sort()).toEqual(await linesIn(store));
  });
  test('two devices with the same log make the same segments', async () => {
    await lay(250, 2);
    const otherName = freshName();
    const other = await openAt(otherName);
    await other.importAll(await store.exportAll());
    await other.log.append(setting('only here'));
    await other.checkpoint.put({ value: 'all', entries: 251 });
    const second = await connect(otherName);
    await seal(connection, today);
    await seal(second, today);
    const theirs = await second.run((database) => database.getAllKeys('segments'));
    expect(theirs).toEqual((await layout()).keys);
    expect(theirs).toHaveLength(1);
    second.close();
    await other.close();
  });
});

describe('what the checkpoint does not hold yet', () => {
  test('stays a row, and is what the next start reads', async () => {
    for (let n = 1; n <= 150; n++) await store.log.append(setting(n, n - 2 * DAY));
    await store.checkpoint.put({ value: 'of 120', entries: 120 });
    await seal(connection, today);
    expect(await counts()).toEqual({ rows: 30, sealed: [120] });
    const again = await openAt(name);
    const resumed = await again.checkpoint.get();
    expect(resumed?.entries).toBe(120);
    expect(resumed?.tail.map((entry) => (entry as { value?: unknown }).value)).toEqual(
      Array.from({ length: 30 }, (_, i) => 121 + i),
    );
    await again.close();
  });
  test('too few that are folded: all stay', async () => {
    for (let n = 1; n <= 150; n++) await store.log.append(setting(n, n - 2 * DAY));
    await store.checkpoint.put({ value: 'of 99', entries: 99 });
    expect(await seal(connection, today)).toBe(0);
    expect(await counts()).toEqual({ rows: 150, sealed: [] });
  });
});

describe('again, beside, and cut off', () => {
  test('a second time there is nothing to do', async () => {
    await lay(350, 2);
    await seal(connection, today);
    const before = await layout();
    expect(await seal(connection, today)).toBe(0);
    expect(await layout()).toEqual(before);
  });
  test('by two tabs at once: once', async () => {
    await lay(350, 2);
    const before = await linesIn(store);
    const second = await connect(name);
    await Promise.all([seal(connection, today), seal(second, today)]);
    expect(await linesIn(store)).toEqual(before);
    const { rows, sealed } = await counts();
    expect(rows + sealed.reduce((sum, count) => sum + count, 0)).toBe(350);
    second.close();
  });
  test('where another tab changes a row in between: what it changed is left to the next time', async () => {
    await lay(150, 2, 'other');
    const digest = crypto.subtle.digest.bind(crypto.subtle);
    vi.spyOn(crypto.subtle, 'digest').mockImplementationOnce(async (...args) => {
      // Of twenty ids some go to the other entry.
      await store.log.merge(linesOf('other', 20, AT - DAY));
      return digest(...args);
    });
    await seal(connection, today);
    expect((await layout()).segments).toEqual([]);
    expect(await linesIn(store)).toHaveLength(170);
    expect(new Set((await entriesIn(store)).map(({ id }) => id)).size).toBe(170);
  });
  test('while answers are written: all are there', async () => {
    await lay(350, 2);
    const writing = Array.from({ length: 20 }, (_, i) => store.log.append(setting(`now ${i}`, i)));
    await Promise.all([seal(connection, today), ...writing]);
    expect(await linesIn(store)).toHaveLength(370);
    expect(await store.log.count()).toBe(370);
  });
  test.each([0, 1, 2])('after %d segments: the log reads the same', async (cut) => {
    await lay(700, 2);
    const before = await linesIn(store);
    failCommits('QuotaExceededError', { from: cut, times: 100 });
    await expect(seal(connection, today)).rejects.toMatchObject({ name: 'StoreProblem', fault: 'full' });
    vi.restoreAllMocks();
    expect((await layout()).segments).toHaveLength(cut);
    expect(await linesIn(store)).toEqual(before);
    await seal(connection, today);
    expect(await counts()).toMatchObject({ rows: 0 });
    expect(await linesIn(store)).toEqual(before);
  });
});

describe('a merge after sealing', () => {
  test('of what is sealed adds nothing; of more, that', async () => {
    const lines = linesOf('other', 200, AT - 2 * DAY);
    await store.log.merge(lines.slice(0, 150));
    await store.checkpoint.put({ value: 'all', entries: 150 });
    await seal(connection, today);
    expect(await counts()).toEqual({ rows: 0, sealed: [150] });
    expect(await store.log.merge(lines)).toMatchObject({ added: 50, doubled: 150, clashes: 0 });
    expect(await linesIn(store)).toEqual([...lines].sort());
    expect(await store.log.count()).toBe(200);
  });
  test('that takes ids from sealed entries opens their segment again and loses nothing', async () => {
    const mine = linesOf('other', 150, AT - 2 * DAY);
    // Another value under the same ids: of some the hash is smaller, of some it is greater.
    const theirs = linesOf('other', 20, AT - DAY);
    await store.log.merge(mine);
    await store.checkpoint.put({ value: 'all', entries: 150 });
    await seal(connection, today);
    const report = await store.log.merge(theirs);
    expect(report).toMatchObject({ added: 20, clashes: 20 });
    const entries = await entriesIn(store);
    const times = (list: readonly { at: number }[]) => list.map(({ at }) => at).sort();
    expect(times(entries)).toEqual(times([...mine, ...theirs].map((line) => JSON.parse(line) as { at: number })));
    expect(new Set(entries.map(({ id }) => id)).size).toBe(170);
    expect(await store.log.count()).toBe(170);
    // Both kinds were among them: segments were opened.
    expect((await layout()).segments).toEqual([]);
  });
});
