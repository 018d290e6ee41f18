import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { firstMinutes, press, WIND } from '../helpers/app.ts';
import { type Visit, visit } from '../helpers/browser.ts';

let device: Visit;
let page: Page;
/** Address of the draft. */
let draft: string;

const LIST = [
  'TAKE-OFF ROLL',
  '1. PF: Thrust levers — set take-off thrust',
  '2. PM calls "One hundred"',
  '3. "Checked" (PF)',
  'Page 3 of 4',
].join('\r\n');

beforeAll(async () => {
  device = await visit();
  page = device.page;
  await page.goto(inject('baseUrl'));
  await firstMinutes(page, WIND);
  await page.goto(`${inject('baseUrl')}#/workshop`);
  await press(page, 'A new deck from a list or table');
  await page.waitForURL(/\/paste$/);
  draft = page.url().replace(/\/paste$/, '');
});
afterAll(() => device.close());

const status = (): Promise<string> => page.locator('main [role=status]').first().innerText();
const rows = () => page.getByRole('list', { name: 'Rows' }).locator('> li');
/** The page must not scroll sideways on a narrow phone. */
const isNarrow = () => page.evaluate(() => document.documentElement.scrollWidth <= innerWidth);
const steps = (at: number) => page.goto(`${draft}/procedures/${at}`);

test('a list is read, a row is put right, and its steps become a procedure that can be taken back', async () => {
  await page.goto(`${draft}/paste`);
  await page.getByLabel(/^Paste a list/).fill(LIST);
  await press(page, 'Read it');
  await expect.poll(status).toBe('3 steps read. 2 rows left out.');
  const focused = () =>
    page.evaluate(() => document.activeElement?.getAttribute('role') ?? document.activeElement?.tagName);
  await expect.poll(focused).toBe('status');
  await press(page, 'Back to the text');
  await expect.poll(focused).toBe('TEXTAREA');
  await press(page, 'Read it');
  await expect.poll(focused).toBe('status');
  expect(await page.getByLabel('Title of the new procedure').inputValue()).toBe('TAKE-OFF ROLL');
  await press(page, 'Change row 4');
  await page.getByLabel('Callout').fill('Checked, one hundred');
  await press(page, 'Close row 4');
  expect(await rows().nth(3).innerText()).toContain('PF “Checked, one hundred”');
  expect(await isNarrow()).toBe(true);
  await press(page, 'Take these steps');
  await page.waitForURL(/procedures\/0$/);
  await expect.poll(() => page.locator('main').innerText()).toContain('Checked, one hundred');
  expect(await page.locator('main').innerText()).not.toContain('Page 3 of 4');
});

test('the revised list finds its steps again; what is gone may stay', async () => {
  await page.goto(`${draft}/paste/0`);
  await page
    .getByLabel(/^Paste a list/)
    .fill('PM calls "One hundred"\nPF: Thrust levers: set the take-off thrust\nPM: Start the timer');
  await press(page, 'Read it');
  await expect
    .poll(status)
    .toBe('3 steps read: 1 the same, 1 changed, 1 moved, 1 new. 1 step of the procedure no longer in the list.');
  await page.getByLabel(/Checked, one hundred/).check();
  await press(page, 'Take these steps');
  await page.waitForURL(/procedures\/0$/);
  await expect.poll(() => page.locator('main').innerText()).toContain('Start the timer');
  expect(await page.locator('main').innerText()).toContain('Checked, one hundred');
});

test('a file that cannot be read says where and what to do, and nothing is taken', async () => {
  await page.goto(`${draft}/paste`);
  await page.getByLabel(/^Or choose a file/).setInputFiles({
    name: 'roll.csv',
    mimeType: 'text/csv',
    buffer: Buffer.from('crew,action\r\nPF,Set thrust\r\nPM,"Start the timer\r\n'),
  });
  const alert = page.getByRole('alert').filter({ hasText: 'Row 3' });
  await expect.poll(() => alert.innerText()).toContain('never closed');
  // The text is there to be mended.
  expect(await page.getByLabel(/^Paste a list/).inputValue()).toContain('"Start the timer');
});

test('a file of another letter set; a table with a column for each pilot becomes lanes', async () => {
  await page.goto(`${draft}/paste`);
  await page.getByLabel(/^Or choose a file/).setInputFiles({
    name: 'lanes.csv',
    mimeType: 'text/csv',
    // Windows-1252: the marks are single bytes.
    buffer: Buffer.from('PF;PM\r\nSet thrust;\x93One hundred\x94\r\nHold the stick;\r\n', 'latin1'),
  });
  await expect.poll(status).toBe('3 steps read. 1 row left out.');
  expect(await page.locator('main').innerText()).toContain('PM “One hundred”');
  await page.getByLabel('Title of the new procedure').fill('Side by side');
  await press(page, 'Take these steps');
  await page.waitForURL(/procedures\/1$/);
  await expect.poll(() => page.locator('main').innerText()).toContain('Hold the stick');
});

test('steps saved as CSV and pasted again change nothing', async () => {
  await steps(1);
  await page.goto(`${draft}/paste/1`);
  const [download] = await Promise.all([page.waitForEvent('download'), press(page, 'Save its steps as a CSV file')]);
  const csv = await (await download.createReadStream()).toArray();
  await page.getByLabel(/^Paste a list/).fill(Buffer.concat(csv as Buffer[]).toString('utf8'));
  await press(page, 'Read it');
  await expect.poll(status).toBe('3 steps read: 3 the same. 1 row left out.');
  expect(await page.locator('main').innerText()).toContain('Nothing would change.');
  expect(await page.getByRole('button', { name: 'Take these steps' }).isDisabled()).toBe(true);
  expect(device.errors).toEqual([]);
});
