import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { firstMinutes, heading, logged, MERROW, press, unfold } from '../helpers/app.ts';
import { type Visit, visit } from '../helpers/browser.ts';
import { standing } from '../helpers/paced.ts';
import { shoot } from '../helpers/shots.ts';
import { sound } from '../helpers/sound.ts';

let browser: Visit;
let page: Page;
beforeAll(async () => {
  browser = await visit();
  page = browser.page;
  await page.goto(inject('baseUrl'));
  await firstMinutes(page, MERROW);
});
afterAll(() => browser.close());

const DECK = `#/deck/${encodeURIComponent('recency/merrow-takeoff')}`;
const to = (hash: string) => page.goto(`${inject('baseUrl')}${hash}`);
const run = () => page.locator('a.deck-link[href^="#/paced/"]');
const answers = async () =>
  (await logged(page, 'answer')).filter((line) => (line as { form?: string }).form === 'paced');
const figures = () => page.locator('.paced-figure strong').allInnerTexts();
const seconds = async () => Number.parseInt(await page.locator('.paced-runway .soft').innerText(), 10);

/** As a phone does when another app is looked at, and when the learner comes back. */
const look = (state: 'hidden' | 'visible') =>
  page.evaluate((now) => {
    Object.defineProperty(document, 'visibilityState', { configurable: true, get: () => now });
    document.dispatchEvent(new Event('visibilitychange'));
  }, state);

const places = () =>
  page
    .locator('.paced-figures, .paced-runway, .paced-lines, .bar button')
    .evaluateAll((all) => all.map((one) => JSON.stringify(one.getBoundingClientRect())));

test('off for new learners; switched on, it stands on the page of its deck', async () => {
  await to(DECK);
  await page.getByRole('heading', { level: 1 }).waitFor();
  expect(await run().count()).toBe(0);
  await to('#/settings');
  await unfold(page, 'Invented aeroplane');
  await page.getByLabel('Paced run').tap();
  await page.locator('label', { hasText: 'Paced run' }).locator('input:checked').waitFor();
  await to(DECK);
  await run().first().waitFor();
});

test('what was never read is read first', async () => {
  await run().first().tap();
  await page.getByText('Read these first').waitFor();
  await sound(page, 'paced, to be read first');
  expect(await page.getByRole('button', { name: 'Begin' }).count()).toBe(0);
  for (let left = await page.getByRole('button', { name: /^Read it/ }).count(); left > 0; left--) {
    expect(await page.getByRole('button', { name: /^Read it/ }).count()).toBe(left);
    await page
      .getByRole('button', { name: /^Read it/ })
      .first()
      .tap();
    await press(page, 'I have read this');
    await page.getByRole('button', { name: /^I have read this$/ }).waitFor({ state: 'detached' });
  }
  await page.getByRole('button', { name: 'Begin' }).waitFor();
  // No voice here: what is called is shown.
  await page.getByText('no voice of its own').waitFor();
  // How fast stands above the bar.
  const [field, begin] = await page.evaluate(() =>
    ['select', '.bar'].map((one) => document.querySelector(one)?.getBoundingClientRect().toJSON()),
  );
  expect(field.bottom).toBeLessThanOrEqual(begin.top);
  await sound(page, 'paced, to begin');
});

