import { text as readAll } from 'node:stream/consumers';
import type { Locator, Page } from 'playwright-core';
import { afterEach, beforeEach, expect, inject, test } from 'vitest';
import { valueAt } from '../../src/draft/change.ts';
import { verifyDeck } from '../../src/exchange/signature.ts';
import type { Json } from '../../src/lib/canonical-json.ts';
import { heading, press } from '../helpers/app.ts';
import { type Visit, visit } from '../helpers/browser.ts';
import { adder, box, dragStep, focusedPlace, storedDraft } from '../helpers/workshop.ts';

let browser: Visit;
let page: Page;
beforeEach(async () => {
  browser = await visit();
  page = browser.page;
  await page.goto(inject('baseUrl'));
  await press(page, 'I have read this');
});
afterEach(async () => {
  const { errors } = browser;
  await browser.close();
  expect(errors).toEqual([]);
});

const main = (): Promise<string> => page.locator('main').innerText();
const at = async (path: string): Promise<Json | undefined> => valueAt(await storedDraft(page), path);
const acts = async (): Promise<unknown> =>
  ((await at('/procedures/0/steps')) as readonly Json[]).map((step) => valueAt(step, '/do') ?? valueAt(step, '/say'));
/** Presses what adds to a list; the cursor goes into what came. */
const add = async (path: string): Promise<void> => {
  await adder(page, path).click();
  await expect.poll(() => focusedPlace(page)).toMatch(new RegExp(`^${path}/`));
};
const step = (path: string): Locator => page.locator(`[data-step="/procedures/0/steps/${path}"]`);
const status = (): Promise<string> =>
  page.getByRole('region', { name: 'What the checker says' }).getByRole('status').first().innerText();
const contents = (name: string): Locator =>
  page.getByRole('navigation', { name: 'Contents of the deck' }).getByRole('link', { name });

