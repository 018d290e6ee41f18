import { afterEach, describe, expect, test, vi } from 'vitest';
import type { Store } from '../../../src/model/ports.ts';
import { FolderProblem } from '../../../src/sync/folder.ts';
import { type Around, secondDevice, waitAfter } from '../../../src/sync/second-device.ts';
import { type SharedFolder, sharedFolder } from '../../helpers/shared-folder.ts';
import { linesIn, linesOf, openAt, setting } from '../store/stores.ts';

const APP = 'https://example.org/app/';
const AT = Date.parse('2026-11-25T10:00:00Z');
const PASSPHRASE = 'four words in a row';
const mayTakeIn = () => true;
const wasCutOff = () => false;

const stores: Store[] = [];
afterEach(async () => {
  vi.restoreAllMocks();
  await Promise.all(stores.splice(0).map((store) => store.close()));
});

/** A device with a real store. */
const device = async (folder: SharedFolder, more: Partial<Around> = {}) => {
  const store = await openAt();
  stores.push(store);
  const clock = { now: AT };
  const asked: unknown[] = [];
  const around: Around = {
    store,
    app: APP,
    now: () => clock.now,
    folderAt: (address, login) => {
      asked.push([address.href, login]);
      return { ...folder, make: async () => undefined };
    },
    ...more,
  };
  return { store, clock, asked, folder: secondDevice(around), again: () => secondDevice(around) };
};
const place = { address: '/dav/x', login: null };
const byHand = { byHand: true, mayTakeIn, wasCutOff };
const byItself = { byHand: false, mayTakeIn, wasCutOff };

describe('two devices with all of their stores', () => {
  test('answers of both are on both, days apart and without a network for weeks; then there is nothing more to do', async () => {
    const folder = sharedFolder();
    const [one, two] = [await device(folder), await device(folder)];
    await one.folder.begin(place, null, false);
    await two.folder.begin(place, null, false);
    await one.store.log.append(setting('one', 0));
    await two.store.log.append(setting('two', -40 * 86_400_000));
    await one.store.log.merge(linesOf('older', 2500, AT - 400 * 86_400_000));
    expect((await one.folder.exchange(byHand))?.went.entries).toBe(2501);
    expect(await two.folder.exchange(byHand)).toMatchObject({ came: { entries: 2501 }, went: { entries: 1 } });
    expect(await one.folder.exchange(byHand)).toMatchObject({ came: { entries: 1 }, went: { entries: 0 } });
    expect(await linesIn(one.store)).toEqual(await linesIn(two.store));
    const files = folder.files.size;
    for (const { folder: each } of [one, two])
      expect(await each.exchange(byItself)).toMatchObject({ came: { entries: 0 }, went: { entries: 0 } });
    expect(folder.files.size).toBe(files);
    expect(await two.folder.state()).toMatchObject({
      address: '/dav/x/',
      hasPassphrase: false,
      last: { at: AT },
      failed: null,
    });
  });
  test('nothing is exchanged before a folder is in use, and nothing after it is no longer; the files stay', async () => {
    const folder = sharedFolder();
    const one = await device(folder);
    expect(await one.folder.state()).toBeNull();
    expect(await one.folder.exchange(byHand)).toBeNull();
    await one.folder.begin(place, null, false);
    await one.store.log.append(setting(1));
    await one.folder.exchange(byHand);
    await one.folder.stop();
    expect(await one.folder.state()).toBeNull();
    expect(await one.folder.exchange(byHand)).toBeNull();
    expect(folder.files.size).toBe(2);
  });
  test('a pass that the end of its use overtakes writes nothing more', async () => {
    const folder = sharedFolder();
    const one = await device(folder);
    await one.folder.begin(place, null, false);
    await one.store.log.append(setting(1));
    const put = folder.put;
    let stopping: Promise<void> | null = null;
    folder.put = async (...file) => {
      stopping = one.folder.stop();
      await stopping;
      return put(...file);
    };
    const other = await device(folder, { store: one.store });
    await expect(other.folder.exchange(byHand)).rejects.toMatchObject({ fault: 'stopped' });
    expect(stopping).not.toBeNull();
    expect(await one.folder.state()).toBeNull();
  });
});

