import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { type Running, serve } from '../../scripts/serve.mjs';
import { offlineReady, type Visit, visit } from '../helpers/browser.ts';

let server: Running;
let browser: Visit;

beforeAll(async () => {
  // A server of its own, to be ended: the surest way to have no network.
  server = await serve({ dir: inject('dist') });
  browser = await visit();
});

afterAll(async () => {
  await browser.close();
});

test('after the first load everything works with the server gone', async () => {
  const { page } = browser;
  await page.goto(server.url);
  await offlineReady(page);
  const shown = await page.locator('#app').innerText();
  expect(shown.trim()).not.toBe('');
  await server.close();

  await page.reload();
  await expect.poll(async () => (await page.locator('#app').innerText()).trim()).not.toBe('');
  // The addresses of the manifest's shortcuts.
  for (const go of ['drill', 'decks']) {
    await page.goto(`${server.url}?go=${go}`);
    await expect.poll(async () => (await page.locator('#app').innerText()).trim()).not.toBe('');
  }
  const decks = await page.evaluate(async () => {
    const listing = (await (await fetch('decks/index.json')).json()) as { file: string; bytes: number }[];
    return Promise.all(
      listing.map(async ({ file, bytes }) => ({
        file,
        bytes,
        got: (await (await fetch(`decks/${file}`)).blob()).size,
      })),
    );
  });
  for (const { file, bytes, got } of decks) expect(got, file).toBe(bytes);
  await page.goto(`${server.url}open.html`);
  await expect.poll(() => page.locator('#say').innerText()).toContain('names no deck');
});

test('what was never kept still fails, so the network really is off', async () => {
  const { page } = browser;
  await page.goto(server.url);
  expect(await page.evaluate(() => fetch('robots.txt').then(String, () => 'no network'))).toBe('no network');
});

test('a page that is no part of the app does not answer with the app', async () => {
  const { page } = browser;
  await expect(page.goto(`${server.url}somewhere/else`)).rejects.toThrow(/ERR_/);
});

test('the Workshop is kept once it was opened, all of it, and before that nothing of it', async () => {
  const own = await serve({ dir: inject('dist') });
  const other = await visit();
  try {
    const { page } = other;
    const { workshop } = (await (await fetch(`${own.url}build.json`)).json()) as { workshop: string[] };
    const kept = () =>
      page.evaluate(async (names) => {
        const cache = await caches.open(`recency-rest-${new URL('.', location.href).href}`);
        const paths = (await cache.keys()).map(({ url }) => new URL(url).pathname);
        return names.filter((name) => paths.includes(`/${name}`)).length;
      }, workshop);
    await page.goto(own.url);
    await offlineReady(page);
    expect(workshop.length).toBeGreaterThan(5);
    expect(await kept()).toBe(0);
    await page.getByRole('button', { name: 'I have read this' }).tap();
    await page.goto(`${own.url}#/workshop`);
    await page.getByRole('button', { name: 'A new deck', exact: true }).waitFor();
    await expect.poll(kept, { timeout: 10_000 }).toBe(workshop.length);
    await own.close();
    await page.reload();
    await page.getByRole('button', { name: 'A new deck', exact: true }).tap();
    await page.getByLabel('Title').first().fill('Written without a network');
    await page.goto(page.url().replace(/head$/, 'paste'));
    await page.getByRole('button', { name: 'Read it' }).waitFor();
  } finally {
    await other.close();
    await own.close().catch(() => undefined);
  }
});
