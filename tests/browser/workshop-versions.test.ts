import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { firstMinutes, heading, MERROW, press } from '../helpers/app.ts';
import { type Visit, visit } from '../helpers/browser.ts';

let device: Visit;
let page: Page;
/** Address of the draft. */
let draft: string;

beforeAll(async () => {
  device = await visit();
  page = device.page;
  await page.goto(inject('baseUrl'));
  await firstMinutes(page, MERROW);
  await page.goto(`${inject('baseUrl')}#/workshop`);
  await press(page, /take-off and initial climb, version/);
  await page.getByRole('link', { name: 'Compare versions' }).waitFor();
  draft = page.url();
});
afterAll(() => device.close());

const open = async (which: string): Promise<void> => {
  await page.goto(`${draft}/${which}`);
};
const said = (): Promise<string> => page.locator('main').innerText();
const section = (title: RegExp) => page.locator('section').filter({ has: page.getByRole('heading', { name: title }) });
/** The page must not scroll sideways on a narrow phone. */
const isNarrow = () => page.evaluate(() => document.documentElement.scrollWidth <= innerWidth);

test('a changed limit is told with both values, raises the version, and may keep its memory', async () => {
  await open('compare');
  await expect.poll(said).toContain('Nothing changed.');
  await open('limits/0');
  await page.locator('[data-path="/limits/0/value"]').fill('53');
  await open('compare');
  const changed = section(/^Answers changed/);
  await changed.first().waitFor();
  const one = changed.locator('li').filter({ hasText: 'N1 at which the engines are stabilised' }).first();
  expect(await one.locator('del').allInnerTexts()).toEqual([expect.stringContaining('43')]);
  expect(await one.locator('ins').allInnerTexts()).toEqual([expect.stringContaining('53')]);
  expect(await isNarrow()).toBe(true);

  const version = section(/^(To become v|V)ersion /);
  const next = /^To become version (\d+)/.exec(await version.locator('h2').innerText())?.[1];
  await press(page, /^Set version /);
  await expect.poll(() => version.locator('h2').innerText()).toBe(`Version ${next}.0.0`);
  expect(await version.innerText()).not.toContain('or higher');
  await page.getByLabel('Note for the learner').fill('The engine maker raised it.');

  const keep = 'Same answer, other words: memory is kept';
  await one.getByLabel(keep).tap();
  const kept = section(/^Same answer, other words/);
  await expect.poll(() => kept.locator('li').count()).toBe(1);
  expect(await kept.locator('.warn').innerText()).toContain('The numbers differ.');
  await press(page, /^Undo/);
  await expect.poll(() => kept.count()).toBe(0);
  await press(page, /^Redo/);
  // It went to another heading, and the cursor with it.
  await kept.getByLabel(keep).focus();
  await page.keyboard.press('Space');
  await expect.poll(() => kept.count()).toBe(0);

  expect(await page.evaluate(() => document.activeElement?.hasAttribute('data-keep'))).toBe(true);

  // From the list to the field, and the note is still there afterwards.
  await one.getByRole('button', { name: /^Open it/ }).tap();
  await expect
    .poll(() => page.evaluate(() => document.activeElement?.getAttribute('data-path')))
    .toBe('/limits/0/value');
  await open('compare');
  expect(await page.getByLabel('Note for the learner').inputValue()).toBe('The engine maker raised it.');
});

test('either side may be any version; the same on both sides is nothing', async () => {
  await open('compare');
  await page.getByLabel(/^Before/).selectOption('draft');
  await expect.poll(said).toContain('Nothing changed.');
  await page.getByLabel(/^Now/).selectOption({ index: 1 });
  await expect.poll(said).toContain('Answers changed');
  // What is installed cannot be edited from here.
  expect(await page.getByRole('button', { name: /^Open it/ }).count()).toBe(0);
});

test('a revision sheet outlives the page, and puts edition and ticks into the deck in one step', async () => {
  await open('revision');
  expect(await heading(page)).toBe('Revision sheet');
  await page.getByLabel(/^Source/).selectOption('crew');
  await page.getByLabel('Changed paragraphs').fill('2.30, 4.13');
  const lines = page.locator('main fieldset');
  await expect.poll(() => lines.count()).toBeGreaterThan(2);
  const count = await lines.count();
  await lines.nth(0).getByLabel('Still right').check();
  await page.getByLabel('New edition').fill('Revision 8');
  await page.getByLabel('Date of issue').fill('2026-11-20');
  expect(await isNarrow()).toBe(true);
  // Kept before the tab goes.
  await expect.poll(() => page.locator('header.top').textContent()).toContain('Kept on this device');
  await page.reload();
  await expect.poll(() => lines.count()).toBe(count);
  expect(await page.getByLabel('Changed paragraphs').inputValue()).toBe('2.30, 4.13');
  expect(await lines.nth(0).getByLabel('Still right').isChecked()).toBe(true);

  const gone = await lines.nth(1).locator('legend').innerText();
  await lines.nth(1).getByRole('button', { name: /^Gone/ }).tap();
  await expect.poll(() => lines.count()).toBe(count - 1);
  expect(await lines.locator('legend').allInnerTexts()).not.toContain(gone);
  await press(page, /^Undo/);
  await expect.poll(() => lines.count()).toBe(count);

  await press(page, 'Put the new edition into the deck');
  await expect.poll(said).toContain('Done.');
  await open('compare');
  await page.getByLabel(/^Before/).waitFor();
  const head = section(/^Of the deck itself/);
  await expect.poll(() => head.first().innerText()).toContain('Revision 8');
  const words = section(/^Words changed/);
  // All but the one that was ticked, as far as they name their source themselves.
  expect(
    await words
      .locator('li')
      .filter({ hasText: /: edition/ })
      .count(),
  ).toBeGreaterThan(0);
  await open('revision');
  await expect.poll(() => page.getByLabel('Changed paragraphs').inputValue()).toBe('');
  await press(page, /^Undo/);
  await open('compare');
  await expect.poll(said).toContain('Answers changed');
  expect(await said()).not.toContain('Revision 8');
});

test('no script failed', () => {
  expect(device.errors).toEqual([]);
});
