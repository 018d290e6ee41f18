/** What a paced run of the demonstration decks only comes to by its draw: which way by the wind, stop or go, one engine. */
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Visit, visit } from '../helpers/browser.ts';
import { standing } from '../helpers/paced.ts';
import { shoot } from '../helpers/shots.ts';
import { sound } from '../helpers/sound.ts';
import { type GalleryServer, galleryServer } from './gallery/build.ts';
import type { PacedPage } from './paced-page/main.tsx';

let server: GalleryServer;
let browser: Visit;
let page: Page;
beforeAll(async () => {
  server = await galleryServer(join(import.meta.dirname, 'paced-page'));
  browser = await visit();
  page = browser.page;
  await page.goto(server.url);
  await page.waitForFunction(() => 'pacedPage' in window);
});
afterAll(async () => {
  await browser.close();
  await server.close();
});

/** Untimed, so that each state stands still. @returns the run of a seed, begun */
const play = async (deck: string, paced: string, seat: string, seed: number) => {
  await page.evaluate(
    ([of, wish]) =>
      (window as unknown as { pacedPage: PacedPage }).pacedPage.play(
        of,
        { engine: ['tk11'], operator: ['calder'] },
        { ...wish, stretch: 0 },
      ),
    [deck, { paced, seat, seed }] as const,
  );
  await page.getByRole('button', { name: /^Begin the run/ }).tap();
  await page.getByRole('button', { name: 'I do not know' }).waitFor();
};
const given = () => page.evaluate(() => (window as unknown as { pacedPage: PacedPage }).pacedPage.given());
const group = () => page.getByRole('group');
const lines = () => page.locator('.paced-lines').innerText();
/** Gives up what is due until the question of the run is of another kind, or it has ended. */
const giveUpUntil = async (name: string | RegExp) => {
  const unknown = page.getByRole('button', { name: 'I do not know' });
  for (let i = 0; i < 40 && (await page.getByRole('group', { name }).count()) === 0; i++) await unknown.tap();
  await page.getByRole('group', { name }).waitFor();
};
/** Sound, and all of it in sight, upright and across. */
const stands = async (name: string, buttons: number) => {
  await sound(page, `paced, ${name}`);
  const size = page.viewportSize();
  if (size === null) throw new Error('a page without a size');
  for (const one of [size, { width: size.height, height: size.width }]) {
    await page.setViewportSize(one);
    const found = await standing(page);
    await shoot(page, `paced, ${name}-${one.width}`);
    expect(found, `${name}, ${one.width} wide`).toMatchObject({ scrolls: 0, buttons, out: 0, figures: true });
    expect(found.least, `${name}, ${one.width} wide`).toBeGreaterThanOrEqual(44);
  }
  await page.setViewportSize(size);
};

test('a step that the wind decides: which way is asked, by tap or key, and told', async () => {
  await play('merrow-takeoff', 'take-off-in-time', 'PF', 1);
  const stick = page.getByRole('button', { name: /Hold the stick forward/ });
  const unknown = page.getByRole('button', { name: 'I do not know' });
  for (let i = 0; i < 20 && (await stick.count()) === 0; i++) await unknown.tap();
  await stick.tap();
  await page.getByRole('group', { name: 'How?' }).waitFor();
  const options = await page.locator('.paced-buttons button').allInnerTexts();
  expect(options.length).toBeGreaterThanOrEqual(3);
  await stands('which way', options.length);
  // Which is not known can be said here too.
  expect(await unknown.isEnabled()).toBe(true);
  await group().focus();
  await page.keyboard.press('2');
  await page.getByRole('group', { name: 'Your steps, as PF' }).waitFor();
  expect(await lines()).toContain(`You: ${options[1]?.replace(/^\d\s*/, '')}`);
});

test('with letters twice as large all buttons are in sight, and the figures keep their one line', async () => {
  const size = page.viewportSize();
  if (size === null) throw new Error('a page without a size');
  await page.evaluate(() => {
    document.documentElement.style.fontSize = '36px';
  });
  for (const one of [size, { width: size.height, height: size.width }]) {
    await page.setViewportSize(one);
    await play('merrow-takeoff', 'take-off-in-time', 'PF', 1);
    for (let i = 0; i < 12; i++) {
      const found = await standing(page);
      expect(found, `${one.width} wide, ${i}`).toMatchObject({ scrolls: 0, buttons: 6, out: 0, figures: true });
      expect(found.least).toBeGreaterThanOrEqual(44);
      await page.getByRole('button', { name: 'I do not know' }).tap();
    }
    await shoot(page, `paced, large letters-${one.width}`);
    const lines = await page.locator('.paced-figure > .number').evaluateAll((all) => all.map((it) => it.clientHeight));
    expect(Math.max(...lines)).toBeLessThanOrEqual(60);
  }
  await page.evaluate(() => {
    document.documentElement.style.fontSize = '';
  });
  await page.setViewportSize(size);
});

test('an engine fails, and nothing of the procedure says what then: stop or go is asked', async () => {
  await play('merrow-takeoff', 'engine-may-fail', 'PM', 5);
  await giveUpUntil('Stop or go on?');
  expect(await lines()).toContain('One engine inoperative');
  await stands('stop or go', 2);
  await page.getByRole('button', { name: 'Go on' }).tap();
  await page.getByRole('group', { name: 'Your steps, as PM' }).waitFor();
  // It failed beyond V1: the run goes on to its end.
  const unknown = page.getByRole('button', { name: 'I do not know' });
  for (let i = 0; i < 20 && (await page.getByText('The run has ended.').count()) === 0; i++) await unknown.tap();
  await page.waitForFunction(() => (window as unknown as { pacedPage: PacedPage }).pacedPage.given() !== null);
  expect((await given())?.decision).toBe('go');
});

test('an engine fails below V1: with Stop the run ends', async () => {
  await play('merrow-takeoff', 'engine-may-fail', 'PF', 7);
  await giveUpUntil('Stop or go on?');
  await group().focus();
  await page.keyboard.press('1');
  await page.getByText('The run has ended.').waitFor();
  await stands('stopped', 6);
  await page.waitForFunction(() => (window as unknown as { pacedPage: PacedPage }).pacedPage.given() !== null);
  expect((await given())?.decision).toBe('stop');
  expect(browser.errors.filter((text) => !/404/.test(text))).toEqual([]);
});

test('with one engine the steps of the failure are the buttons', async () => {
  await play('merrow-abnormal', 'engine-failure-in-time', 'PF', 1);
  await page.getByRole('group', { name: 'Your steps, as PF' }).waitFor();
  const unknown = page.getByRole('button', { name: 'I do not know' });
  await unknown.tap();
  expect(await lines()).toContain('One engine inoperative');
  await stands('an engine failed', 6);
});
