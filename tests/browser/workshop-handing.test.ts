import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { press } from '../helpers/app.ts';
import { type Visit, visit } from '../helpers/browser.ts';
import { box, focusedPlace, openAsDraft, storedDraft } from '../helpers/workshop.ts';

const DAY = 86_400_000;
/** Midnight must not come while a date is looked at. */
const NOON = (Math.floor(Date.now() / DAY) + 1) * DAY + DAY / 2;
const isoDay = (days: number): string => new Date(NOON + days * DAY).toISOString().slice(0, 10);

/** Invented. */
const DECK = {
  format: 1,
  id: 'test/handing',
  version: '1.0.0',
  title: 'A deck',
  language: 'en',
  nature: 'fictional',
  madeBy: 'The makers',
  effective: isoDay(-30),
  sources: [{ id: 's', title: 'Invented manual', basis: 'invented' }],
  limits: [{ id: 'l', ask: 'How fast?', unit: 'kt', sense: 'at most', value: 250, source: 's' }],
};

let device: Visit;
let page: Page;
/** Address of the draft that goes on, and of one that was begun before and left. */
let draft: string;
let left: string;
/** One that was signed. */
let signed: string;

beforeAll(async () => {
  device = await visit();
  page = device.page;
  await device.setClock(NOON);
  await page.goto(inject('baseUrl'));
  await press(page, 'I have read this');
  left = await openAsDraft(page, { ...DECK, title: 'A deck, begun before' });
  draft = await openAsDraft(page, DECK);
});
afterAll(() => device.close());

const open = (address: string, which: string) => page.goto(`${address}/${which}`);
const main = (): Promise<string> => page.locator('main').innerText();
const focused = (): Promise<string> => page.evaluate(() => document.activeElement?.textContent ?? '');
const practise = async (how: 'Install' | 'Replace'): Promise<void> => {
  await page.getByRole('button', { name: 'Practise it here' }).and(page.locator(':enabled')).tap();
  await press(page, how);
};
const isNarrow = () => page.evaluate(() => document.documentElement.scrollWidth <= innerWidth);

test('a draft that was practised here goes on from what it was then', async () => {
  await open(draft, 'hand-over');
  await practise('Install');
  await press(page, /^No date yet/);
  await page.getByRole('button', { name: /ask me/ }).waitFor();
  await open(draft, 'limits/0');
  await box(page, '/limits/0/value').fill('240');
  await open(draft, 'hand-over');
  // Not yet under another number: it says which it will be, and not that it follows itself.
  await page.getByRole('heading', { name: 'To become version 2.0.0' }).waitFor();
  expect(await main()).not.toContain('It follows version');
  expect(await main()).not.toContain('This draft was begun');
});

