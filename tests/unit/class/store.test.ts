import 'fake-indexeddb/auto';
import { afterEach, expect, test } from 'vitest';
import { unpack } from '../../../src/class/packed.ts';
import { peopleOf } from '../../../src/class/people.ts';
import { queryId } from '../../../src/class/query-id.ts';
import { openClassStore } from '../../../src/class/store.ts';
import { queriesOf } from '../../../src/class/told.ts';
import type { ClassStore } from '../../../src/class/types.ts';
import { deckOf, item, received, reportOf, unmet } from '../../helpers/plain-report.ts';

const problem = (error: unknown): Error => new Error('in words', { cause: error });
const stores: ClassStore[] = [];
const open = async (name = `class-${crypto.randomUUID()}`): Promise<ClassStore> => {
  const store = await openClassStore({ name, problem });
  stores.push(store);
  return store;
};
afterEach(() => {
  for (const store of stores.splice(0)) store.close();
});

const LETTERS = 'ABCD EFGH IJKL MNOP';
const one = received(reportOf({ decks: [deckOf([item('calder/try#a.place~1'), unmet('calder/try#b.place~2')])] }));
const later = received(reportOf({ n: 2, made: '2026-11-26' }));
const other = received(reportOf({ trainee: 'Heron' }), 'device-two');

const people = async (store: ClassStore) => {
  const { heads, trainees } = await store.read();
  return peopleOf(heads, trainees);
};

test('a report is kept as it came; the same file twice is once', async () => {
  const name = `class-${crypto.randomUUID()}`;
  const store = await open(name);
  expect(await store.take(one, LETTERS, 5)).toBe('taken');
  expect(await store.take(one, LETTERS, 9)).toBe('twice');
  store.close();
  const again = await open(name);
  expect((await again.read()).heads).toMatchObject([{ hash: one.hash, trainee: 'Falcon', taken: 5 }]);
  // Of which decks it is stands in its head, too: they are looked up while reports are read.
  expect((await again.read()).heads.map(({ flown }) => flown)).toEqual([
    one.report.decks.map(({ id, contentId, variants }) => ({ id, contentId, variants })),
  ]);
  const kept = (await again.reports([one.hash, 'none'])).get(one.hash);
  expect(kept && unpack(kept)).toEqual(one);
});

test('notes, joining and parting; a note of either is kept', async () => {
  const store = await open();
  for (const report of [one, later, other]) await store.take(report, LETTERS, 5);
  await store.putNote('device-one', 'early shifts');
  await store.putNote('device-two', 'new phone');
  await store.join('device-two', 'device-one');
  expect(await people(store)).toMatchObject([{ id: 'device-one', note: 'early shifts\nnew phone' }]);
  await store.join('device-one', 'device-two');
  expect(await people(store)).toHaveLength(1);
  await store.part('device-two');
  expect((await people(store)).map(({ id }) => id)).toEqual(['device-one', 'device-two']);
});

test('a query that was answered stays so by the same report and a later one, on whichever device, until it is opened again', async () => {
  const store = await open();
  const LATER = Date.parse('2027-06-01');
  const query = { items: ['calder/try#a.place~1'], on: '2026-11-24', note: 'Not so.' };
  const deck = deckOf([item('calder/try#a.place~1')], { queries: [query] });
  const asking = received(reportOf({ n: 3, decks: [deck] }));
  await store.take(asking, LETTERS, LATER);
  const states = async () => {
    const found = await people(store);
    const reports = await store.reports(found.map(({ newest }) => newest.hash));
    return queriesOf({ people: found, reports, only: new Set() }, new Map()).map(({ answered }) => answered);
  };
  expect(await states()).toEqual([null]);
  const id = queryId('calder/try', query);
  await store.putAnswered(['device-one'], id, '2026-11-26');
  expect(await states()).toEqual(['2026-11-26']);
  expect(await store.take(asking, LETTERS, LATER)).toBe('twice');
  await store.take(
    received(reportOf({ n: 4, decks: [{ ...deck, queries: [query, { ...query, note: 'Nor this.' }] }] })),
    LETTERS,
    LATER,
  );
  expect((await states()).sort()).toEqual(['2026-11-26', null]);
  // A new phone, joined: the same trainee asked, and was answered.
  await store.take(received(reportOf({ n: 1, made: '2026-12-01', decks: [deck] }), 'device-two'), LETTERS, LATER);
  expect(await states()).toEqual(expect.arrayContaining([null, '2026-11-26']));
  await store.join('device-one', 'device-two');
  expect(await states()).toEqual(['2026-11-26']);
  // The other device's next report, of a revision that gave the item another stamp.
  const keptOn = { ...query, items: ['calder/try#a.place~9'] };
  const next = reportOf({ n: 5, made: '2026-12-02', decks: [{ ...deck, queries: [keptOn] }] });
  await store.take(received(next), LETTERS, LATER);
  expect(await states()).toEqual(['2026-11-26']);
  await store.putAnswered(['device-two', 'device-one'], id, null);
  expect(await states()).toEqual([null]);
  // As older versions of the app noted it, with stamps.
  await store.putAnswered(['device-two'], id.replace('a.place', 'a.place~1'), '2026-12-03');
  expect(await states()).toEqual(['2026-12-03']);
  await store.putAnswered(['device-two', 'device-one'], id, null);
  expect(await states()).toEqual([null]);
  await store.remove(['device-one', 'device-two']);
  expect(JSON.stringify(await store.read())).not.toContain('Not so.');
});

