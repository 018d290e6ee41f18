import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { firstMinutes, press, WIND } from '../helpers/app.ts';
import { type Visit, visit } from '../helpers/browser.ts';

let device: Visit;
let page: Page;
/** Address of the draft. */
let draft: string;

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

/** As if files were dropped by hand: the browser lets no test drag from outside. */
const drop = (name: string, ...texts: readonly string[]) =>
  page.evaluate(
    ([file, all]) => {
      const data = new DataTransfer();
      for (const text of all) data.items.add(new File([text], file));
      document.body.dispatchEvent(new DragEvent('drop', { bubbles: true, cancelable: true, dataTransfer: data }));
    },
    [name, texts] as const,
  );
const field = () => page.getByLabel(/^Paste a list/);
const alerts = () => page.getByRole('alert').filter({ hasText: /./ });
const alert = () => alerts().innerText();

test('a list that is dropped beside text that was not yet read leaves that text alone, and says so', async () => {
  await page.goto(`${draft}/paste`);
  await field().fill('PF: Set thrust');
  await drop('roll.csv', 'crew,action\nPM,Start the timer\n');
  await expect.poll(alert).toMatch(/text in the field already.*drop roll\.csv again/);
  await drop('roll.csv', 'crew,action\n', 'crew,action\n');
  await expect.poll(alert).toBe('Drop one file at a time.');
  expect(page.url()).toBe(`${draft}/paste`);
  expect(await field().inputValue()).toBe('PF: Set thrust');
});

test('dropped on the empty field it is read as if it were chosen there', async () => {
  await field().fill('');
  await drop('roll.csv', 'crew,action\nPM,Start the timer\n');
  await expect.poll(() => page.locator('main [role=status]').first().innerText()).toContain('1 step read');
  expect(page.url()).toBe(`${draft}/paste`);
});

test('on another page of the draft it is told where it goes; a deck is taken in all the same', async () => {
  await page.goto(`${draft}/facts`);
  await drop('roll.txt', 'PM: Start the timer');
  await expect.poll(alert).toMatch(/roll\.txt is no deck.*“From a list”/);
  await page.goto(draft);
  await expect.poll(() => alerts().count()).toBe(0);
  await drop('deck.txt', '{"format":1}');
  await page.waitForURL(/#\/install$/);
});
