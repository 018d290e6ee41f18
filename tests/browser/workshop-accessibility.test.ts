import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { answer, firstMinutes, MERROW, press } from '../helpers/app.ts';
import { type Visit, visit } from '../helpers/browser.ts';
import { sound } from '../helpers/sound.ts';

let browser: Visit;
let page: Page;
/** Address of a draft of the take-off deck, which is installed too. */
let draft: string;

const home = async (): Promise<void> => {
  await page.goto(`${inject('baseUrl')}#/workshop`);
  await page.getByRole('heading', { name: 'Workshop' }).waitFor();
};
/** @returns address of the draft */
const opened = async (deck: object): Promise<string> => {
  await home();
  const buffer = Buffer.from(JSON.stringify(deck));
  await page
    .locator('input[type=file]')
    .first()
    .setInputFiles({ name: 'x.json', mimeType: 'application/json', buffer });
  await page.waitForURL(/#\/workshop\/\w+$/);
  return page.url();
};
/** Opens a page of the draft; everything on it is unfolded. */
const turnTo = async (which: string, of = draft): Promise<void> => {
  await page.goto(`${of}/${which}`);
  await page.locator('main h1').waitFor();
  await unfold();
};
/** What is drawn when it is unfolded may hold more to unfold. */
const unfold = async (): Promise<void> => {
  for (let round = 0; round < 3; round++)
    await page.evaluate(async () => {
      for (const one of document.querySelectorAll('details')) one.open = true;
      await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
    });
};
const file = async (): Promise<Record<string, never>> =>
  JSON.parse(await readFile('decks/merrow-takeoff.deck.json', 'utf8'));

beforeAll(async () => {
  browser = await visit();
  page = browser.page;
  await page.goto(inject('baseUrl'));
  await firstMinutes(page, MERROW);
  await home();
  await press(page, /take-off and initial climb, version/);
  await page.waitForURL(/#\/workshop\/\w+$/);
  draft = page.url();
});
afterAll(async () => {
  await browser.close();
  expect(browser.errors).toEqual([]);
});

test('the drafts, one of them with faults, and what is said of these', async () => {
  const deck = await file();
  const broken = await opened({ ...deck, title: '', nature: 'other', about: '<b>About</b>', colour: 'red' });
  await page
    .getByText(/\d to mend/)
    .first()
    .waitFor();
  await sound(page, 'workshop draft with faults');
  await turnTo('head', broken);
  await page.locator('[aria-invalid]').first().waitFor();
  await sound(page, 'workshop head with faults');
  await home();
  await page
    .getByRole('button', { name: /^Remove the draft/ })
    .first()
    .tap();
  await sound(page, 'workshop drafts');
  await page.goto(`${inject('baseUrl')}#/workshop/none`);
  await page.getByText('could not be read').waitFor();
  await sound(page, 'workshop no such draft');
});

test.each([
  'head',
  'sources',
  'variants',
  'crew',
  'day',
  'conditions',
  // A number, one with cases, one of some answers, a table.
  'limits/0',
  'limits/20',
  'limits/14',
  'limits/42',
])('the form of %s', async (which) => {
  await turnTo(which);
  await page.locator('main [data-path]').first().waitFor();
  await sound(page, `workshop ${which}`);
});

test('a procedure: a step open, what order must hold, what differs between variants', async () => {
  await turnTo('procedures/1');
  await page.locator('[data-questions]').waitFor();
  await page.locator('.matrix').first().waitFor();
  await page.locator('[data-step]').first().tap();
  await page.locator('.node-form').waitFor();
  await unfold();
  await sound(page, 'workshop procedure');
});

test('a scenario with what it draws', async () => {
  await turnTo('scenarios/0');
  const bench = page.getByRole('region', { name: 'What is drawn' });
  await bench.getByRole('region', { name: 'Table of examples' }).waitFor();
  await bench.getByRole('combobox', { name: 'Question' }).selectOption({ index: 1 });
  await bench.locator('svg.cover').waitFor();
  await unfold();
  await sound(page, 'workshop scenario');
});