describe('the passphrase', () => {
  test('the same on both devices; a wrong one, none, or one too many is told before anything is read or written', async () => {
    const folder = sharedFolder();
    const [one, two] = [await device(folder), await device(folder)];
    await expect(one.folder.begin(place, 'too short', false)).rejects.toMatchObject({ fault: 'passphrase' });
    expect(folder.files.size).toBe(0);
    expect(await one.folder.look(place)).toBe('empty');
    await one.folder.begin(place, PASSPHRASE, false);
    await one.store.log.append(setting('secret'));
    await one.folder.exchange(byHand);
    const before = new Map(folder.files);
    expect(await two.folder.look(place)).toBe('passphrase');
    await two.store.log.append(setting('mine'));
    await expect(two.folder.begin(place, 'four words in a raw', false)).rejects.toMatchObject({
      fault: 'passphrase',
      message: /not the passphrase/,
    });
    await expect(two.folder.begin(place, null, false)).rejects.toMatchObject({ message: /begun with a passphrase/ });
    expect(await two.folder.exchange(byHand)).toBeNull();
    expect(folder.files).toEqual(before);
    expect(await two.store.log.count()).toBe(1);
    await two.folder.begin(place, PASSPHRASE, false);
    // As after a reload: the keys are kept, the passphrase is not.
    const again = two.again();
    expect(await again.exchange(byItself)).toMatchObject({ came: { entries: 1 }, went: { entries: 1 } });
    expect(JSON.stringify(await two.store.device.get('second-device'))).not.toContain(PASSPHRASE);
    const kept = (await two.store.device.get('second-device')) as { keys: { content: CryptoKey; names: CryptoKey } };
    expect([kept.keys.content.extractable, kept.keys.names.extractable]).toEqual([false, false]);
    const all = [...folder.files.values()].map((file) => new TextDecoder().decode(file)).join('');
    expect(all).not.toMatch(/minutes|secret|mine/);
  });
  test('a folder begun without one is not mixed with one', async () => {
    const folder = sharedFolder();
    const [one, two] = [await device(folder), await device(folder)];
    await one.folder.begin(place, null, false);
    expect(await two.folder.look(place)).toBe('open');
    await expect(two.folder.begin(place, PASSPHRASE, false)).rejects.toMatchObject({ message: /without a passphrase/ });
    expect(await two.folder.state()).toBeNull();
  });
  test('two devices that begin at the same moment: the second goes by what the first put', async () => {
    const folder = sharedFolder();
    const [one, two] = [await device(folder), await device(folder)];
    const list = folder.list;
    // Both see it empty.
    folder.list = async () => [];
    await one.folder.begin(place, PASSPHRASE, false);
    await two.folder.begin(place, PASSPHRASE, false);
    folder.list = list;
    await one.store.log.append(setting(1));
    await one.folder.exchange(byHand);
    expect(await two.folder.exchange(byHand)).toMatchObject({ came: { entries: 1 }, aside: [] });
  });
  test('a folder that was begun anew is left alone; one that only lost its description gets it back', async () => {
    const folder = sharedFolder();
    const [one, two] = [await device(folder), await device(folder)];
    await one.folder.begin(place, PASSPHRASE, false);
    await one.store.log.append(setting(1));
    await one.folder.exchange(byHand);
    const description = folder.files.get('folder.json');
    folder.files.delete('folder.json');
    await expect(two.folder.begin(place, PASSPHRASE, false)).rejects.toMatchObject({
      fault: 'folder',
      message: /missing/,
    });
    expect(folder.files.has('folder.json')).toBe(false);
    await one.folder.exchange(byHand);
    expect(folder.files.get('folder.json')).toEqual(description);
    folder.files.set('folder.json', new TextEncoder().encode('{"recency":"folder","v":1}'));
    await one.store.log.append(setting(2));
    const files = folder.files.size;
    await expect(one.folder.exchange(byHand)).rejects.toMatchObject({ fault: 'folder', message: /begun anew/ });
    expect(folder.files.size).toBe(files);
  });
  test.each(['', '{', 'null', '{"recency":"folder","v":2}', '{"recency":"folder","v":1,"kdf":"md5"}'])(
    'a description that says %j is told',
    async (said) => {
      const folder = sharedFolder();
      folder.files.set('folder.json', new TextEncoder().encode(said));
      const one = await device(folder);
      await expect(one.folder.begin(place, null, false)).rejects.toMatchObject({ fault: 'folder', message: /damaged/ });
    },
  );
});

