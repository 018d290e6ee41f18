import { rmSync } from 'node:fs';
import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { type Running, serve } from '../../scripts/serve.mjs';
import { answer, firstMinutes, heading, logged, MERROW, type Put, press, shown } from '../helpers/app.ts';
import { type Launched, launch, offlineReady } from '../helpers/browser.ts';

const DAY = 86_400_000;
const TODAY = Date.parse('2026-11-25T17:00:00Z');

let server: Running;
let browser: Launched;

beforeAll(async () => {
  server = await serve({ dir: inject('dist') });
  browser = await launch();
});
afterAll(async () => {
  await browser.close();
  rmSync(browser.userDataDir, { recursive: true, force: true });
  await server.close().catch(() => undefined);
});

test('a first evening, and the next day without a network', async () => {
  const { page, userDataDir } = browser;
  await browser.setClock(TODAY);
  await page.goto(server.url);
  await expect.poll(() => page.locator('main').innerText()).toContain('not for operational use');
  await firstMinutes(page, MERROW);

  // The walk-through of the first five steps, before anything is asked.
  expect(await heading(page)).toBe('Line-up');
  expect(await page.locator('.walk > li').count()).toBeLessThanOrEqual(5);
  expect(await page.locator('.walk > li').count()).toBeGreaterThanOrEqual(3);
  expect(await page.locator('header').first().innerText()).toMatch(/invented/i);

  const met = new Set<Put>();
  for (let i = 0; i < 30 && !(met.has('run') && met.has('number') && met.has('choice')); i++) {
    if ((await shown(page)) === 'read') {
      await press(page, /ask me/);
      continue;
    }
    const kind = await answer(page, i % 4 === 3 ? "Don't know" : 'Sure');
    met.add(kind);
    // Feedback at once: what is right, and where that is written.
    const told = await page.locator('main').innerText();
    expect(told).toMatch(/Right|Wrong|Partly right|Here is the answer/);
    expect(told).toMatch(/Revision \d+/);
    if (kind === 'run') expect(told).toContain('As it is done');
    await press(page, 'Next');
  }
  expect([...met]).toEqual(expect.arrayContaining(['choice', 'number', 'run']));
  if ((await shown(page)) === 'read') await press(page, /ask me/);
  await answer(page, "Don't know");
  await press(page, 'Enough for today');
  await expect.poll(() => heading(page)).toBe('Debrief');
  const debrief = await page.locator('main').innerText();
  expect(debrief).toMatch(/\d+ questions answered/);
  expect(debrief.indexOf('Sure, but wrong')).toBeGreaterThan(-1);
  expect(debrief.indexOf('Sure, but wrong')).toBeLessThan(debrief.indexOf('What comes next'));
  // What was sure and wrong is read where it is named.
  await page.locator('summary', { hasText: 'Read it' }).first().tap();
  await page.locator('details[open] .walk').waitFor();
  const answered = await logged(page, 'answer');
  expect(answered.length).toBeGreaterThanOrEqual(4);
  await offlineReady(page);

  // The phone is closed; tomorrow there is no network at all.
  await browser.close('keep');
  await server.close();
  browser = await launch({ userDataDir });
  await browser.setClock(TODAY + DAY);
  const next = browser.page;
  await next.goto(server.url);
  await expect.poll(() => heading(next)).toBe('Thursday 26 November');
  const brief = await next.locator('main').innerText();
  expect(brief).toContain('11');
  expect(brief).toMatch(/missed last time|sure but wrong/);
  expect((await logged(next, 'answer')).map(({ id }) => id).sort()).toEqual(answered.map(({ id }) => id).sort());

  await press(next, /^Start/);
  const missed = new Set(answered.flatMap(({ marks }) => Object.keys(marks).filter((key) => marks[key] !== 'right')));
  for (let i = 0; i < 6; i++) {
    await answer(next, 'Not sure');
    await press(next, 'Next');
  }
  // What was missed yesterday comes early.
  const old = new Set(answered.map(({ id }) => id));
  const fresh = (await logged(next, 'answer')).filter(({ id }) => !old.has(id));
  expect(fresh).toHaveLength(6);
  expect(fresh.some(({ marks }) => Object.keys(marks).some((key) => missed.has(key)))).toBe(true);
  expect(browser.errors.filter((text) => !/ERR_|Failed to (load|fetch)/.test(text))).toEqual([]);
});