test('by mouse: a deck is written, mended, taken back and done again, tried, signed, saved and practised', async () => {
  await page.setViewportSize({ width: 1280, height: 800 });
  await page.getByRole('link', { name: /Workshop/ }).click();
  await page.getByRole('button', { name: 'A new deck', exact: true }).click();
  await box(page, '/title').fill('A deck by mouse');
  await box(page, '/id').fill('calder/by-mouse');
  await contents('Sources').click();
  await add('/sources');
  await page.keyboard.type('Invented manual');

  await add('/procedures');
  await box(page, '/procedures/0/title').fill('Going round');
  await box(page, '/procedures/0/source').selectOption({ index: 1 });
  const quick = page.getByLabel('Step after step');
  for (const words of ['PM: Gear UP', 'PF: Thrust levers TOGA', 'PM: "Positive climb"']) {
    await quick.fill(words);
    await quick.press('Enter');
  }
  await expect.poll(acts).toEqual(['Gear UP', 'Thrust levers TOGA', 'Positive climb']);
  await dragStep(page, '/procedures/0/steps/0', step('2'), 'lower');
  await expect.poll(acts).toEqual(['Thrust levers TOGA', 'Positive climb', 'Gear UP']);

  // Typed in one go while its title, which is the page's, is drawn again and again: the cursor must stay.
  await add('/limits');
  await page.keyboard.type('Lowest height for the turn');
  await expect.poll(() => at('/limits/0/ask')).toBe('Lowest height for the turn');
  await box(page, '/limits/0/value').fill('four hundred');
  await box(page, '/limits/0/unit').selectOption('ft');
  await box(page, '/limits/0/source').selectOption({ index: 1 });

  await add('/scenarios');
  await box(page, '/scenarios/0/situation').fill('Wind across: {value} kt.');
  await add('/scenarios/0/draw');
  await box(page, '/scenarios/0/draw/value/from').fill('0');
  await box(page, '/scenarios/0/draw/value/to').fill('40');
  await add('/scenarios/0/asks');
  await page.getByLabel('A choice').check();
  await box(page, '/scenarios/0/asks/0/ask').fill('What now?');
  const choose = '/scenarios/0/asks/0/choose';
  for (const [i, words] of ['Land', 'Go round'].entries()) {
    await add(`${choose}/options`);
    await page.keyboard.type(words);
    await page.keyboard.press('Tab');
    await expect.poll(async () => Object.values((await at(`${choose}/options`)) as object)[i]).toBe(words);
  }
  await add(`${choose}/rules`);
  await box(page, `${choose}/rules/0/if`).fill('wind > 25');
  await box(page, `${choose}/rules/0/then/0`).selectOption('go-round');
  await add(`${choose}/rules`);
  await box(page, `${choose}/rules/1/then/0`).selectOption('land');
  await box(page, '/scenarios/0/source').selectOption({ index: 1 });

  // Two faults, each mended where it leads to.
  await page.getByRole('link', { name: 'The whole deck' }).click();
  await expect.poll(status).toBe('2 to mend.');
  await page.getByRole('link', { name: /A number is needed here/ }).click();
  await expect.poll(() => focusedPlace(page)).toBe('/limits/0/value');
  await page.keyboard.press('Control+A');
  await page.keyboard.type('400');
  await page.getByRole('link', { name: 'The whole deck' }).click();
  await page.getByRole('link', { name: /nothing here is called/ }).click();
  await expect.poll(() => focusedPlace(page)).toBe(`${choose}/rules/0/if`);
  await page.keyboard.press('Control+A');
  await page.keyboard.type('value > 25');
  await page.getByRole('link', { name: 'The whole deck' }).click();
  await expect.poll(status).toBe('2 hints.');

  // Each leads to where something was taken back or done again.
  const rule = () => at(`${choose}/rules/0/if`);
  await page.getByRole('button', { name: /^Undo/ }).click();
  await expect.poll(rule).toBe('wind > 25');
  await expect.poll(() => box(page, `${choose}/rules/0/if`).inputValue()).toBe('wind > 25');
  await page.keyboard.press('Control+z');
  await expect.poll(() => at('/limits/0/value')).toBe('four hundred');
  await expect.poll(() => box(page, '/limits/0/value').inputValue()).toBe('four hundred');
  await page.keyboard.press('Control+Shift+Z');
  await expect.poll(() => at('/limits/0/value')).toBe(400);
  await page.getByRole('button', { name: /^Redo/ }).click();
  await expect.poll(rule).toBe('value > 25');
  await page.getByRole('link', { name: 'The whole deck' }).click();
  await expect.poll(status).toBe('2 hints.');

  await page.getByRole('link', { name: 'Try it as a learner would' }).click();
  await page.getByLabel('What to try').selectOption({ label: 'Lowest height for the turn' });
  await page.locator('.number-field input').fill('400');
  await page.getByRole('button', { name: 'Sure', exact: true }).click();
  await page.getByRole('button', { name: 'Next question' }).waitFor();

  await page.getByRole('link', { name: 'The whole deck' }).click();
  await page.getByRole('link', { name: 'Hand over' }).click();
  await page.getByLabel(/Passphrase/).fill('lined up and waiting');
  await page.getByLabel(/^The same again/).fill('lined up and waiting');
  await page.getByRole('button', { name: 'Make a key and save its file' }).click();
  await page.getByLabel(/^Your name/).fill('A. Author');
  await page.getByRole('button', { name: 'Sign as author' }).click();
  await page.getByText('Author: A. Author').waitFor();
  const save = page.getByRole('button', { name: 'Save the file' });
  await expect.poll(() => save.isEnabled()).toBe(true);
  const [saved] = await Promise.all([page.waitForEvent('download'), save.click()]);
  expect(saved.suggestedFilename()).toBe('by-mouse-0.1.0.deck.json');
  expect(await verifyDeck(await readAll(await saved.createReadStream()))).toMatchObject([
    { name: 'A. Author', role: 'author', valid: true },
  ]);
  await page.getByRole('button', { name: 'Practise it here' }).click();
  await page.getByRole('button', { name: /^(Trust and install|Install)$/ }).click();
  await page.getByRole('button', { name: /^No date yet/ }).click();
  await page.getByRole('button', { name: /ask me/ }).waitFor();
  expect(await main()).toContain('Going round');
});

