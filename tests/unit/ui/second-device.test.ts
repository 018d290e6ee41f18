import { expect, test, vi } from 'vitest';
import { contentId } from '../../../src/exchange/content-id.ts';
import { toLine } from '../../../src/log/line.ts';
import type { Entry } from '../../../src/model/entry.ts';
import type { Exchanged, SecondDevice } from '../../../src/model/second-device.ts';
import { joinedWords } from '../../../src/ui/models/copies.ts';
import { exchange, exchangedWords, followExchanges } from '../../../src/ui/models/second-device.ts';
import { route } from '../../../src/ui/route.ts';
import { AT, benchOf, LIMITS } from './learners.ts';

const nothing: Exchanged = {
  came: { entries: 0, answers: 0, days: 0, decks: 0, clashes: 0 },
  went: { entries: 0, answers: 0, decks: 0 },
  aside: [],
  badLines: 0,
  more: false,
};

test('what a copy brought is told in answers, days, entries and decks', () => {
  const report = { added: 316, answers: 312, days: 9, doubled: 4210, decks: 2 };
  expect(joinedWords(report)).toEqual([
    'Taken in: 312 answers of 9 days and 4 other entries; 2 decks were new. 4210 entries were here already. Nothing was lost.',
  ]);
  expect(joinedWords({ added: 1, answers: 0, days: 0, doubled: 0, decks: 1 })[0]).toMatch(
    /^Taken in: 1 entry; 1 deck was new\./,
  );
  expect(joinedWords({ added: 0, answers: 0, days: 0, doubled: 1, decks: 0 })[0]).toMatch(
    /^Taken in: no new entry; 0 decks were new\. 1 entry was here already\./,
  );
});

test('what an exchange did is told both ways, and what was left aside', () => {
  expect(exchangedWords(nothing)).toEqual(['Came in: nothing new. Went out: nothing new. Nothing was lost.']);
  const did: Exchanged = {
    ...nothing,
    came: { entries: 5, answers: 4, days: 1, decks: 1, clashes: 1 },
    went: { entries: 2, answers: 0, decks: 0 },
    aside: ['abc: cut off'],
    badLines: 2,
  };
  expect(exchangedWords(did)).toEqual([
    'Came in: 4 answers of 1 day, 1 other entry, 1 deck. Went out: 2 entries. Nothing was lost.',
    '1 entry came from a copied device under a number that was taken: both are kept.',
    '2 lines in the folder could not be read and stayed there.',
    '1 file in the folder was left aside: abc: cut off.',
  ]);
});

/** The folder brings this text, over so many passes. */
const bringing = (bring: readonly (() => Promise<Exchanged>)[]): { folder: SecondDevice; asked: boolean[] } => {
  const left = [...bring];
  const asked: boolean[] = [];
  const never = () => Promise.reject(new Error('not asked for'));
  const folder: SecondDevice = {
    state: never,
    look: never,
    make: never,
    begin: never,
    stop: never,
    tell: () => undefined,
    exchange: async ({ mayTakeIn }) => {
      asked.push(mayTakeIn());
      return (await left.shift()?.()) ?? null;
    },
  };
  return { folder, asked };
};

test('passes follow each other until nothing more is to come; the revision that was taken elsewhere is practised', async () => {
  const second = { ...LIMITS, version: '1.1.0', title: 'Small, amended' };
  const text = JSON.stringify(second);
  const hash = await contentId(text);
  const ref = `${second.id}@${hash.slice(0, 16)}`;
  const entry = {
    v: 1,
    id: 'other.1',
    app: 'test',
    k: 'deck',
    deck: ref,
    state: 'in',
    at: AT + 60_000,
    off: 0,
  } as Entry;
  const deck = { file: 'deck', id: second.id, contentId: hash, installed: AT, active: true, text };
  const { folder, asked } = bringing([
    async () => ({ ...nothing, came: { ...nothing.came, answers: 1, entries: 1 }, more: true }),
    async () => {
      const report = await bench.store.importAll(`${JSON.stringify(deck)}\n${toLine(entry)}\n`);
      return { ...nothing, came: { ...nothing.came, entries: report.added, decks: report.decks } };
    },
  ]);
  const bench = await benchOf(LIMITS, { secondDevice: async () => folder });
  expect(bench.learner.practised.value.map(({ stored }) => stored.version)).toEqual(['1.0.0']);
  const told: Exchanged[] = [];
  const did = await exchange(bench.learner, true, (so) => told.push(so));
  expect(did?.came).toMatchObject({ entries: 2, answers: 1, decks: 1 });
  expect(told).toHaveLength(2);
  expect(asked).toEqual([true, true]);
  expect(bench.learner.practised.value.map(({ stored }) => stored.version)).toEqual(['1.1.0']);
  expect(await exchange(bench.learner, false)).toBeNull();
});

test('in a drill nothing may come in, and no further pass is made', async () => {
  const { folder, asked } = bringing([async () => ({ ...nothing, more: true }), async () => nothing]);
  const bench = await benchOf(LIMITS, { secondDevice: async () => folder });
  const before = route.value;
  route.value = { at: 'drill' };
  await exchange(bench.learner, false);
  route.value = before;
  expect(asked).toEqual([false]);
});

test('going out of sight exchanges, and a request that ends there was cut off; one begun in sight was not', async () => {
  const heard = new Map<string, () => void>();
  const page = { visibilityState: 'visible', addEventListener: (kind: string, on: () => void) => heard.set(kind, on) };
  vi.stubGlobal('document', {
    ...page,
    removeEventListener: () => undefined,
    get visibilityState() {
      return page.visibilityState;
    },
  });
  const cut: boolean[] = [];
  const overtaken: Promise<void>[] = [];
  const { folder } = bringing([]);
  const asking: SecondDevice = {
    ...folder,
    exchange: async ({ byHand, wasCutOff }) => {
      if (byHand) await overtaken[0];
      cut.push(wasCutOff());
      return null;
    },
  };
  const bench = await benchOf(LIMITS, { secondDevice: async () => asking });
  const stop = followExchanges(bench.learner);
  const turn = (state: string) => {
    page.visibilityState = state;
    heard.get('visibilitychange')?.();
  };
  await exchange(bench.learner, false);
  expect(cut).toEqual([false]);
  turn('hidden');
  await expect.poll(() => cut).toEqual([false, true]);
  turn('visible');
  await exchange(bench.learner, false);
  expect(cut).toEqual([false, true, false]);
  // Begun in sight, ended in sight; in between it was put away.
  let back: () => void = () => undefined;
  overtaken.push(
    new Promise((done) => {
      back = done;
    }),
  );
  const pass = exchange(bench.learner, true);
  turn('hidden');
  await expect.poll(() => cut.length).toBe(4);
  turn('visible');
  back();
  await pass;
  expect(cut).toEqual([false, true, false, true, true]);
  stop();
  vi.unstubAllGlobals();
});
