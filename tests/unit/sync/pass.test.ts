import { createHash } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import type { StoredDeck } from '../../../src/model/ports.ts';
import { FolderProblem } from '../../../src/sync/folder.ts';
import { deriveKeys, sealedVault } from '../../../src/sync/vault.ts';
import { deviceOf, entryLine, sharedFolder } from '../../helpers/shared-folder.ts';

const bytes = (text: string) => new TextEncoder().encode(text);
const sha = (text: string | Uint8Array) => createHash('sha256').update(text).digest('hex');
const text = (folder: ReturnType<typeof sharedFolder>) =>
  [...folder.files.values()].map((one) => new TextDecoder().decode(one)).join('');

const deck = (version: number, text = `{"v":${version}}`): StoredDeck => {
  const contentId = sha(text);
  return {
    ref: `calder/small@${contentId.slice(0, 16)}`,
    id: 'calder/small',
    version: `1.${version}.0`,
    title: 'Small',
    nature: 'fictional',
    contentId,
    text,
    installed: version,
    active: true,
  };
};

describe('what goes and comes', () => {
  test('each puts what the other has not, once, in files named by what they hold', async () => {
    const folder = sharedFolder();
    const [phone, tablet] = [deviceOf('p'), deviceOf('t')];
    phone.decks.push(deck(1));
    for (let n = 0; n < 700; n += 1) phone.answer(n);
    expect(await phone.pass(folder)).toMatchObject({
      went: { entries: 700, decks: 1 },
      came: { entries: 0 },
      aside: [],
    });
    expect([...folder.files.keys()].sort()).toEqual(
      [...folder.files].map(([name, file]) => `${sha(file)}${name.slice(64)}`).sort(),
    );
    expect([...folder.files.keys()].map((name) => name.slice(64)).sort()).toEqual(['.deck', '.log', '.log', '.log']);
    tablet.answer(5);
    expect(await tablet.pass(folder)).toMatchObject({
      came: { entries: 700, decks: 1 },
      went: { entries: 1, decks: 0 },
    });
    expect(tablet.decks).toMatchObject([{ ref: deck(1).ref, installed: 1, active: true }]);
    expect(tablet.merges).toBe(1);
    expect(await phone.pass(folder)).toMatchObject({ came: { entries: 1, decks: 0 }, went: { entries: 0, decks: 0 } });
    expect(folder.files.size).toBe(5);
    expect([...phone.log].sort()).toEqual([...tablet.log].sort());
  });
  test('a revision that both have goes once; files of others in the folder are left alone', async () => {
    const folder = sharedFolder();
    folder.files.set('readme.txt', bytes('not ours'));
    const [phone, tablet] = [deviceOf('p'), deviceOf('t')];
    phone.decks.push(deck(1));
    tablet.decks.push({ ...deck(1), installed: 9 }, deck(2));
    await phone.pass(folder);
    expect((await tablet.pass(folder)).went.decks).toBe(1);
    expect((await phone.pass(folder)).came.decks).toBe(1);
    expect([...folder.files.keys()].filter((name) => name.endsWith('.deck'))).toHaveLength(2);
    expect(new TextDecoder().decode(folder.files.get('readme.txt'))).toBe('not ours');
  });
  test('what a folder lost is put again', async () => {
    const folder = sharedFolder();
    const phone = deviceOf('p');
    phone.answer(1);
    await phone.pass(folder);
    folder.files.clear();
    expect((await phone.pass(folder)).went.entries).toBe(1);
    expect(text(folder)).toBe([...phone.log].map((line) => `${line}\n`).join(''));
  });
  test('while a drill is on nothing comes in, and what was answered goes out', async () => {
    const folder = sharedFolder();
    const [phone, tablet] = [deviceOf('p'), deviceOf('t')];
    phone.answer(1);
    await phone.pass(folder);
    tablet.answer(2);
    tablet.mayTakeIn = false;
    expect(await tablet.pass(folder)).toMatchObject({ came: { entries: 0 }, went: { entries: 1 } });
    expect(tablet.merges).toBe(0);
    tablet.mayTakeIn = true;
    expect(await tablet.pass(folder)).toMatchObject({ came: { entries: 1 }, went: { entries: 0 } });
  });
  test('a drill that begins while files are read: they are not joined, and come the next time', async () => {
    const folder = sharedFolder();
    const [phone, tablet] = [deviceOf('p'), deviceOf('t')];
    phone.answer(1);
    await phone.pass(folder);
    let asked = 0;
    await tablet.pass(folder, { mayTakeIn: () => asked++ === 0 });
    expect(tablet.merges).toBe(0);
    expect(await tablet.pass(folder)).toMatchObject({ came: { entries: 1 } });
  });
  test('so many files a pass and no more; nothing is put before all was read', async () => {
    const folder = sharedFolder();
    const [phone, tablet] = [deviceOf('p'), deviceOf('t')];
    for (let n = 0; n < 5; n += 1) {
      phone.answer(n);
      await phone.pass(folder);
    }
    tablet.answer(9);
    const most = { files: 2, bytes: 1e6 };
    const did = [];
    for (let n = 0; n < 3; n += 1) did.push(await tablet.pass(folder, { most }));
    expect(did.map(({ came, went, more }) => [came.entries, went.entries, more])).toEqual([
      [2, 0, true],
      [2, 0, true],
      [1, 1, false],
    ]);
  });
});

