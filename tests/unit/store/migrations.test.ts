import 'fake-indexeddb/auto';
import { existsSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { at } from '../../../scripts/lib/paths.mjs';
import { noJournal } from '../../../src/journal/none.ts';
import { unionOf } from '../../../src/log/union.ts';
import { MIGRATIONS, VERSION } from '../../../src/store/migrations/index.ts';
import { openStore } from '../../../src/store/open.ts';

interface Fixture {
  readonly version: number;
  readonly stores: Readonly<Record<string, readonly { readonly key?: IDBValidKey; readonly value: unknown }[]>>;
}
const file = (version: number) => at('tests/fixtures/db', `${String(version).padStart(3, '0')}.json`);
const versions = Array.from({ length: VERSION }, (_, i) => i + 1);

test('every version that was ever shipped has a database to be opened from', () => {
  expect(versions.filter((version) => !existsSync(file(version)))).toEqual([]);
});

/** A database as that version of the app left it. */
const lay = (name: string, { version, stores }: Fixture): Promise<void> =>
  new Promise((done, failed) => {
    const opening = indexedDB.open(name, version);
    opening.onerror = () => failed(opening.error);
    opening.onupgradeneeded = () => {
      const transaction = opening.transaction as IDBTransaction;
      for (const migrate of MIGRATIONS.slice(0, version)) migrate(opening.result, transaction);
      for (const [store, records] of Object.entries(stores))
        for (const { key, value } of records) transaction.objectStore(store).put(value, key);
    };
    opening.onsuccess = () => {
      opening.result.close();
      done();
    };
  });

test.each(versions)('a database of version %d is read by the app of today', async (version) => {
  const fixture = JSON.parse(readFileSync(file(version), 'utf8')) as Fixture;
  const name = `fixture-${version}`;
  await lay(name, fixture);
  const store = await openStore({
    app: 'today',
    name,
    journal: async () => noJournal,
    exchange: () => import('../../../src/exchange/saved-copy.ts'),
    union: async (...input) => unionOf(...input),
  });
  expect(store.opened).toEqual({ status: 'there', entries: 2 });
  expect((await store.decks.list()).map(({ ref, active }) => [ref, active])).toEqual([
    ['test/one@d84440fcb3cd00df', true],
  ]);
  expect(await store.device.get('cautioned')).toBe(1795625000000);
  const drafts = fixture.stores.drafts ?? [];
  expect(await store.drafts.list()).toEqual(drafts.map(({ value }) => value));
  const resumed = await store.checkpoint.get();
  expect(resumed?.tail.map(({ id }) => id)).toEqual(['abcdefghijklm.2']);
  const next = await store.log.append({ k: 'set', key: 'minutes/real', value: 20, at: 1795626070000, off: 0 });
  expect(next.id).toBe('abcdefghijklm.3');
  const lines: string[] = [];
  await store.log.all((part) => void lines.push(...part));
  expect(lines).toHaveLength(3);
  // Twice is once; what is new comes in.
  const copy = await store.exportAll();
  expect(await store.importAll(copy)).toMatchObject({ added: 0, doubled: 3, decks: 0, badLines: 0, complete: true });
  await store.close();
});

test('two entries under one id, from a copied phone: both are kept, and it is told', async () => {
  const store = await openStore({
    app: 'today',
    name: 'copied',
    journal: async () => noJournal,
    exchange: () => import('../../../src/exchange/saved-copy.ts'),
    union: async (...input) => unionOf(...input),
  });
  const entry = await store.log.append({ k: 'set', key: 'minutes/real', value: 5, at: 1000, off: 0 });
  const other = JSON.stringify({ ...entry, value: 6 });
  expect(await store.log.merge([other])).toMatchObject({ added: 1, clashes: 1 });
  const values: unknown[] = [];
  await store.log.all((lines) => {
    for (const line of lines) values.push((JSON.parse(line) as { value: unknown }).value);
  });
  expect(values.sort()).toEqual([5, 6]);
  expect(await store.log.merge([other])).toMatchObject({ added: 0 });
  expect(await store.log.count()).toBe(2);
  await store.close();
});