test('three devices joined in any order are never a chain', async () => {
  const store = await open();
  const third = received(reportOf({ trainee: 'Kite' }), 'device-three');
  for (const report of [one, other, third]) await store.take(report, LETTERS, 5);
  await store.join('device-two', 'device-three');
  await store.join('device-three', 'device-one');
  const { trainees } = await store.read();
  expect(trainees.map(({ key, joined }) => [key, joined]).sort()).toEqual([
    ['device-one', null],
    ['device-three', 'device-one'],
    ['device-two', 'device-one'],
  ]);
});

test('a trainee who is deleted is gone: reports, notes, all devices', async () => {
  const store = await open();
  for (const report of [one, later, other]) await store.take(report, LETTERS, 5);
  await store.putNote('device-one', 'early shifts');
  await store.remove(['device-one']);
  expect((await people(store)).map(({ pseudonym }) => pseudonym)).toEqual(['Heron']);
  const { trainees } = await store.read();
  expect(trainees.map(({ key }) => key)).toEqual(['device-two']);
  expect(await store.reports([one.hash, later.hash])).toEqual(new Map());
});

test('what is kept longer than its time goes; whoever has nothing left goes with it', async () => {
  const store = await open();
  await store.take(one, LETTERS, 10);
  await store.take(later, LETTERS, 30);
  await store.take(other, LETTERS, 20);
  expect(await store.expire(20)).toBe(1);
  expect((await people(store)).map(({ pseudonym, heads }) => [pseudonym, heads.length])).toEqual([
    ['Falcon', 1],
    ['Heron', 1],
  ]);
  expect(await store.expire(25)).toBe(1);
  expect((await store.read()).trainees.map(({ key }) => key)).toEqual(['device-one']);
});

test('a device that others are joined to stays known while they have reports', async () => {
  const store = await open();
  await store.take(one, LETTERS, 10);
  await store.take(other, LETTERS, 30);
  await store.putNote('device-one', 'early shifts');
  await store.join('device-two', 'device-one');
  expect(await store.expire(20)).toBe(1);
  expect(await people(store)).toMatchObject([{ id: 'device-one', note: 'early shifts' }]);
});

test('settings are kept, with what is new in them filled in; all can be cleared', async () => {
  const store = await open();
  await store.take(one, LETTERS, 5);
  const { settings } = await store.read();
  expect(settings).toMatchObject({ keepDays: 180, expected: [] });
  await store.putSettings({ ...settings, title: 'Group 3', expected: ['Falcon'] });
  expect((await store.read()).settings).toMatchObject({ title: 'Group 3', keepDays: 180, expected: ['Falcon'] });
  await store.clear();
  expect(await store.read()).toMatchObject({ heads: [], trainees: [], settings: { title: '' } });
});

test('a database that a newer version has changed says so in words, and a deletion is not held up', async () => {
  const name = `class-${crypto.randomUUID()}`;
  const store = await open(name);
  await new Promise<void>((done, failed) => {
    const upgrading = indexedDB.open(name, 2);
    upgrading.onerror = () => failed(upgrading.error);
    upgrading.onblocked = () => failed(new Error('blocked'));
    upgrading.onsuccess = () => {
      upgrading.result.close();
      done();
    };
  });
  await expect(store.read()).rejects.toThrow('in words');
});