test('by keyboard alone: from the decks to one with two steps and a limit, which can be tried', async () => {
  await page.setViewportSize({ width: 1280, height: 800 });
  const has = (one: Locator): Promise<boolean> =>
    one.evaluateAll((all) => document.activeElement !== null && all.includes(document.activeElement as HTMLElement));
  /** Tab after Tab, until it has the focus. */
  const reach = async (one: Locator, key: 'Tab' | 'Shift+Tab' = 'Tab'): Promise<void> => {
    for (let i = 0; i < 60; i++) {
      if (await has(one)) return;
      await page.keyboard.press(key);
    }
    throw new Error(`never reached: ${one}`);
  };
  const go = async (one: Locator, key: 'Tab' | 'Shift+Tab' = 'Tab'): Promise<void> => {
    await reach(one, key);
    await page.keyboard.press('Enter');
  };
  const write = async (path: string, words: string): Promise<void> => {
    await reach(box(page, path));
    await page.keyboard.press('Control+A');
    await page.keyboard.type(words);
  };
  const choose = async (path: string, key: string): Promise<void> => {
    await reach(box(page, path));
    await page.keyboard.press(key);
  };
  const titled = (title: string) => expect.poll(() => heading(page)).toBe(title);
  const whole = page.getByRole('link', { name: 'The whole deck' });

  await go(page.getByRole('link', { name: /Workshop/ }));
  await titled('Workshop');
  await go(page.getByRole('button', { name: 'A new deck', exact: true }));
  await titled('The deck itself');
  await write('/title', 'A deck by keyboard');
  await write('/id', 'calder/by-keyboard');
  await go(contents('Sources'), 'Shift+Tab');
  await titled('Sources');
  await go(adder(page, '/sources'));
  await expect.poll(() => focusedPlace(page)).toBe('/sources/0/title');
  await page.keyboard.type('Invented manual');

  await go(adder(page, '/procedures'), 'Shift+Tab');
  await expect.poll(() => focusedPlace(page)).toBe('/procedures/0/title');
  await page.keyboard.type('Going round');
  await choose('/procedures/0/source', 'ArrowDown');
  await expect.poll(() => at('/procedures/0/source')).toBe('invented-manual');
  await reach(page.getByLabel('Step after step'));
  for (const words of ['PM: Gear UP', 'PF: Thrust levers TOGA']) {
    await page.keyboard.type(words);
    await page.keyboard.press('Enter');
  }
  await expect.poll(acts).toEqual(['Gear UP', 'Thrust levers TOGA']);
  await reach(step('0'), 'Shift+Tab');
  await page.keyboard.press('Alt+ArrowDown');
  await expect.poll(acts).toEqual(['Thrust levers TOGA', 'Gear UP']);
  expect(await focusedPlace(page)).toBe('/procedures/0/steps/1');

  await go(adder(page, '/limits'), 'Shift+Tab');
  await expect.poll(() => focusedPlace(page)).toBe('/limits/0/ask');
  await page.keyboard.type('Lowest height for the turn');
  await write('/limits/0/value', '400');
  await choose('/limits/0/unit', 'f');
  await choose('/limits/0/source', 'ArrowDown');
  await expect.poll(() => at('/limits/0')).toMatchObject({ value: 400, unit: 'ft', source: 'invented-manual' });

  await go(whole, 'Shift+Tab');
  await titled('A deck by keyboard');
  await expect.poll(status).not.toMatch(/to mend|to look at|checked/);
  await go(page.getByRole('link', { name: 'Try it as a learner would' }));
  await titled('Try it');
  await page.locator('.run-row').first().waitFor();
  for (const i of [0, 1]) {
    await reach(page.locator('.run-row').nth(i));
    await page.keyboard.press('Space');
  }
  await go(page.getByRole('button', { name: 'Sure', exact: true }));
  await page.getByRole('button', { name: 'Next question' }).waitFor();
});

test('by touch, on a phone: a deck from a list, its steps reordered, a limit, tried and practised', async () => {
  const whole = () => press(page, 'The whole deck');
  await page.getByRole('link', { name: /Workshop/ }).tap();
  await press(page, 'A new deck from a list or table');
  await page.getByLabel(/^Paste a list/).fill('GOING ROUND\nPM: Gear UP\nPF: Thrust levers TOGA');
  await press(page, 'Read it');
  await page.getByLabel('Title of the new procedure').fill('Going round');
  await press(page, 'Take these steps');
  await step('0').tap();
  await page.locator('[data-tool=down]').tap();
  await expect.poll(acts).toEqual(['Thrust levers TOGA', 'Gear UP']);
  await whole();
  await contents('The deck itself').tap();
  await box(page, '/title').fill('A deck by touch');
  await box(page, '/id').fill('calder/by-touch');
  await whole();
  await contents('Sources').tap();
  await adder(page, '/sources').tap();
  await box(page, '/sources/0/title').fill('Invented manual');
  await whole();
  await adder(page, '/limits').tap();
  await box(page, '/limits/0/ask').fill('Lowest height for the turn');
  await box(page, '/limits/0/value').fill('400');
  await box(page, '/limits/0/unit').selectOption('ft');
  await box(page, '/limits/0/source').selectOption({ index: 1 });
  await whole();
  await page.getByRole('link', { name: /^Should be looked at: No source/ }).tap();
  await expect.poll(() => focusedPlace(page)).toBe('/procedures/0/source');
  await box(page, '/procedures/0/source').selectOption({ index: 1 });
  await whole();
  await expect.poll(status).not.toMatch(/to mend|to look at|checked/);
  await press(page, 'Try it as a learner would');
  await page.locator('.run-row').first().waitFor();
  for (const i of [0, 1]) await page.locator('.run-row').nth(i).tap();
  await press(page, 'Sure');
  await page.getByRole('button', { name: 'Next question' }).waitFor();
  await whole();
  await press(page, 'Hand over');
  await page.getByRole('button', { name: 'Practise it here' }).and(page.locator(':enabled')).tap();
  await press(page, 'Install');
  await press(page, /^No date yet/);
  await page.getByRole('button', { name: /ask me/ }).waitFor();
  expect(await main()).toContain('Going round');
});
