import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { type JournalWorker, openJournal } from '../../../src/journal/client.ts';
import { entryLine } from '../../../src/journal/format.ts';
import type { Journal } from '../../../src/model/ports.ts';
import { revision } from '../exchange/copies.ts';
import { linesOf } from '../store/stores.ts';
import { type Disk, diskOf } from './files.ts';

let disk: Disk;
beforeEach(() => {
  disk = diskOf();
  vi.stubGlobal('navigator', { storage: disk.storage });
});
afterEach(() => {
  vi.unstubAllGlobals();
  vi.useRealTimers();
});

/** By a name that the compiler does not follow: a worker's types are not those of the tests. */
const WORKER: string = '../../../src/journal/journal.worker.ts';

type Heard = (event: { data: unknown }) => void;

/** The worker's own code, each time in a scope of its own as in a new worker, with a message channel to the client. */
const startWorker = async (): Promise<JournalWorker & { crash(): void }> => {
  const outside = { message: [] as Heard[], error: [] as Heard[] };
  let inside: Heard = () => undefined;
  let gone = false;
  vi.stubGlobal('addEventListener', (_type: string, listener: Heard) => {
    inside = listener;
  });
  const postMessage = (data: unknown) => {
    const copy = structuredClone(data);
    if (!gone) queueMicrotask(() => outside.message.forEach((listener) => void listener({ data: copy })));
  };
  vi.stubGlobal('postMessage', postMessage);
  vi.resetModules();
  await import(/* @vite-ignore */ WORKER);
  return {
    postMessage: (data: unknown) => {
      const copy = structuredClone(data);
      queueMicrotask(() => !gone && inside({ data: copy }));
    },
    addEventListener: ((type: 'message' | 'error', listener: Heard) => void outside[type].push(listener)) as never,
    terminate: () => {
      gone = true;
    },
    crash: () => {
      gone = true;
      for (const listener of outside.error) listener({ data: null });
    },
  };
};
const begin = async (): Promise<Journal & { crash(): void }> => {
  const worker = await startWorker();
  return { ...(await openJournal('recency', () => worker)), crash: worker.crash };
};
/** The page is killed: nothing is closed by it. */
const restart = () => {
  disk.releaseAll();
  return begin();
};
const [one = '', two = '', three = ''] = linesOf('a', 3);

describe('what is appended', () => {
  test('is in the file in the order of writing, and read back by the next page', async () => {
    const deck = await revision();
    const journal = await begin();
    expect(journal.kind).toBe('opfs');
    journal.append([one, two]);
    journal.deck(deck);
    journal.append([three]);
    await journal.settled();
    expect(disk.text('journal-1').split('\n')).toHaveLength(5);
    const again = await restart();
    expect(await again.read()).toEqual({ lines: [one, two, three], decks: [deck], damaged: 0 });
    expect(await again.count()).toEqual({ entries: 3, decks: 1, damaged: 0 });
  });
  test('after a record that a kill tore stands in a line of its own', async () => {
    const journal = await begin();
    journal.append([one, two]);
    await journal.settled();
    disk.put('journal-1', disk.text('journal-1').slice(0, -9));
    const again = await restart();
    again.append([three]);
    await again.settled();
    expect(await again.read()).toEqual({ lines: [one, three], decks: [], damaged: 1 });
  });
  test('where there is no room is kept to itself, whole lines stay, and it goes on when there is room again', async () => {
    const journal = await begin();
    journal.append([one]);
    await journal.settled();
    const before = disk.text('journal-1');
    disk.room(30);
    journal.append([two]);
    await journal.settled();
    expect(disk.text('journal-1')).toBe(before);
    disk.room(Number.POSITIVE_INFINITY);
    journal.append([three]);
    await journal.settled();
    expect(await journal.read()).toEqual({ lines: [one, three], decks: [], damaged: 0 });
  });
});

describe('written anew', () => {
  test('in one new file; the old ones go', async () => {
    const journal = await begin();
    journal.append([one, two]);
    await journal.replace({ lines: [two, three], decks: [await revision()] });
    expect([...disk.files.keys()]).toEqual(['journal-2']);
    journal.append([one]);
    await journal.settled();
    expect((await (await restart()).read()).lines).toEqual([two, three, one]);
  });
  test('without the room for it: the old content stands, and is written on', async () => {
    const journal = await begin();
    journal.append([one]);
    await journal.settled();
    disk.room(40);
    await journal.replace({ lines: [one, two], decks: [] });
    expect([...disk.files.keys()]).toEqual(['journal-1']);
    disk.room(Number.POSITIVE_INFINITY);
    journal.append([three]);
    await journal.settled();
    expect((await journal.read()).lines).toEqual([one, three]);
  });
  test('killed between the new file and the removal of the old: all that was in either is read', async () => {
    const journal = await begin();
    journal.append([one, two]);
    await journal.settled();
    disk.put('journal-2', entryLine(one) + entryLine(three).slice(0, 20));
    const again = await restart();
    expect(await again.read()).toEqual({ lines: [one, two], decks: [], damaged: 1 });
    again.append([three]);
    await again.settled();
    expect((await again.read()).lines).toEqual([one, two, three]);
  });
});

test('a file that a sleeping page holds: written beside it, and read with it once it lets go', async () => {
  disk.put('journal-1', entryLine(one));
  disk.hold('journal-1', true);
  vi.useFakeTimers({ toFake: ['setTimeout'] });
  const opening = begin();
  for (let i = 0; i < 100; i++) await vi.advanceTimersByTimeAsync(50);
  const journal = await opening;
  journal.append([two]);
  await journal.settled();
  expect((await journal.read()).lines).toEqual([two]);
  disk.hold('journal-1', false);
  expect((await journal.read()).lines).toEqual([one, two]);
});

describe('where it cannot be kept', () => {
  const nothing = { lines: [], decks: [], damaged: 0 };
  test.each([
    ['no such storage', undefined],
    ['storage without files', {}],
    ['storage that refuses', { getDirectory: () => Promise.reject(new DOMException('no', 'SecurityError')) }],
  ])('%s: it says so and keeps nothing', async (_name, storage) => {
    vi.stubGlobal('navigator', { storage });
    const journal = await begin();
    expect(journal.kind).toBe('none');
    journal.append([one]);
    await journal.settled();
    expect(await journal.read()).toEqual(nothing);
  });
  test('no workers', async () => {
    expect((await openJournal()).kind).toBe('none');
  });
  test('a worker that dies: what waits fails, later writes are kept to themselves, nothing hangs', async () => {
    const journal = await begin();
    journal.append([one]);
    await journal.settled();
    const reading = journal.read();
    journal.crash();
    await expect(reading).rejects.toThrow('the worker of the journal ended');
    journal.append([two]);
    await journal.settled();
    await expect(journal.count()).rejects.toThrow('the worker of the journal ended');
    await journal.close();
  });
});
