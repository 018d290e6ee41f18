import { describe, expect, test } from 'vitest';
import { readStored } from '../../../src/log/line.ts';
import { toCheckpoint } from '../../../src/memory/checkpoint.ts';
import { fold } from '../../../src/memory/fold.ts';
import type { NewDeck, Store } from '../../../src/model/ports.ts';
import { deckText, revision } from '../exchange/copies.ts';
import { AT, linesIn, linesOf, openAt, setting } from './stores.ts';

const newDeck = async (text = deckText()): Promise<NewDeck> => {
  const { id, version, title, nature, contentId } = await revision(text);
  return { id, version, title, nature, contentId, text };
};
const FIRST = deckText();
const SECOND = deckText({ version: '1.1.0', title: 'Small, amended' });
const OTHER = deckText({ id: 'calder/other' });

/** A device with decks and a log of its own. */
const device = async (decks: readonly string[], values: readonly unknown[], at: number): Promise<Store> => {
  const store = await openAt();
  for (const text of decks) await store.decks.put(await newDeck(text));
  for (const [i, value] of values.entries()) await store.log.append(setting(value, at + i));
  return store;
};
const revisionsIn = async (store: Store) =>
  (await store.decks.list()).map(({ ref, text }) => ({ ref, text })).sort((a, b) => (a.ref < b.ref ? -1 : 1));

describe('a copy brings everything to another device', () => {
  test('decks with their text and state, entries byte for byte, sealed ones too', async () => {
    const store = await device([FIRST, SECOND, OTHER], [1, 'ä\n"', { a: [null] }], 0);
    await store.log.merge(linesOf('older', 150, AT - 400 * 86_400_000));
    await store.checkpoint.put({ value: 'all', entries: 153 });
    await store.tidy();
    await store.decks.setActive((await revision(OTHER)).ref, false);
    const copy = await store.exportAll();
    const other = await openAt();
    expect(await other.importAll(copy)).toEqual({
      added: 153,
      answers: 0,
      days: 0,
      doubled: 0,
      clashes: 0,
      unknown: 0,
      decks: 3,
      bad: [],
      badLines: 0,
      complete: true,
    });
    expect(await linesIn(other)).toEqual(await linesIn(store));
    expect(await other.decks.list()).toEqual(await store.decks.list());
    expect((await other.decks.list()).map(({ version, id, active }) => [id, version, active])).toEqual(
      expect.arrayContaining([
        ['calder/small', '1.0.0', false],
        ['calder/small', '1.1.0', true],
        ['calder/other', '1.0.0', false],
      ]),
    );
    // Of the device alone: not in the copy.
    await store.device.put('theme', 'dark');
    expect(await store.exportAll()).not.toContain('theme');
    // Its own entries go on under its own writer.
    expect(other.writer).not.toBe(store.writer);
    expect((await other.log.append(setting('next'))).id).toBe(`${other.writer}.1`);
    await Promise.all([store.close(), other.close()]);
  });
  test('twice is once, also into itself', async () => {
    const store = await device([FIRST], [1, 2, 3], 0);
    const copy = await store.exportAll();
    const before = [await linesIn(store), await store.decks.list(), await store.log.count()];
    await store.checkpoint.put({ value: 'all', entries: 3 });
    for (let i = 0; i < 2; i++)
      expect(await store.importAll(copy)).toMatchObject({ added: 0, doubled: 3, decks: 0, clashes: 0, complete: true });
    expect([await linesIn(store), await store.decks.list(), await store.log.count()]).toEqual(before);
    // Nothing came in: the checkpoint stands.
    expect(await store.checkpoint.get()).toMatchObject({ entries: 3, tail: [] });
    await store.close();
  });
  test('of three devices, in whatever order: the same log and the same revisions', async () => {
    const devices = [
      await device([FIRST, OTHER], [1, 2], 0),
      await device([SECOND], ['a', 'b', 'c'], 5),
      await device([FIRST], [true], 1),
    ];
    const [a = '', b = '', c = ''] = await Promise.all(devices.map((one) => one.exportAll()));
    const seen: unknown[] = [];
    for (const copies of [
      [a, b, c],
      [c, b, a],
      [b, a, c, a],
    ]) {
      const store = await openAt();
      for (const copy of copies) await store.importAll(copy);
      seen.push([await linesIn(store), await revisionsIn(store), await store.log.count()]);
      // Of one id one revision is practised, however many say that they are.
      const active = (await store.decks.list()).filter((deck) => deck.active).map(({ id }) => id);
      expect(active.sort()).toEqual(['calder/other', 'calder/small']);
      await store.close();
    }
    expect(seen[1]).toEqual(seen[0]);
    expect(seen[2]).toEqual(seen[0]);
    expect((seen[0] as [string[]])[0]).toHaveLength(6);
    for (const one of devices) await one.close();
  });
  test('what is practised here stays practised', async () => {
    const [here, there] = [await device([FIRST], [], 0), await device([SECOND], [], 0)];
    await here.importAll(await there.exportAll());
    const active = (await here.decks.list()).filter((deck) => deck.active);
    expect(active.map(({ version }) => version)).toEqual(['1.0.0']);
    await Promise.all([here.close(), there.close()]);
  });
  test('an entry of a kind that only a newer version knows goes from device to device byte for byte', async () => {
    const line =
      '{"app":"9.0.0","at":1795600000000,"future":{"x":[1,"ä"]},"id":"zz.7","k":"rehearsal","off":-60,"v":3}';
    const [one, two] = [await openAt(), await openAt()];
    expect(await one.importAll(line)).toMatchObject({ added: 1, unknown: 1, badLines: 0 });
    expect(await two.importAll(await one.exportAll())).toMatchObject({ added: 1, unknown: 1 });
    expect(await linesIn(two)).toEqual([line]);
    await Promise.all([one.close(), two.close()]);
  });
});

