import { readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Login } from '../../../src/model/second-device.ts';
import { webdav } from '../../../src/sync/webdav.ts';
import { parseXml } from '../../../src/sync/xml.ts';
import { type Apache, PASSWORD, startApache, USER } from '../../helpers/apache.ts';
import { deviceOf } from '../../helpers/shared-folder.ts';

let server: Apache;
beforeAll(async () => {
  server = await startApache();
});
afterAll(() => server?.stop());

const at = (path: string, login: Login | null = null) => webdav(new URL(path, server.url), login, parseXml);
const bytes = (text: string) => new TextEncoder().encode(text);

test('files are put once, listed with their size, and come back byte for byte', async () => {
  const folder = at('open/');
  expect(await folder.list()).toEqual([]);
  expect(await folder.put('one.log', bytes('first\n'))).toBe('put');
  expect(await folder.put('one.log', bytes('second\n'))).toBe('there');
  expect(new TextDecoder().decode(await folder.get('one.log'))).toBe('first\n');
  const all = Uint8Array.from({ length: 70_000 }, (_, i) => i % 256);
  const odd = 'a b%20&ü.log';
  expect(await folder.put(odd, all)).toBe('put');
  expect(await folder.get(odd)).toEqual(all);
  const listed = await folder.list();
  expect(new Map(listed.map(({ name, size }) => [name, size]))).toEqual(
    new Map([
      ['one.log', 6],
      [odd, 70_000],
    ]),
  );
  expect(listed.every(({ etag }) => /^(W\/)?"[^"]+"$/.test(etag ?? ''))).toBe(true);
});

test('a folder that is missing is told and can be made; what lies in another folder is not listed', async () => {
  const folder = at('open/second device/');
  await expect(folder.list()).rejects.toMatchObject({ fault: 'missing' });
  await expect(folder.put('one.log', bytes('x'))).rejects.toMatchObject({ fault: 'missing' });
  await expect(at('open/no/where/').make()).rejects.toMatchObject({ fault: 'missing', message: /above/ });
  await folder.make();
  await folder.make();
  await folder.put('two.log', bytes('x'));
  expect((await folder.list()).map(({ name }) => name)).toEqual(['two.log']);
  expect((await at('open/').list()).map(({ name }) => name)).not.toContain('second device');
  await expect(folder.get('three.log')).rejects.toMatchObject({ fault: 'gone' });
});

test('user and password: asked for, refused, accepted', async () => {
  await expect(at('closed/').list()).rejects.toMatchObject({ fault: 'login', message: /asks for a user/ });
  const wrong = { user: USER, password: 'wrong' };
  await expect(at('closed/', wrong).list()).rejects.toMatchObject({ fault: 'login', message: /does not accept/ });
  await expect(at('closed/', wrong).put('one.log', bytes('x'))).rejects.toMatchObject({ fault: 'login' });
  const folder = at('closed/', { user: USER, password: PASSWORD });
  expect(await folder.list()).toEqual([]);
  expect(await folder.put('one.log', bytes('x'))).toBe('put');
  expect(readdirSync(join(server.files, 'closed'))).toEqual(['one.log']);
});

test('two devices exchange through it; a file that was cut short there is put again under another name', async () => {
  const folder = at('open/two/');
  await folder.make();
  const [phone, tablet] = [deviceOf('phone'), deviceOf('tablet')];
  for (let i = 0; i < 650; i += 1) phone.answer(i * 60_000);
  tablet.answer(5);
  expect(await phone.pass(folder)).toMatchObject({ went: { entries: 650 } });
  const names = readdirSync(join(server.files, 'open/two'));
  expect(names).toHaveLength(3);
  const torn = join(server.files, 'open/two', names[0] ?? '');
  writeFileSync(torn, readFileSync(torn).subarray(0, statSync(torn).size >> 1));
  expect((await tablet.pass(folder)).aside).toHaveLength(1);
  // As after its record was lost: it meets the torn file itself.
  phone.notes = {};
  await phone.pass(folder);
  await tablet.pass(folder);
  await phone.pass(folder);
  expect([...tablet.log].sort()).toEqual([...phone.log].sort());
  expect(tablet.log.size).toBe(651);
  expect(readdirSync(join(server.files, 'open/two')).filter((name) => /-1\.log$/.test(name))).toHaveLength(1);
});
