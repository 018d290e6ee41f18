import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterEach, beforeEach, expect, inject, test } from 'vitest';
import { builtDist } from '../../scripts/lib/dist.mjs';
import { type Running, serve } from '../../scripts/serve.mjs';
import type { BuildReport } from '../../scripts/vite-precache.ts';
import type { UpdateState, Updates } from '../../src/app/update.ts';
import { offlineReady, type Visit, visit } from '../helpers/browser.ts';
import { bundle } from '../helpers/bundle.ts';

type Harness = Window & { readonly updates: Updates; readonly states: UpdateState[]; sinceLoad?: true };

let server: Running;
let browser: Visit;
let next: string;

beforeEach(async () => {
  next = await builtDist('next');
  server = await serve({ dir: inject('dist') });
  const script = await bundle('tests/helpers/update-harness.ts');
  const html = '<!doctype html><title>harness</title><script src="harness.js" defer></script>';
  server.served.extra.set('/harness.js', { body: script, headers: { 'Content-Type': 'text/javascript' } });
  server.served.extra.set('/harness.html', { body: html, headers: { 'Content-Type': 'text/html' } });
  browser = await visit();
});

afterEach(async () => {
  await browser.close();
  await server.close();
});

const version = async (page: Page): Promise<string | null> => {
  await page.goto(server.url);
  return page.locator('meta[name=version]').getAttribute('content');
};

const lookForUpdate = (page: Page): Promise<void> =>
  page.evaluate(async () => {
    await (await navigator.serviceWorker.ready).update();
  });

const state = (page: Page): Promise<UpdateState | undefined> =>
  page.evaluate(() => (window as unknown as Harness).states.at(-1));

const accept = (page: Page): Promise<string> => page.evaluate(() => (window as unknown as Harness).updates.accept());

const setBusy = (page: Page, busy: boolean): Promise<void> =>
  page.evaluate((now) => (window as unknown as Harness).updates.setBusy(now), busy);

/** A mark that a reload takes away. */
const mark = (page: Page): Promise<void> =>
  page.evaluate(() => {
    (window as unknown as Harness).sinceLoad = true;
  });
const isMarked = (page: Page): Promise<boolean> =>
  page.evaluate(() => (window as unknown as Harness).sinceLoad === true).catch(() => true);

test('a new version waits, asks the other tabs, and takes over all of them at once', async () => {
  const one = browser.page;
  const old = await version(one);
  await offlineReady(one);
  await one.goto(`${server.url}harness.html`);
  await expect.poll(() => state(one)).toEqual({ waiting: false, offlineReady: true, stale: false });
  const two = await browser.context.newPage();
  await two.goto(`${server.url}harness.html`);
  expect(await accept(one)).toBe('none');

  server.served.dir = next;
  await lookForUpdate(one);
  for (const page of [one, two]) {
    await expect.poll(() => state(page)).toMatchObject({ waiting: true });
    await mark(page);
  }
  // Found, not applied: a start still shows the version that is there.
  const three = await browser.context.newPage();
  expect(await version(three)).toBe(old);
  await three.close();

  await setBusy(two, true);
  expect(await accept(one)).toBe('busy-elsewhere');
  await setBusy(one, true);
  expect(await accept(one)).toBe('busy-here');
  expect([await isMarked(one), await isMarked(two)]).toEqual([true, true]);

  await setBusy(one, false);
  await setBusy(two, false);
  expect(await accept(one)).toBe('reloading');
  for (const page of [one, two]) await expect.poll(() => isMarked(page)).toBe(false);
  expect(await version(one)).toBe(`${old}+next`);
  await offlineReady(one);

  // The new version is kept whole, and nothing of the old one.
  const lists = JSON.parse(readFileSync(`${next}/build.json`, 'utf8')) as BuildReport;
  const kept = await one.evaluate(async () => {
    const caught = await Promise.all((await caches.keys()).map(async (name) => (await caches.open(name)).keys()));
    return caught.flat().map((request) => new URL(request.url).pathname.slice(1));
  });
  expect(kept.sort()).toEqual([...lists.first, ...lists.rest].sort());
  await server.close();
  expect(await version(one)).toBe(`${old}+next`);
});

test('a drill that began in the meantime goes on and is told that its page is old', async () => {
  const one = browser.page;
  await one.goto(`${server.url}harness.html`);
  await expect.poll(() => state(one)).toMatchObject({ offlineReady: true });
  server.served.dir = next;
  await lookForUpdate(one);
  await expect.poll(() => state(one)).toMatchObject({ waiting: true });
  await mark(one);
  await setBusy(one, true);
  // As if accepted in a tab that did not hear us in time.
  await one.evaluate(async () => (await navigator.serviceWorker.ready).waiting?.postMessage({ type: 'SKIP_WAITING' }));
  await expect.poll(() => state(one)).toMatchObject({ waiting: false, stale: true });
  expect(await isMarked(one)).toBe(true);
});