describe('the password', () => {
  const login = { user: 'me', password: 'secret word' };
  test('is kept only where the learner says so; else it is asked, and nothing is tried by itself', async () => {
    const folder = sharedFolder();
    const one = await device(folder);
    await one.folder.begin({ ...place, login }, null, false);
    expect(await one.folder.exchange(byItself)).not.toBeNull();
    expect(one.asked.at(-1)).toEqual(['https://example.org/dav/x/', login]);
    expect(JSON.stringify(await one.store.device.get('second-device'))).not.toContain('secret word');
    const again = one.again();
    expect((await again.state())?.asksPassword).toBe('me');
    expect(await again.exchange(byItself)).toBeNull();
    await expect(again.exchange(byHand)).rejects.toMatchObject({ fault: 'login' });
    again.tell('secret word');
    expect((await again.state())?.asksPassword).toBeNull();
    expect(await again.exchange(byItself)).not.toBeNull();
    await again.begin({ ...place, login }, null, true);
    expect(await one.again().exchange(byItself)).not.toBeNull();
    expect(one.asked.at(-1)).toEqual(['https://example.org/dav/x/', login]);
  });
});

describe('after a failure', () => {
  test('it waits longer each time, but not by hand', async () => {
    const folder = sharedFolder();
    const one = await device(folder);
    await one.folder.begin(place, null, false);
    const fail = () => {
      folder.fail = { after: 0, how: 'before' };
    };
    fail();
    await expect(one.folder.exchange(byItself)).rejects.toMatchObject({ fault: 'network' });
    expect((await one.folder.state())?.failed).toMatchObject({ fault: 'network', again: AT + 60_000 });
    expect(await one.folder.exchange(byItself)).toBeNull();
    one.clock.now += 60_000;
    fail();
    await expect(one.folder.exchange(byItself)).rejects.toBeInstanceOf(FolderProblem);
    expect((await one.folder.state())?.failed?.again).toBe(one.clock.now + 120_000);
    expect(await one.folder.exchange(byHand)).not.toBeNull();
    expect((await one.folder.state())?.failed).toBeNull();
    expect([1, 2, 3, 9, 10, 50].map((times) => waitAfter(times) / 60_000)).toEqual([1, 2, 4, 256, 360, 360]);
  });
  test('a request that ended with the app out of sight is no failure of the server: the next try waits for nothing', async () => {
    const folder = sharedFolder();
    const one = await device(folder);
    await one.folder.begin(place, null, false);
    folder.fail = { after: 0, how: 'before' };
    const cut = one.folder.exchange({ ...byItself, wasCutOff: () => true });
    await expect(cut).rejects.toMatchObject({ fault: 'network' });
    expect((await one.folder.state())?.failed).toBeNull();
    expect(await one.folder.exchange(byItself)).not.toBeNull();
    // What the server itself said counts, wherever the app is.
    folder.fail = { after: 0, how: 'before', fault: 'full' };
    await expect(one.folder.exchange({ ...byItself, wasCutOff: () => true })).rejects.toMatchObject({ fault: 'full' });
    expect((await one.folder.state())?.failed).toMatchObject({ fault: 'full', again: AT + 60_000 });
  });
  test('in a tab that does not write nothing is done', async () => {
    const folder = sharedFolder();
    const one = await device(folder);
    await one.folder.begin(place, null, false);
    const other = await device(folder, { store: { ...one.store, lock: { state: 'other' } } });
    expect(await other.folder.exchange(byItself)).toBeNull();
    await expect(other.folder.exchange(byHand)).rejects.toMatchObject({ fault: 'other-tab' });
    await expect(other.folder.begin(place, null, false)).rejects.toMatchObject({ fault: 'other-tab' });
  });
});
