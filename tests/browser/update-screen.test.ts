import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { builtDist } from '../../scripts/lib/dist.mjs';
import { type Running, serve } from '../../scripts/serve.mjs';
import { firstMinutes, logLines, press, shown } from '../helpers/app.ts';
import { offlineReady, type Visit, visit } from '../helpers/browser.ts';
import { sound } from '../helpers/sound.ts';

let server: Running;
let browser: Visit;
let next: string;
beforeAll(async () => {
  next = await builtDist('next');
  server = await serve({ dir: inject('dist') });
  browser = await visit();
});
afterAll(async () => {
  await browser.close();
  await server.close();
});

test('a new version is offered between drills, and nothing that was answered is lost', async () => {
  const { page } = browser;
  await page.goto(server.url);
  await firstMinutes(page, { deck: /Wind and altimetry/ });
  await offlineReady(page);
  const version = () => page.locator('meta[name=version]').getAttribute('content');
  const old = await version();
  const before = (await logLines(page)).sort();

  server.served.dir = next;
  await page.evaluate(async () => (await navigator.serviceWorker.ready).update());
  // In mid-drill nobody is asked.
  expect(await shown(page)).toBe('read');
  expect(await page.locator('main').innerText()).not.toContain('new version');
  await press(page, 'Leave');
  await page.getByText('A new version of the app is here').waitFor();
  await sound(page, 'brief, new version');
  await press(page, 'Use the new version');
  await expect.poll(version).toBe(`${old}+next`);
  await page.getByRole('button', { name: /^Go on/ }).waitFor();
  expect((await logLines(page)).sort()).toEqual(before);
});