test('a changed answer is asked for its day; the version that is set keeps the cursor and is told', async () => {
  await page.getByRole('heading', { name: 'From when does the new answer hold?' }).waitFor();
  expect(await main()).toContain('from the same day: nobody could tell until when the old answer was right.');
  await press(page, /^From today/);
  await expect.poll(() => box(page, '/effective').inputValue()).toBe(isoDay(0));
  expect(await main()).not.toContain('nobody could tell');
  await expect.poll(() => focusedPlace(page)).toBe('/effective');
  await press(page, 'Set version 2.0.0');
  await page.getByRole('status').getByText('Version 2.0.0 is set.').waitFor();
  await expect.poll(focused).toBe('Version 2.0.0');
  expect(await isNarrow()).toBe(true);
  const [saved] = await Promise.all([page.waitForEvent('download'), press(page, 'Save the file')]);
  await page.getByRole('status').getByText(`Saved as ${saved.suggestedFilename()}.`).waitFor();
  await practise('Replace');
  await page.waitForURL(/#\/(amendment.*)?$/);
  await open(draft, 'hand-over');
  await page.getByText('Nothing has changed yet: it is version 2.0.0, as it is here.').waitFor();
});

test('an older draft is not put over the newer version unless its author says so', async () => {
  await open(left, 'hand-over');
  await page
    .getByText('This draft was begun from nothing, or from a file. Version 2.0.0 was installed since.')
    .waitFor();
  expect(await main()).not.toContain('It follows version');
  expect(await page.getByRole('button', { name: /^Set version/ }).count()).toBe(0);
  await expect.poll(main).toContain('say above what is to be done');
  expect(await page.getByRole('button', { name: 'Save the file' }).isDisabled()).toBe(true);
  expect(await isNarrow()).toBe(true);
  await press(page, 'Compare with it');
  await expect
    .poll(() =>
      page
        .getByLabel(/^Before/)
        .locator('option:checked')
        .innerText(),
    )
    .toContain('Version 2.0.0');
  await page.getByText('This draft was begun from nothing, or from a file.').waitFor();
  expect(await page.getByRole('button', { name: /^Set version/ }).count()).toBe(0);
  await page.getByLabel(/^I have compared them/).check();
  await page.getByRole('button', { name: 'Set version 3.0.0' }).waitFor();
  await page.getByLabel(/^I have compared them/).uncheck();
  await expect.poll(() => page.getByRole('button', { name: /^Set version/ }).count()).toBe(0);

  await press(page, 'Revise version 2.0.0 instead');
  await page.waitForURL((url) => /#\/workshop\/\w+$/.test(url.hash) && !url.href.startsWith(left));
  await expect.poll(() => storedDraft(page)).toMatchObject({ version: '2.0.0', limits: [{ value: 240 }] });
});

test('a key is made and a deck signed: the cursor is on what was told; paper says what it is of', async () => {
  const own = page.url();
  await page.goto(`${own}/print`);
  await page.getByText('A draft: as version 2.0.0 on this device; not handed over yet.').waitFor();
  await page.goto(`${own}/hand-over`);
  const make = page.getByRole('button', { name: 'Make a key and save its file' });
  await page.getByLabel(/^Passphrase/).fill('lined up and waiting');
  expect(await make.isDisabled()).toBe(true);
  await page.getByLabel(/^The same again/).fill('lined up and waitinG');
  await page.getByText('The two are not the same.').waitFor();
  expect(await make.isDisabled()).toBe(true);
  await page.getByLabel('Show it').check();
  expect(await page.getByLabel(/^Passphrase/).getAttribute('type')).toBe('text');
  expect(await page.getByLabel(/^The same again/).count()).toBe(0);
  const [file] = await Promise.all([page.waitForEvent('download'), make.tap()]);
  expect(file.suggestedFilename()).toMatch(/^recency-key/);
  await expect.poll(focused).toBe('Your key is made, and its file is saved.');
  expect(await main()).toContain('Your public key, for others to know you by: it is no secret.');
  // The deck names its makers: whoever signs is asked for their own name.
  expect(await page.getByLabel(/^Your name/).inputValue()).toBe('');
  expect(await page.getByRole('button', { name: 'Sign as author' }).isDisabled()).toBe(true);
  await page.getByLabel(/^Your name/).fill('A. Author');
  await press(page, 'Sign as author');
  await expect.poll(focused).toBe('Signed as author.');
  await page.getByText('Author: A. Author').waitFor();
  await page.getByRole('button', { name: 'Save the file' }).and(page.locator(':enabled')).tap();
  await page.goto(`${own}/print`);
  await page.getByText('As it was handed over as version 2.0.0.').waitFor();
  await page.goto(`${own}/limits/0`);
  await box(page, '/limits/0/value').fill('235');
  await page.goto(`${own}/print`);
  await page.getByText('A draft: changed since version 2.0.0 was handed over.').waitFor();
  signed = own;
});

test('an unsigned version after a signed one: its author is told before it is out of hand, and led to sign it', async () => {
  await open(signed, 'limits/0');
  await box(page, '/limits/0/value').fill('240');
  await open(signed, 'hand-over');
  await page.getByText('Nothing has changed yet: it is version 2.0.0').waitFor();
  await practise('Replace');
  await page.waitForURL(/#\/(amendment.*)?$/);
  await open(signed, 'limits/0');
  await box(page, '/limits/0/value').fill('235');
  await open(signed, 'hand-over');
  await page.getByText('The version before it is signed by A. Author: devices that hold it refuse').waitFor();
  await page.getByText(/^This device holds a version signed by A\. Author/).waitFor();
  expect(await page.getByRole('button', { name: 'Practise it here' }).isDisabled()).toBe(true);
  await press(page, 'To the signatures');
  await expect.poll(focused).toBe('Signatures');
  // What changed is said here too.
  await box(page, '/amendment').fill('The limit is 235 now.');
  await expect.poll(() => storedDraft(page)).toMatchObject({ amendment: 'The limit is 235 now.' });
  await press(page, 'Set version 3.0.0');
  await page.getByRole('button', { name: 'Sign as author' }).and(page.locator(':enabled')).tap();
  await page.getByText('devices that hold it refuse').waitFor({ state: 'detached' });
  await practise('Replace');
  await page.waitForURL(/#\/(amendment.*)?$/);
});

test('a new draft of it begins without its note, which is still to be read, and can be put back', async () => {
  await page.goto(`${inject('baseUrl')}#/workshop`);
  await press(page, 'A deck, version 3.0.0');
  await page.waitForURL((url) => /#\/workshop\/\w+$/.test(url.hash) && !url.href.startsWith(signed));
  const own = page.url();
  await open(own, 'hand-over');
  await page.getByText('Nothing has changed yet since version 3.0.0.').waitFor();
  expect(await box(page, '/amendment').inputValue()).toBe('');
  expect(await main()).toContain('Note of version 3.0.0:');
  expect(await page.getByRole('button', { name: 'Save the file' }).isDisabled()).toBe(true);
  expect(await isNarrow()).toBe(true);
  await press(page, /^Put the old note back/);
  await page.getByText('Nothing has changed yet: it is version 3.0.0, as it is here.').waitFor();
  await page.getByRole('button', { name: 'Save the file' }).and(page.locator(':enabled')).waitFor();
});

test('no script failed', () => {
  expect(device.errors).toEqual([]);
});
