import { readdirSync, rmSync, statSync, truncateSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { expect, inject, onTestFinished, test } from 'vitest';
import { answer, firstMinutes, heading, logged, press, WIND } from '../helpers/app.ts';
import { launch, visit } from '../helpers/browser.ts';
import { sound } from '../helpers/sound.ts';

/** What the journal holds: all its files, one behind the other. */
const journal = (page: Page): Promise<string> =>
  page.evaluate(async () => {
    let text = '';
    const read = async (folder: FileSystemDirectoryHandle): Promise<void> => {
      for await (const one of folder.values())
        if (one.kind === 'directory') await read(one as FileSystemDirectoryHandle);
        else text += await (await (one as FileSystemFileHandle).getFile()).text();
    };
    await read(await navigator.storage.getDirectory());
    return text;
  });

/** A learner with a deck and one answer, back on the Brief. */
const withAnAnswer = async (page: Page): Promise<void> => {
  await page.goto(inject('baseUrl'));
  await firstMinutes(page, WIND);
  await press(page, /ask me/);
  await answer(page, 'Sure');
  await press(page, 'Enough for today');
  await press(page, 'To the Brief');
  // The second place follows by itself.
  const [answered] = await logged(page, 'answer');
  expect(answered).toBeDefined();
  await expect.poll(() => journal(page)).toContain(answered?.id);
};

/** From a page of the same origin that keeps nothing open. */
const deleteData = async (page: Page, what: { readonly database: boolean; readonly files: boolean }): Promise<void> => {
  await page.goto(`${inject('baseUrl')}open.html`);
  await page.evaluate(async ({ database, files }) => {
    if (database)
      await new Promise<void>((done, failed) => {
        const deleting = indexedDB.deleteDatabase('recency');
        deleting.onsuccess = () => done();
        deleting.onerror = () => failed(deleting.error);
      });
    const root = await navigator.storage.getDirectory();
    if (files) for await (const name of root.keys()) await root.removeEntry(name, { recursive: true });
  }, what);
};

test('a database that is gone comes back from the journal, and the learner is told', async () => {
  const { page, close } = await visit();
  onTestFinished(close);
  await withAnAnswer(page);
  const before = await logged(page, 'answer');
  await deleteData(page, { database: true, files: false });
  await page.goto(inject('baseUrl'));
  await press(page, 'I have read this');
  await expect.poll(() => page.locator('main').innerText()).toContain('came back from the second copy');
  await sound(page, 'brief, brought back');
  expect(await logged(page, 'answer')).toEqual(before);
  expect(await page.locator('main').innerText()).toContain('days to your check');
  // Told once: the next start is an ordinary one.
  await page.reload();
  await expect.poll(() => page.getByRole('button', { name: /^Start/ }).count()).toBe(1);
  expect(await page.locator('main').innerText()).not.toContain('came back');
});

test('where the journal is gone too the start is not a silent one', async () => {
  const { page, close } = await visit();
  onTestFinished(close);
  await withAnAnswer(page);
  await deleteData(page, { database: true, files: true });
  await page.goto(inject('baseUrl'));
  await press(page, 'I have read this');
  await expect.poll(() => page.locator('main').innerText()).toContain('has lost what was stored here');
  await sound(page, 'lost');
  // What is to be done first stands out, and it alone.
  expect(await page.locator('main .main').allInnerTexts()).toEqual(['Open a saved copy']);
  await press(page, 'Open a saved copy');
  expect(await heading(page)).toBe('Settings');
});

test('a torn record in the profile: the browser drops the database, the journal has all of it', async () => {
  let browser = await launch();
  const { page, userDataDir } = browser;
  onTestFinished(async () => {
    await browser.close();
    rmSync(userDataDir, { recursive: true, force: true });
  });
  await withAnAnswer(page);
  const before = await logged(page, 'answer');
  await browser.close('keep');
  // As a kill in mid-write leaves it: the last bytes of the newest write-ahead log are missing, twice over.
  const cut = (): number => {
    const root = join(userDataDir, 'Default', 'IndexedDB');
    let files = 0;
    for (const folder of readdirSync(root).filter((name) => name.endsWith('.leveldb')))
      for (const file of readdirSync(join(root, folder)).filter((name) => /^\d+\.log$/.test(name))) {
        const path = join(root, folder, file);
        const { size } = statSync(path);
        if (size > 5) {
          truncateSync(path, size - 5);
          files += 1;
        }
      }
    return files;
  };
  expect(cut()).toBeGreaterThan(0);
  // The first start may still take the torn end for the whole; the second finds it damaged.
  for (let start = 0; start < 2; start++) {
    browser = await launch({ userDataDir });
    await browser.page.goto(inject('baseUrl'));
    await browser.page.locator('h1').first().waitFor();
    await browser.page.waitForTimeout(500);
    if (start === 0) await browser.close('keep');
  }
  const later = browser.page;
  const understood = later.getByRole('button', { name: 'I have read this' });
  await later
    .getByRole('button', { name: /^(Start|I have read this)/ })
    .first()
    .waitFor();
  if (await understood.count()) await understood.tap();
  await expect.poll(() => later.getByRole('button', { name: /^Start/ }).count()).toBe(1);
  // Whichever way the browser took: nothing is missing once the start is through and journal and database were compared.
  await expect
    .poll(async () => (await logged(later, 'answer')).map(({ id }) => id))
    .toEqual(before.map(({ id }) => id));
});