describe('what is wrong in the folder', () => {
  test.each([
    ['cut off', `${sha('x')}.log`, 'y', /not what its name says/],
    ['no text', `${sha(Uint8Array.of(255))}.log`, Uint8Array.of(255), /no text/],
    ['a deck that is none', `${sha('[]')}.deck`, '[]', /no deck/],
    ['a deck of several lines', `${sha('{}\n{}')}.deck`, '{}\n{}', /no deck/],
  ])('a file that is %s is left aside, told once, and stands in nobody’s way', async (_, name, content, why) => {
    const folder = sharedFolder();
    const phone = deviceOf('p');
    phone.answer(1);
    folder.files.set(name, typeof content === 'string' ? bytes(content) : content);
    const { aside, went } = await phone.pass(folder);
    expect(aside).toEqual([expect.stringMatching(why)]);
    expect(went.entries).toBe(1);
    expect((await phone.pass(folder)).aside).toEqual([]);
  });
  test('a deck that cannot be used is left aside', async () => {
    const folder = sharedFolder();
    const bad = `${JSON.stringify({ file: 'deck', id: 'a/b', contentId: 'c'.repeat(64), text: 'unusable' })}\n`;
    folder.files.set(`${sha(bad)}.deck`, bytes(bad));
    expect((await deviceOf('p').pass(folder)).aside).toEqual([expect.stringMatching(/cannot use/)]);
  });
  test('lines that are no entries stay there and are counted, the others come in', async () => {
    const folder = sharedFolder();
    const phone = deviceOf('p');
    const content = `${entryLine('o.1', 1)}\n{"v":1}\n{"recency":"copy","v":2}\nnothing\n${entryLine('o.2', 2)}\n`;
    folder.files.set(`${sha(content)}.log`, bytes(content));
    expect(await phone.pass(folder)).toMatchObject({ came: { entries: 2 }, badLines: 3 });
    // What could not be read does not count as being there.
    phone.log.add(entryLine('o.3', 3));
    expect((await phone.pass(folder)).went.entries).toBe(1);
  });
  test('a file of 50 MB is refused by its size, before it is read', async () => {
    const folder = sharedFolder();
    const name = `${sha('big')}.log`;
    const read: string[] = [];
    const did = await deviceOf('p').pass({
      ...folder,
      list: async () => [{ name, size: 50_000_000 }],
      get: async (one) => {
        read.push(one);
        throw new Error('read');
      },
    });
    expect(did.aside).toEqual([expect.stringMatching(/larger/)]);
    expect(read).toEqual([]);
  });
  test('a file that is just being written, or gone again, is left for the next time', async () => {
    const folder = sharedFolder();
    const [phone, tablet] = [deviceOf('p'), deviceOf('t')];
    phone.answer(1);
    await phone.pass(folder);
    const sizes = async () => (await folder.list()).map(({ name }) => ({ name, size: 3 }));
    expect(await tablet.pass({ ...folder, list: sizes })).toMatchObject({ came: { entries: 0 }, aside: [] });
    const gone = async () => Promise.reject(new FolderProblem('gone', ''));
    expect(await tablet.pass({ ...folder, get: gone })).toMatchObject({ came: { entries: 0 }, aside: [] });
    expect(await tablet.pass(folder)).toMatchObject({ came: { entries: 1 } });
  });
  test('a put that is cut off half way: the piece is left aside, the content put under another name', async () => {
    const folder = sharedFolder();
    const [phone, tablet] = [deviceOf('p'), deviceOf('t')];
    phone.answer(1);
    folder.fail = { after: 1, how: 'half' };
    await expect(phone.pass(folder)).rejects.toMatchObject({ fault: 'network' });
    expect(folder.files.size).toBe(1);
    expect(await phone.pass(folder)).toMatchObject({ went: { entries: 1 }, aside: [expect.any(String)] });
    expect([...folder.files.keys()].map((name) => name.slice(64)).sort()).toEqual(['-1.log', '.log']);
    expect(await tablet.pass(folder)).toMatchObject({ came: { entries: 1 } });
    // Once it is whole after all it is read, and is nothing new.
    const [torn = '', whole = ''] = [...folder.files.keys()].sort((a, b) => b.length - a.length).reverse();
    folder.files.set(torn, folder.files.get(whole) ?? bytes(''));
    expect(await tablet.pass(folder)).toMatchObject({ came: { entries: 0 }, aside: [] });
  });
  test('a put whose answer was lost is not put twice', async () => {
    const folder = sharedFolder();
    const phone = deviceOf('p');
    phone.answer(1);
    folder.fail = { after: 1, how: 'after' };
    await expect(phone.pass(folder)).rejects.toMatchObject({ fault: 'network' });
    expect(await phone.pass(folder)).toMatchObject({ came: { entries: 0 }, went: { entries: 0 } });
    expect(folder.files.size).toBe(1);
  });
  test('no room: what was put until then is known, the rest goes later', async () => {
    const folder = sharedFolder();
    const phone = deviceOf('p');
    for (let n = 0; n < 900; n += 1) phone.answer(n);
    let room = 2;
    const put = async (name: string, content: Uint8Array<ArrayBuffer>) => {
      if (room-- === 0) throw new FolderProblem('full', 'no room');
      return folder.put(name, content);
    };
    await expect(phone.pass({ ...folder, put })).rejects.toMatchObject({ fault: 'full' });
    expect(Object.keys(phone.notes)).toHaveLength(2);
    expect(await phone.pass(folder)).toMatchObject({ went: { entries: 300 }, came: { entries: 0 } });
  });
});

test('under a passphrase: neither names nor files say what is in them, and both devices name alike', async () => {
  const folder = sharedFolder();
  const [phone, tablet] = [deviceOf('p'), deviceOf('t')];
  const { keys } = await deriveKeys('two words and more', new Uint8Array(16), 1000);
  const other = await deriveKeys('two words and less', new Uint8Array(16), 1000);
  const vault = sealedVault(keys);
  phone.answer(1);
  const [line = ''] = phone.log;
  await phone.pass(folder, { vault });
  const [name = ''] = folder.files.keys();
  expect(name).not.toContain(sha(`${line}\n`));
  expect(text(folder)).not.toContain('minutes');
  // The same content from another device is there already.
  const same = deviceOf('s');
  same.log.add(line);
  same.mayTakeIn = false;
  await same.pass(folder, { vault });
  expect(folder.files.size).toBe(1);
  // With other keys nothing comes in.
  expect(await tablet.pass(folder, { vault: sealedVault(other.keys) })).toMatchObject({ came: { entries: 0 } });
  tablet.notes = {};
  expect(await tablet.pass(folder, { vault })).toMatchObject({ came: { entries: 1 } });
  expect([...tablet.log]).toEqual([line]);
});
