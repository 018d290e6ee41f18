import 'fake-indexeddb/auto';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { noJournal } from '../../../src/journal/none.ts';
import { unionOf } from '../../../src/log/union.ts';
import type { DraftCopies, Store, StoredDraft } from '../../../src/model/ports.ts';
import { openStore } from '../../../src/store/open.ts';
import { failCommits } from './faults.ts';

const open = (name: string, draftCopies: () => Promise<DraftCopies | null> = async () => null) =>
  openStore({
    draftCopies,
    app: 'test',
    name,
    journal: async () => noJournal,
    exchange: () => import('../../../src/exchange/saved-copy.ts'),
    union: async (...input) => unionOf(...input),
  });
const draft = (seq: number, title: string, id = 'one'): StoredDraft => ({
  id,
  seq,
  made: 1000,
  changed: 1000 + seq,
  value: { title },
  history: null,
  side: {},
  base: null,
});

let store: Store;
beforeEach(async () => {
  store = await open(crypto.randomUUID());
});
afterEach(() => store.close());

test('a draft is kept as it is put, and the latest stands first', async () => {
  expect(await store.drafts.put(draft(1, 'a'), 0)).toBe('kept');
  expect(await store.drafts.put(draft(5, 'b', 'two'), 0)).toBe('kept');
  expect(await store.drafts.put(draft(2, 'ab'), 1)).toBe('kept');
  expect((await store.drafts.list()).map(({ value }) => value)).toEqual([{ title: 'b' }, { title: 'ab' }]);
  expect(await store.drafts.get('one')).toEqual(draft(2, 'ab'));
});

test('what another tab has changed meanwhile is not overwritten: it is told', async () => {
  await store.drafts.put(draft(1, 'a'), 0);
  await store.drafts.put(draft(2, 'theirs'), 1);
  expect(await store.drafts.put(draft(2, 'mine'), 1)).toEqual({ there: draft(2, 'theirs') });
  expect(await store.drafts.get('one')).toEqual(draft(2, 'theirs'));
});

test('a draft that was removed elsewhere does not come back by itself', async () => {
  await store.drafts.put(draft(1, 'a'), 0);
  await store.drafts.remove('one');
  expect(await store.drafts.put(draft(2, 'ab'), 1)).toEqual({ there: null });
  expect(await store.drafts.list()).toEqual([]);
});

/** Files that outlive the database. */
const files = () => {
  const kept = new Map<string, StoredDraft>();
  const copies: DraftCopies = {
    put: async (one) => void kept.set(one.id, one),
    remove: async (id) => void kept.delete(id),
    list: async () => [...kept.values()],
  };
  return { kept, copies: async () => copies };
};

test('a database that was lost has its drafts back from their second copy; those removed stay away', async () => {
  const { kept, copies } = files();
  const first = await open(crypto.randomUUID(), copies);
  await first.drafts.put(draft(1, 'a'), 0);
  await first.drafts.put(draft(2, 'ab'), 1);
  await first.drafts.put(draft(1, 'gone', 'two'), 0);
  await vi.waitFor(() => expect(kept.size).toBe(2), 5000);
  await first.drafts.remove('two');
  await first.close();
  const second = await open(crypto.randomUUID(), copies);
  expect(await second.drafts.list()).toEqual([draft(2, 'ab')]);
  expect(await second.drafts.put(draft(3, 'abc'), 2)).toBe('kept');
  await second.close();
});

test('a draft removed while its copy is being written stays away', async () => {
  const { kept, copies } = files();
  let written: () => void = () => undefined;
  let begun = false;
  const slow = async (): Promise<DraftCopies> => ({
    ...(await copies()),
    put: async (one) => {
      begun = true;
      await new Promise<void>((done) => {
        written = done;
      });
      kept.set(one.id, one);
    },
  });
  const first = await open(crypto.randomUUID(), slow);
  await first.drafts.put(draft(1, 'a'), 0);
  await vi.waitFor(() => expect(begun).toBe(true), 5000);
  const removed = first.drafts.remove('one');
  await new Promise((done) => setTimeout(done));
  written();
  await removed;
  expect(kept.size).toBe(0);
  expect(await first.drafts.list()).toEqual([]);
  await first.close();
});

test('a draft whose copy cannot be removed is still there, and that is told', async () => {
  const { kept, copies } = files();
  const locked = async (): Promise<DraftCopies> => ({
    ...(await copies()),
    remove: () => Promise.reject(new DOMException('locked', 'NoModificationAllowedError')),
  });
  const first = await open(crypto.randomUUID(), locked);
  await first.drafts.put(draft(1, 'a'), 0);
  await vi.waitFor(() => expect(kept.size).toBe(1), 5000);
  await expect(first.drafts.remove('one')).rejects.toMatchObject({ name: 'StoreProblem', fault: 'unknown' });
  expect(await first.drafts.list()).toEqual([draft(1, 'a')]);
  // What comes after it is not held up.
  expect(await first.drafts.put(draft(2, 'ab'), 1)).toBe('kept');
  await vi.waitFor(() => expect(kept.get('one')?.seq).toBe(2), 5000);
  await first.close();
});

test('where there is no room for a draft, the words are not of answers', async () => {
  failCommits('QuotaExceededError');
  const error = await store.drafts.put(draft(1, 'a'), 0).catch((caught: unknown) => caught);
  vi.restoreAllMocks();
  expect(error).toMatchObject({ fault: 'full', message: expect.stringMatching(/no room left to keep this/) });
  expect(String(error)).not.toContain('answer');
});