test('untimed it waits for each own step; nothing known, every own step is told, and it is one answer of the log', async () => {
  await page.getByLabel('PM', { exact: true }).check();
  await page.getByLabel('How fast').selectOption({ label: 'Untimed: it stops at each of your steps' });
  await press(page, 'Begin');
  await sound(page, 'paced, the scene');
  expect(await page.locator('main').innerText()).toContain(
    'Captain: named by post, and played for you in either seat.',
  );
  await press(page, /^Begin the run/);
  const unknown = page.getByRole('button', { name: 'I do not know' });
  await unknown.waitFor();
  await sound(page, 'paced, untimed');
  // One list: a number takes little of its line, and no word is broken in two.
  const buttons = page.locator('.paced-buttons button');
  const boxes = await buttons.evaluateAll((all) => all.map((one) => one.getBoundingClientRect()));
  expect(boxes).toHaveLength(6);
  expect(new Set(boxes.map(({ left, right }) => `${left} ${right}`)).size).toBe(1);
  expect(Math.min(...boxes.map(({ height }) => height))).toBeGreaterThanOrEqual(44);
  const numbers = await page
    .locator('.paced-buttons .paced-key')
    .evaluateAll((all) => all.map((one) => one.clientWidth));
  expect(numbers).toHaveLength(6);
  expect(Math.max(...numbers)).toBeLessThanOrEqual(44);
  const broken = await buttons.evaluateAll(
    (all) =>
      all.filter((one) => {
        const words = one.lastElementChild?.firstChild as Text;
        return [...words.data.matchAll(/\S+/g)].some(({ 0: word, index }) => {
          const range = document.createRange();
          range.setStart(words, index);
          range.setEnd(words, index + word.length);
          // A word with a hyphen may go on in the next line.
          return !word.includes('-') && range.getClientRects().length > 1;
        });
      }).length,
  );
  expect(broken).toBe(0);
  const before = await figures();
  // With letters twice as large the buttons lie over no figure.
  const letters = async (size: string) => {
    await press(page, 'Pause');
    await page.evaluate((px) => {
      document.documentElement.style.fontSize = px;
    }, size);
    await page.locator('.foot').getByRole('button', { name: 'Go on' }).tap();
    await unknown.waitFor();
  };
  await letters('36px');
  const [figure, bar] = await page.evaluate(() =>
    ['.paced-figures', '.foot'].map((one) => document.querySelector(one)?.getBoundingClientRect().toJSON()),
  );
  expect(figure.bottom).toBeLessThanOrEqual(bar.top);
  await letters('');
  await page.waitForTimeout(600);
  expect(await figures()).toEqual(before);
  const size = page.viewportSize();
  if (size === null) throw new Error('a page without a size');
  for (const one of [size, { width: size.height, height: size.width }]) {
    await page.setViewportSize(one);
    const found = await standing(page);
    await shoot(page, `paced-${one.width}`);
    const name = `${one.width} wide`;
    expect(found, name).toMatchObject({ scrolls: 0, buttons: 6, out: 0, figures: true });
    expect(found.least, name).toBeGreaterThanOrEqual(44);
    expect(found.room, name).toBeGreaterThanOrEqual(120);
    // Two calls at the least.
    expect(found.calls, name).toBeGreaterThanOrEqual(48);
  }
  await page.setViewportSize(size);
  // The run may end at any of them, and the button with it.
  const givesUp = () =>
    page.evaluate(() => {
      const all = [...document.querySelectorAll<HTMLButtonElement>('.paced-thumb button')];
      const one = all.find(({ textContent }) => textContent === 'I do not know');
      if (one?.disabled === false) one.click();
      return one !== undefined;
    });
  for (let i = 0; i < 200 && (await givesUp()); i++) await page.waitForTimeout(20);
  await page.getByRole('heading', { name: 'How it went' }).waitFor();
  await sound(page, 'paced, told');
  const [told] = await answers();
  const marks = Object.values(told?.marks ?? {});
  expect(marks.length).toBeGreaterThan(5);
  expect(new Set(marks)).toEqual(new Set(['told']));
  await page.getByText(/^0 of \d+ steps/).waitFor();
  // It stood still at each cue: no seconds, no line of time.
  expect(await page.locator('.paced-table').innerText()).not.toMatch(/\d\ss\b|\d:\d/);
  expect(await page.locator('.top').innerText()).toContain('Untimed');
  expect(await page.locator('.paced-line').count()).toBe(0);
});

test('a run goes on only while it is seen; ended early it tells what came, and may be taken back', async () => {
  await press(page, 'Once more');
  await page.getByLabel('PF', { exact: true }).check();
  await page.getByLabel('How fast').selectOption({ label: 'As it is' });
  await press(page, 'Begin');
  await press(page, /^Begin the run/);
  await page.waitForFunction(
    () => Number.parseInt(document.querySelector('.paced-runway .soft')?.textContent ?? '0', 10) >= 1,
  );
  await look('hidden');
  await page.getByText('Paused: the run stands still.').waitFor();
  const at = await seconds();
  await page.waitForTimeout(1500);
  await look('visible');
  // It stays so until the learner goes on.
  expect(await seconds()).toBe(at);
  await sound(page, 'paced, paused');
  await page.locator('.foot').getByRole('button', { name: 'Go on' }).tap();
  // Keys do what taps do.
  await page.locator('fieldset.bar').focus();
  const kept = await places();
  await page.keyboard.press('1');
  expect(await page.locator('.paced-lines li').first().innerText()).toContain('You');
  expect(await places()).toEqual(kept);
  await press(page, 'Pause');
  await press(page, 'End the run here');
  await page.getByRole('heading', { name: 'How it went' }).waitFor();
  expect(await heading(page)).toBe('How it went');
  if ((await answers()).length === 2) {
    await press(page, 'Do not count this run');
    await page.getByText('This run does not count.').waitFor();
    expect((await logged(page, 'void')).map(({ of }) => of)).toEqual([(await answers())[1]?.id]);
  } else await page.getByText('nothing is stored').waitFor();
  expect(browser.errors).toEqual([]);
});
