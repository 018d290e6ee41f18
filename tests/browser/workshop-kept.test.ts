import { rmSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { expect, inject, onTestFinished, test } from 'vitest';
import { valueAt } from '../../src/draft/change.ts';
import type { Json } from '../../src/lib/canonical-json.ts';
import { press } from '../helpers/app.ts';
import { launch, type Visit, visit } from '../helpers/browser.ts';
import { box, changeBehind, openAsDraft, storedDraft } from '../helpers/workshop.ts';

const DECK = {
  format: 1,
  id: 'test/kept',
  version: '1.0.0',
  title: 'A deck',
  language: 'en',
  nature: 'fictional',
  sources: [{ id: 's', title: 'Invented manual', basis: 'invented' }],
  limits: [{ id: 'l', ask: 'How fast?', unit: 'kt', sense: 'at most', value: 250, source: 's' }],
};

const at = async (page: Page, path: string): Promise<Json | undefined> => valueAt(await storedDraft(page), path);
const main = (page: Page): Promise<string> => page.locator('main').innerText();
const begun = async (): Promise<Visit> => {
  const device = await visit();
  onTestFinished(async () => {
    await device.close();
    expect(device.errors).toEqual([]);
  });
  await device.page.goto(inject('baseUrl'));
  await press(device.page, 'I have read this');
  return device;
};

test('a draft outlives the kill of the browser, and so does what can be taken back', async () => {
  let browser = await launch();
  const { userDataDir } = browser;
  onTestFinished(async () => {
    await browser.close();
    rmSync(userDataDir, { recursive: true, force: true });
  });
  const { page } = browser;
  await page.goto(inject('baseUrl'));
  await press(page, 'I have read this');
  const draft = await openAsDraft(page, DECK);
  await page.goto(`${draft}/limits/0`);
  await box(page, '/limits/0/ask').pressSequentially(' And when?');
  await box(page, '/limits/0/value').fill('about 40');
  // What the screen calls kept is on the disk.
  await page.getByText('Kept on this device').waitFor();
  await browser.killHard();

  browser = await launch({ userDataDir });
  const later = browser.page;
  await later.goto(`${draft}/limits/0`);
  expect(await box(later, '/limits/0/value').inputValue()).toBe('about 40');
  expect(await box(later, '/limits/0/ask').inputValue()).toBe('How fast? And when?');
  await press(later, /^Undo/);
  await expect.poll(() => box(later, '/limits/0/value').inputValue()).toBe('250');
  await press(later, /^Undo/);
  await expect.poll(() => box(later, '/limits/0/ask').inputValue()).toBe('How fast?');
  await press(later, /^Redo/);
  await expect.poll(() => at(later, '/limits/0')).toMatchObject({ ask: 'How fast? And when?', value: 250 });
});

test('in a second tab a draft is open elsewhere until it takes over; then the first overwrites nothing', async () => {
  const { page, context } = await begun();
  const draft = await openAsDraft(page, DECK);
  await page.goto(`${draft}/limits/0`);
  await box(page, '/limits/0/ask').fill('Asked in the first tab?');
  await expect.poll(() => at(page, '/limits/0/ask')).toBe('Asked in the first tab?');

  const second = await context.newPage();
  await second.goto(`${draft}/limits/0`);
  await second.getByRole('heading', { name: 'Open elsewhere' }).waitFor();
  await press(second, 'Continue here');
  await box(second, '/limits/0/ask').fill('Asked in the second tab?');
  await expect.poll(() => at(second, '/limits/0/ask')).toBe('Asked in the second tab?');

  await page.bringToFront();
  await page.getByRole('heading', { name: 'Open elsewhere' }).waitFor();
  await press(page, 'Continue here');
  expect(await box(page, '/limits/0/ask').inputValue()).toBe('Asked in the second tab?');
  await second.getByRole('heading', { name: 'Open elsewhere' }).waitFor();
});

test('where another place was faster, both are kept: what is here becomes a draft of its own', async () => {
  const { page } = await begun();
  const draft = await openAsDraft(page, DECK);
  await page.goto(`${draft}/limits/0`);
  await box(page, '/limits/0/value').waitFor();
  await changeBehind(page);
  await box(page, '/limits/0/ask').fill('Mine?');
  await page.getByText('This draft was changed in another tab').waitFor();
  await box(page, '/limits/0/value').fill('12');
  expect(await at(page, '/limits/0')).toMatchObject({ ask: 'How fast?', value: 250 });
  await press(page, 'Keep mine as a draft of its own');
  await expect.poll(() => page.url()).not.toContain(draft);
  await expect.poll(() => at(page, '/limits/0')).toMatchObject({ ask: 'Mine?', value: 12 });
  await page.getByText('Kept on this device').waitFor();
  await press(page, /^Undo/);
  await expect.poll(() => at(page, '/limits/0')).toMatchObject({ ask: 'Mine?', value: 250 });
  await page.goto(`${draft}/limits/0`);
  await expect.poll(() => box(page, '/limits/0/ask').inputValue()).toBe('How fast?');
  await page.goto(`${inject('baseUrl')}#/workshop`);
  await expect.poll(() => page.getByRole('link', { name: 'A deck', exact: true }).count()).toBe(2);
});

test('what is typed into a field for numbers is cleared by no way to another page, nor by a new start', async () => {
  const { page } = await begun();
  const draft = await openAsDraft(page, DECK);
  await page.goto(`${draft}/limits/0`);
  const value = box(page, '/limits/0/value');
  await value.fill('abc');
  await page.getByText('is no number').waitFor();
  await press(page, 'The whole deck');
  await page.getByRole('link', { name: /^Must be mended/ }).waitFor();
  await page.goBack();
  await expect.poll(() => value.inputValue()).toBe('abc');
  await page.reload();
  await expect.poll(() => value.inputValue()).toBe('abc');
  await page.getByText('is no number').waitFor();
  await press(page, /^Undo/);
  await expect.poll(() => value.inputValue()).toBe('250');
});

test('a version that was installed while a draft was written is told, and what it changed is shown', async () => {
  const { page } = await begun();
  const take = async (deck: object, how: 'Install' | 'Replace'): Promise<void> => {
    await page.goto(`${inject('baseUrl')}#/decks`);
    const buffer = Buffer.from(JSON.stringify(deck));
    await page
      .locator('input[type=file]')
      .first()
      .setInputFiles({ name: 'x.json', mimeType: 'application/json', buffer });
    await press(page, how);
  };
  await take(DECK, 'Install');
  await press(page, /^No date yet/);
  await page.getByRole('button', { name: /ask me/ }).waitFor();
  await page.goto(`${inject('baseUrl')}#/workshop`);
  await press(page, 'A deck, version 1.0.0');
  await page.waitForURL(/#\/workshop\/\w+$/);
  const draft = page.url();
  await page.goto(`${draft}/limits/0`);
  await box(page, '/limits/0/value').fill('240');
  await page.goto(draft);
  await page.getByText('Version 1.0.0', { exact: false }).first().waitFor();
  expect(await main(page)).not.toContain('was installed since');

  await take({ ...DECK, version: '1.1.0', limits: [{ ...DECK.limits[0], value: 230 }] }, 'Replace');
  await page.waitForURL(/#\/(amendment.*)?$/);
  await page.goto(draft);
  await page.getByText('Version 1.1.0 was installed since this draft began').waitFor();
  await press(page, 'compare');
  await expect.poll(() => main(page)).toContain('Answers changed');
  expect(
    await page
      .getByLabel(/^Before/)
      .locator('option:checked')
      .innerText(),
  ).toContain('Version 1.1.0');
  expect(await page.locator('del').allInnerTexts()).toEqual([expect.stringContaining('230')]);
  expect(await page.locator('ins').allInnerTexts()).toEqual([expect.stringContaining('240')]);
  // And the draft must rise above it, once its author says that it is to take its place.
  await page.goto(`${draft}/hand-over`);
  await page.getByText('This draft was begun from version 1.0.0. Version 1.1.0 was installed since.').waitFor();
  await page.getByLabel(/^I have compared them/).check();
  await press(page, 'Set version 2.0.0');
});

test('a draft that was removed stays away, before its second copy is written and after', async () => {
  const { page } = await begun();
  /** Files of the second copy, outside the database. */
  const copies = () =>
    page.evaluate(async () => {
      const folder = await (await navigator.storage.getDirectory()).getDirectoryHandle('drafts', { create: true });
      const names: string[] = [];
      for await (const name of (folder as unknown as { keys(): AsyncIterable<string> }).keys()) names.push(name);
      return names.filter((name) => name.endsWith('.json')).length;
    });
  for (const isCopied of [false, true]) {
    await openAsDraft(page, DECK);
    if (isCopied) await expect.poll(copies, { timeout: 5000 }).toBe(1);
    await page.goto(`${inject('baseUrl')}#/workshop`);
    await page.getByRole('button', { name: /^Remove the draft/ }).tap();
    await press(page, 'Remove it for good');
    await page.getByRole('button', { name: /^Remove the draft/ }).waitFor({ state: 'detached' });
    await page.reload();
    await page.getByRole('button', { name: 'A new deck from a list or table' }).waitFor();
    expect(await page.getByRole('button', { name: /^Remove the draft/ }).count()).toBe(0);
    expect(await copies()).toBe(0);
  }
});
