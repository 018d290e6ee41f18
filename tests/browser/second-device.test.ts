import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { openReport } from '../../src/exchange/report.ts';
import { type Apache, PASSWORD, startApache, USER } from '../helpers/apache.ts';
import {
  answer,
  dayAhead,
  firstMinutes,
  heading,
  inDatabase,
  logLines,
  press,
  shown,
  unfold,
  WIND,
} from '../helpers/app.ts';
import { offlineReady, type Visit, visit } from '../helpers/browser.ts';
import { type InFront, inFront } from '../helpers/in-front.ts';
import { sound } from '../helpers/sound.ts';

let apache: Apache;
let front: InFront;
let phone: Visit;
let tablet: Visit;
beforeAll(async () => {
  [apache, phone, tablet] = await Promise.all([startApache(), visit(), visit()]);
  front = await inFront(inject('baseUrl'), apache.url, ['open', 'closed']);
});
afterAll(() => Promise.all([phone?.close(), tablet?.close(), front?.close(), apache?.stop()]));

const PASSPHRASE = 'four words in a row';
const section = (page: Page) => page.getByRole('region', { name: 'Second device' });
const told = (page: Page) => section(page).innerText();
const log = async (page: Page) => (await logLines(page)).sort();
const settings = async (page: Page) => {
  await page.goto(`${front.url}#/settings`);
  await expect.poll(() => heading(page)).toBe('Settings');
  await section(page).waitFor();
  await unfold(page, 'Second device');
};
const fill = (page: Page, label: string | RegExp, text: string) => section(page).getByLabel(label).fill(text);

interface Kept {
  readonly failed: unknown;
  readonly last: { readonly at: number } | null;
}
const kept = async (page: Page) => (await inDatabase(page, 'device', 'second-device')) as Kept;
/** A folder taken in use is gone through once more by itself, some seconds later. */
const goneThrough = async (page: Page) => {
  const { last } = await kept(page);
  await expect.poll(async () => (await kept(page)).last?.at, { timeout: 60_000 }).toBeGreaterThan(last?.at ?? 0);
};

test('two devices answer apart, share a folder under a passphrase, and both have all', {
  timeout: 240_000,
}, async () => {
  const one = phone.page;
  await one.goto(front.url);
  await firstMinutes(one, WIND);
  await press(one, /ask me/);
  await answer(one, 'Sure');
  await press(one, 'Enough for today');
  await press(one, 'To the Brief');
  await settings(one);
  await sound(one, 'second device');
  await fill(one, 'Address of the folder', '/open/pair');
  await press(one, 'Test the address');
  await expect.poll(() => told(one)).toContain('There is no such folder on the server.');
  await sound(one, 'second device, no folder');
  await press(one, 'Make the folder');
  await expect.poll(() => told(one)).toContain('The folder was made.');
  await fill(one, /^Passphrase/, PASSPHRASE);
  await press(one, 'Use this folder');
  await expect
    .poll(() => told(one))
    .toMatch(/Came in: nothing new\. Went out: 1 answer, \d+ other entries, 1 deck\. Nothing was lost\./);
  await sound(one, 'second device, exchanged');
  const settled = goneThrough(one);
  // Nothing of it can be read on the server.
  const folder = join(apache.files, 'open/pair');
  const names = readdirSync(folder);
  expect(names.map((name) => name.replace(/^[0-9a-f]{64}/, '*')).sort()).toEqual(['*.deck', '*.log', 'folder.json']);
  for (const name of names) expect(readFileSync(join(folder, name), 'latin1')).not.toMatch(/answer|crosswind/i);

  const two = tablet.page;
  await two.goto(front.url);
  await press(two, 'I have read this');
  await settings(two);
  await fill(two, 'Address of the folder', `${front.url}open/pair/`);
  await fill(two, /^Passphrase/, 'four words in a raw');
  await press(two, 'Use this folder');
  await expect.poll(() => told(two)).toContain('not the passphrase of the folder');
  await sound(two, 'second device, wrong passphrase');
  expect(await log(two)).toEqual([]);
  await fill(two, /^Passphrase/, PASSPHRASE);
  await press(two, 'Use this folder');
  await expect
    .poll(() => told(two))
    .toMatch(/Came in: 1 answer of 1 day, \d+ other entries, 1 deck\. Went out: nothing new\./);
  expect(await log(two)).toEqual(await log(one));

  // The deck is in practice there, with what is known of it.
  await press(two, 'Brief');
  await expect.poll(() => two.locator('main').innerText()).toContain('days to your check');
  // What it answers now comes to the other by hand alone.
  await settled;
  await press(two, /^Start/);
  if ((await shown(two)) === 'read') await press(two, /ask me/);
  await answer(two, "Don't know");
  await press(two, 'Enough for today');
  await press(two, 'To the Brief');
  await settings(two);
  await press(two, 'Exchange now');
  // Where it did not go by itself meanwhile.
  await expect.poll(() => told(two)).toContain('Came in: nothing new. Went out:');

  // A list that is cut off changes nothing.
  await settings(one);
  const before = await log(one);
  front.tearing = true;
  await press(one, 'Exchange now');
  await expect.poll(() => told(one)).toContain('damaged or cut off');
  expect(await log(one)).toEqual(before);
  front.tearing = false;
  await press(one, 'Exchange now');
  await expect.poll(() => told(one)).toMatch(/Came in: 1 answer of 1 day/);
  expect(await log(one)).toEqual(await log(two));
  expect((await log(one)).length).toBeGreaterThan(before.length);

  // By itself after a start.
  await one.goto(`${front.url}#/date`);
  await one.getByLabel('Check date').fill(await dayAhead(one, 20));
  await press(one, /^(Begin|Keep|Store|Set|Save|Use)/);
  // It leads on once the date is stored.
  await expect.poll(() => new URL(one.url()).hash).not.toBe('#/date');
  await settings(one);
  await press(one, 'Exchange now');
  await expect.poll(() => told(one)).toMatch(/Went out: [1-9]/);
  await two.goto(front.url);
  await two.reload();
  // Some seconds after the start, more on a machine that does much else.
  const stands = async (page: Page) => ({ failed: (await kept(page)).failed, log: await log(page) });
  await expect.poll(() => stands(two), { timeout: 60_000 }).toEqual({ failed: null, log: await log(one) });
});

