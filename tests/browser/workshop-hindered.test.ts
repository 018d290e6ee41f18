/** What the Workshop says where the device has no room, or the browser cannot check signatures. */
import type { Page } from 'playwright-core';
import { expect, inject, onTestFinished, test } from 'vitest';
import { makeKey, signingKey } from '../../src/exchange/keys.ts';
import { signDeck } from '../../src/exchange/signature.ts';
import { press } from '../helpers/app.ts';
import { visit } from '../helpers/browser.ts';
import { sound } from '../helpers/sound.ts';
import { box, changeBehind, openAsDraft, storedDraft } from '../helpers/workshop.ts';

const DECK = {
  format: 1,
  id: 'test/hindered',
  version: '1.0.0',
  title: 'A deck',
  language: 'en',
  nature: 'fictional',
  sources: [{ id: 's', title: 'Invented manual', basis: 'invented' }],
  limits: [{ id: 'l', ask: 'How fast?', unit: 'kt', sense: 'at most', value: 250, source: 's' }],
};

const begun = async (): Promise<Page> => {
  const device = await visit();
  onTestFinished(async () => {
    await device.close();
    expect(device.errors).toEqual([]);
  });
  await device.page.goto(inject('baseUrl'));
  await press(device.page, 'I have read this');
  return device.page;
};
/** From now on as on a device that is full. */
const fill = (page: Page) =>
  page.evaluate(() => {
    IDBObjectStore.prototype.put = () => {
      throw new DOMException('full', 'QuotaExceededError');
    };
  });

test('no room to keep both of two drafts: it is said, and what was typed stays', async () => {
  const page = await begun();
  const draft = await openAsDraft(page, DECK);
  await page.goto(`${draft}/limits/0`);
  await box(page, '/limits/0/value').waitFor();
  await changeBehind(page);
  await box(page, '/limits/0/ask').fill('Mine?');
  await page.getByText('This draft was changed in another tab').waitFor();
  await fill(page);
  await press(page, 'Keep mine as a draft of its own');
  await page.getByText(/no room left to keep this.*What you typed is still here/).waitFor();
  expect(page.url()).toBe(`${draft}/limits/0`);
  expect(await box(page, '/limits/0/ask').inputValue()).toBe('Mine?');
});

test('no room to revise another version: it is said', async () => {
  const page = await begun();
  await page.goto(`${inject('baseUrl')}#/decks`);
  const buffer = Buffer.from(JSON.stringify({ ...DECK, version: '2.0.0' }));
  const file = { name: 'x.json', mimeType: 'application/json', buffer };
  await page.locator('input[type=file]').first().setInputFiles(file);
  await press(page, 'Install');
  await press(page, /^No date yet/);
  await page.getByRole('button', { name: /ask me/ }).waitFor();
  const draft = await openAsDraft(page, { ...DECK, title: 'Another title' });
  await page.goto(`${draft}/hand-over`);
  await page.getByRole('button', { name: 'Revise version 2.0.0 instead' }).waitFor();
  await fill(page);
  await press(page, 'Revise version 2.0.0 instead');
  await page.getByRole('alert').filter({ hasText: 'no room left to keep this' }).waitFor();
  await sound(page, 'workshop hand over, no room');
  expect(page.url()).toBe(`${draft}/hand-over`);
});

test('a signed draft is not saved by a browser that cannot check it, unless its signatures are left out', async () => {
  const page = await begun();
  await page.addInitScript(() => {
    SubtleCrypto.prototype.importKey = () => Promise.reject(new DOMException('no', 'NotSupportedError'));
  });
  await page.reload();
  const signer = { role: 'author', name: 'A. Author', date: '2026-11-25' } as const;
  const plain: typeof DECK & { readonly signatures?: readonly string[] } = DECK;
  const draft = await openAsDraft(page, await signDeck(plain, await signingKey(await makeKey()), signer));
  await page.goto(`${draft}/hand-over`);
  await page.getByText('This browser cannot tell whether the signatures still fit').waitFor();
  const text = await page.locator('main').innerText();
  expect(text).toContain('A. Author');
  expect(text).not.toContain('was changed after this was signed');
  const save = page.getByRole('button', { name: 'Save the file' });
  expect(await save.isDisabled()).toBe(true);
  await sound(page, 'workshop hand over, signatures not checked');
  await press(page, 'Leave the signatures out');
  await expect.poll(() => save.isDisabled()).toBe(false);
  await expect.poll(() => storedDraft(page)).not.toHaveProperty('signatures');
  await press(page, /^Undo/);
  await page.getByText('This browser cannot tell whether the signatures still fit').waitFor();
  expect(await save.isDisabled()).toBe(true);
});
