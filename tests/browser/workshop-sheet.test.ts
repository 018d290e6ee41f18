import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { press } from '../helpers/app.ts';
import { type Visit, visit } from '../helpers/browser.ts';
import { focusedPlace, openAsDraft } from '../helpers/workshop.ts';

/** Invented. */
const DECK = {
  format: 1,
  id: 'test/sheet',
  version: '1.0.0',
  title: 'A deck',
  language: 'en',
  nature: 'fictional',
  sources: [{ id: 's', title: 'Invented manual', edition: 'Issue 1', basis: 'invented' }],
  procedures: [
    {
      id: 'p',
      title: 'Going round',
      done: 'memory',
      source: 's#2.1',
      steps: ['Set thrust', 'Gear up', 'Flaps zero', 'Lights off'].map((words, i) => ({
        id: `step-${i}`,
        by: 'PF',
        do: words,
        cue: { text: 'Then' },
      })),
    },
    { id: 'q', title: 'Parking', done: 'memory', steps: [{ id: 'brake', by: 'PF', do: 'Set the brake' }] },
  ],
  limits: [{ id: 'l', ask: 'How fast?', unit: 'kt', sense: 'at most', value: 250, source: 's#2.2' }],
};

let device: Visit;
let page: Page;
let sheet: string;

beforeAll(async () => {
  device = await visit();
  page = device.page;
  await page.goto(inject('baseUrl'));
  await press(page, 'I have read this');
  sheet = `${await openAsDraft(page, DECK)}/revision`;
});
afterAll(() => device.close());

const said = (): Promise<string> => page.locator('main').innerText();
const ticked = () => page.locator('main fieldset input:checked').count();

test('a whole procedure is ticked in one go, and taken back in one', async () => {
  await page.goto(sheet);
  await page.getByLabel(/^Source/).selectOption('s');
  await page.getByLabel('Changed paragraphs').fill('2');
  await page.getByLabel('New edition').fill('Issue 2');
  await page.getByRole('heading', { name: 'What rests on them (6)' }).waitFor();
  await page.locator('main fieldset').nth(1).getByLabel('Changed: put right').check();
  await press(page, /^The whole procedure is still right/);
  await expect.poll(ticked).toBe(5);
  expect(await page.locator('main fieldset').nth(1).getByLabel('Changed: put right').isChecked()).toBe(true);
  expect(await said()).toContain('1 thing is not ticked: it will say the edition before.');
  await press(page, /^Take these ticks back/);
  await expect.poll(ticked).toBe(1);
  expect(await said()).toContain('5 things are not ticked: they will say the edition before.');
});

test('what names no source is told before the sheet is done, and can be opened', async () => {
  await page.getByRole('heading', { name: 'Without a source (1)' }).waitFor();
  await press(page, 'Procedure: Parking');
  await page.waitForURL(/procedures\/1$/);
});

test('whoever comes back from a thing is where they left', async () => {
  await page.goBack();
  await expect.poll(() => focusedPlace(page)).toBe('/revision-sheet/procedure q');
  const last = page.locator('main fieldset').last();
  await last.getByRole('button', { name: /^Open it/ }).tap();
  await page.waitForURL(/limits\/0$/);
  await expect.poll(() => focusedPlace(page)).toMatch(/^\/limits\/0/);
  await page.goBack();
  await expect.poll(() => focusedPlace(page)).toBe('/revision-sheet/limit l');
  expect(await page.evaluate(() => scrollY)).toBeGreaterThan(200);
});

test('what is done is told where the cursor goes', async () => {
  await press(page, /^The whole procedure is still right/);
  await press(page, 'Put the new edition into the deck');
  await expect
    .poll(() => page.evaluate(() => document.activeElement?.textContent))
    .toBe('Done. 1 thing says the edition before, until checked.');
  expect(device.errors).toEqual([]);
});