test('a progress report is put in a folder of the instructor, and never over another file', async () => {
  const { page } = phone;
  await page.goto(`${front.url}#/report`);
  await expect.poll(() => heading(page)).toBe('Progress report');
  await page.getByLabel('What you call yourself in it').fill('Cadet 7');
  await press(page, 'Make the report');
  await page.getByText(/^Report number 1 is made$/).waitFor();
  await page.getByText("Put it in your instructor's folder").tap();
  await sound(page, 'report, into a folder');
  const type = (label: string, text: string) => page.getByLabel(label).fill(text);
  const put = async (words: RegExp) => {
    await press(page, 'Put it there');
    await page.getByText(words).waitFor();
  };
  await type('Address of the folder', 'https://elsewhere.example/reports/');
  await put(/^The folder must be on the server that this app comes from/);
  await type('Address of the folder', '/open/none');
  await put(/^There is no such folder on the server\.$/);
  await type('Address of the folder', '/closed/');
  await type('User, if the folder asks for one', USER);
  await type('Password, not kept', 'a wrong one');
  await put(/^The server does not accept this user and password\.$/);
  await type('Password, not kept', PASSWORD);
  await put(/^It lies in the folder\.$/);
  const files = readdirSync(join(apache.files, 'closed'));
  const name = files.find((one) => one.endsWith('.report.txt')) ?? '';
  expect(name).toMatch(/^Cadet-7-\d{4}-\d\d-\d\d-1\.report\.txt$/);
  const text = readFileSync(join(apache.files, 'closed', name), 'utf8');
  const opened = await openReport(text);
  expect(opened.ok && opened.value.report).toMatchObject({ trainee: 'Cadet 7', n: 1 });
  await put(/^It lies in the folder already\.$/);
  writeFileSync(join(apache.files, 'closed', name), 'of somebody else');
  await put(/^Another file of this name lies in the folder/);
  expect(readFileSync(join(apache.files, 'closed', name), 'utf8')).toBe('of somebody else');
  // The address is there again, the password is not.
  await page.reload();
  await press(page, 'Make the report');
  await page.getByText("Put it in your instructor's folder").tap();
  await expect.poll(() => page.getByLabel('Address of the folder').inputValue()).toBe('/closed/');
  expect(await page.getByLabel('User, if the folder asks for one').inputValue()).toBe('');
});

test('the service worker keeps nothing of the folder', async () => {
  const { page } = phone;
  await offlineReady(page);
  await settings(page);
  await press(page, 'Exchange now');
  await expect.poll(() => told(page)).toContain('Came in: nothing new. Went out: nothing new.');
  const kept = await page.evaluate(async () => {
    const caches = await window.caches.keys();
    const requests = await Promise.all(
      caches.map(async (name) => (await (await window.caches.open(name)).keys()).map(({ url }) => url)),
    );
    return requests.flat();
  });
  expect(kept.length).toBeGreaterThan(10);
  expect(kept.filter((url) => url.includes('/open/'))).toEqual([]);
});

test('without a network it is told and tried again later; to stop leaves the files', async () => {
  const { page } = phone;
  const files = readdirSync(join(apache.files, 'open/pair'));
  await phone.goOffline();
  await press(page, 'Exchange now');
  await expect.poll(() => told(page)).toContain('The server does not answer.');
  await phone.goOnline();
  await press(page, 'Stop using the folder');
  await sound(page, 'second device, to be stopped');
  await section(page).getByRole('button', { name: 'Stop using it', exact: true }).tap();
  await expect.poll(() => told(page)).toContain('no longer used by this device');
  expect(await inDatabase(page, 'device', 'second-device')).toBeNull();
  expect(readdirSync(join(apache.files, 'open/pair'))).toEqual(files);
});