describe('a hostile copy', () => {
  test('the good of it is taken in, the bad is named, and what was here is as it was', async () => {
    const store = await device([FIRST], [1, 2], 0);
    const before = await linesIn(store);
    const [good = ''] = linesOf('other', 1);
    const changed = { file: 'deck', ...(await revision(SECOND)), text: SECOND.replace('180', '999') };
    const report = await store.importAll(
      [
        '{"recency":"copy","v":1}',
        JSON.stringify(changed),
        good.replace('"value":0', '"value":1e999'),
        good.replace('"value":0', `"value":${'['.repeat(2_500_000)}${']'.repeat(2_500_000)}`),
        '{"__proto__":{"v":1}}',
        good,
        '\0',
      ].join('\n'),
    );
    expect(report).toMatchObject({ added: 1, decks: 0, badLines: 5, complete: false });
    expect(report.bad.map(({ line }) => line)).toEqual([2, 3, 4, 5, 7]);
    expect(await linesIn(store)).toEqual([...before, good].sort());
    expect((await store.decks.list()).map(({ text }) => text)).toEqual([FIRST]);
    expect(await store.importAll(await store.exportAll())).toMatchObject({ added: 0, doubled: 3, badLines: 0 });
    await store.close();
  });
  test.each(['', 'a photo of a cat', '{"recency":"copy","v":2}'])(
    '%j: refused as a whole, nothing is changed',
    async (text) => {
      const store = await device([FIRST], [1], 0);
      const before = [await linesIn(store), await store.decks.list()];
      await expect(store.importAll(text)).rejects.toThrow(RangeError);
      expect([await linesIn(store), await store.decks.list()]).toEqual(before);
      await store.close();
    },
  );
  test('names of the language as names of items, settings and fields: folded as any others', async () => {
    const store = await openAt();
    const base = { v: 1, app: 't', off: 0 };
    const names = ['__proto__', 'constructor', 'toString', 'hasOwnProperty'];
    const marks = `{${names.map((name) => `"${name}":"right"`).join(',')}}`;
    const lines = [
      ...names.map((key, i) =>
        JSON.stringify({ ...base, id: `h.${i + 1}`, at: AT + i, k: 'set', key, value: { x: 1 } }),
      ),
      JSON.stringify({
        ...base,
        id: 'h.9',
        at: AT + 9,
        k: 'answer',
        deck: 'calder/small@0123456789abcdef',
        form: 'limit',
        about: { thing: '__proto__' },
        variant: '',
        shown: null,
        given: null,
        sure: true,
        ms: 1,
        g: 0,
        mv: 1,
      }).replace(/}$/, `,"marks":${marks}}`),
    ];
    const report = await store.importAll(lines.join('\n'));
    const taken = await linesIn(store);
    expect(report.added + report.badLines).toBe(lines.length);
    expect(report.added).toBeGreaterThanOrEqual(names.length);
    const facts = { of: () => ({ critical: false, decision: false }), today: (key: string) => key };
    const memory = fold(taken.map(readStored), facts);
    expect([...memory.settings.keys()].sort()).toEqual([...names].sort());
    const folded = toCheckpoint(memory);
    await store.checkpoint.put({ value: folded, entries: await store.log.count() });
    expect((await store.checkpoint.get())?.value).toEqual(folded);
    expect(Object.keys(Object.prototype)).toEqual([]);
    await store.close();
  });
});
