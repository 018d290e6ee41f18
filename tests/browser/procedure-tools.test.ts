import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, inject, test } from 'vitest';
import { valueAt } from '../../src/draft/change.ts';
import type { Json } from '../../src/lib/canonical-json.ts';
import { press } from '../helpers/app.ts';
import { axe, touchTargets, type Visit, visit } from '../helpers/browser.ts';
import { focusedPlace, openAsDraft, storedDraft } from '../helpers/workshop.ts';

let browser: Visit;
let phone: Page;
/** Without touch: with a keyboard and a mouse. */
let desktop: Page;
/** The one that is tried. */
let page: Page;
beforeAll(async () => {
  browser = await visit();
  phone = browser.page;
  const context = await phone
    .context()
    .browser()
    ?.newContext({ viewport: { width: 1280, height: 800 } });
  if (context === undefined) throw new Error('no browser');
  desktop = await context.newPage();
  await phone.goto(inject('baseUrl'));
  await press(phone, 'I have read this');
  await desktop.goto(inject('baseUrl'));
  await desktop.getByRole('button', { name: 'I have read this' }).click();
});
beforeEach(() => {
  page = phone;
});
afterAll(async () => {
  await desktop.context().close();
  await browser.close();
});

const STEPS = '/procedures/0/steps';
const step = (id: string, more: object = {}) => ({ id, do: `Do ${id}`, by: 'PF', ...more });
const deck = (steps: readonly object[], conditions: readonly object[]) => ({
  format: 1,
  id: 'test/tools',
  version: '1.0.0',
  title: 'A deck for trying',
  language: 'en',
  nature: 'fictional',
  sources: [{ id: 's', title: 'Manual', basis: 'invented' }],
  conditions,
  procedures: [{ id: 'p', title: 'Trying', done: 'memory', source: 's', steps }],
});
const CONDITIONS = [
  { id: 'fire', label: 'Fire', yes: 'Fire warning', no: 'No fire warning' },
  { id: 'flaps', label: 'Flaps', options: { up: 'UP', one: '1', two: '2' } },
];
const begin = async (steps: readonly object[], conditions: readonly object[] = CONDITIONS): Promise<void> => {
  await page.goto(`${await openAsDraft(page, deck(steps, conditions))}/procedures/0`);
  await page.locator('.line-page').waitFor();
};
const stored = async (path = STEPS): Promise<Json> => valueAt(await storedDraft(page), path) ?? null;
const at = (path: string): Locator => page.locator(`[data-step="${STEPS}/${path}"]`);
const button = (name: string | RegExp): Locator =>
  page.getByRole('button', { name, exact: typeof name === 'string' }).and(page.locator(':visible'));
const onlyIf = (): Locator => page.locator('[data-tool="only-if"]');
const said = (): Promise<string> => page.locator('p.hidden-visually[aria-live=polite]').innerText();
const chosen = (): Promise<string> =>
  onlyIf().evaluate((one) => (one as HTMLSelectElement).selectedOptions[0]?.text ?? '');

describe('an order that was confirmed', () => {
  test('is let go of by a move that contradicts it, said, and comes back with it', async () => {
    const steps = [step('a'), step('b', { needs: ['a'] }), step('c', { needs: ['b'] })];
    await begin(steps);
    await at('0').tap();
    await button('▼ Later').tap();
    await expect.poll(stored).toEqual([step('b'), step('a'), step('c', { needs: ['b'] })]);
    expect(await said()).toBe('Do a. Step 2 of 3. The order you confirmed no longer fits and was let go of.');
    expect(await button(/^Undo/).innerText()).toContain('The order you confirmed no longer fits');
    await button(/^Undo/).tap();
    await expect.poll(stored).toEqual(steps);
    await at('2').focus();
    await page.keyboard.press('Alt+ArrowUp');
    await expect.poll(stored).toEqual([step('a'), step('c'), step('b', { needs: ['a'] })]);
  });

  test('goes with the step that was waited for, in one change', async () => {
    const steps = [step('a'), step('b', { needs: ['a'] }), step('c', { answers: 'a' })];
    await begin(steps);
    await at('0').tap();
    await button('Remove').tap();
    await expect.poll(stored).toEqual([step('b'), step('c')]);
    expect(await said()).toBe('Removed. 2 steps no longer wait for it or answer it.');
    await button(/^Undo/).tap();
    await expect.poll(stored).toEqual(steps);
  });
});

describe('only if', () => {
  test('stands among the tools, in the words of the conditions; undone, it shows what is there', async () => {
    await begin([step('a'), step('b')]);
    await at('0').tap();
    expect(await onlyIf().locator('option').allInnerTexts()).toEqual([
      'Always',
      'When: Fire warning',
      'Not: Fire warning (No fire warning)',
      'When: Flaps: UP',
      'Not: Flaps: UP',
      'When: Flaps: 1',
      'Not: Flaps: 1',
      'When: Flaps: 2',
      'Not: Flaps: 2',
      'A new condition …',
      'As a formula',
    ]);
    await onlyIf().selectOption('When: Flaps: 1');
    await expect.poll(stored).toEqual([step('a', { if: 'flaps == "one"' }), step('b')]);
    expect(await at('0').innerText()).toContain('If: Flaps: 1');
    expect(await page.getByText('Only if', { exact: true }).count()).toBe(1);
    await button(/^Undo/).tap();
    await expect.poll(chosen).toBe('Always');
    await button(/^Redo/).tap();
    await expect.poll(chosen).toBe('When: Flaps: 1');
    await onlyIf().selectOption('Always');
    await expect.poll(stored).toEqual([step('a'), step('b')]);
  });

  test('a branch needs something to branch at, and begins the other side', async () => {
    await begin([step('a'), step('b')]);
    await at('0').tap();
    await button('A branch: otherwise …').tap();
    expect(await said()).toBe('Choose first when it holds.');
    expect(await focusedPlace(page)).toBe('only-if');
    await onlyIf().selectOption('When: Fire warning');
    await button('A branch: otherwise …').tap();
    const branch = [{ if: 'fire', steps: [step('a')] }, { if: '!fire', steps: [{ id: 'step' }] }, step('b')];
    await expect.poll(stored).toEqual(branch);
    await expect.poll(() => focusedPlace(page)).toBe(`${STEPS}/1/steps/0/do`);
    // The other side is changed in words too; a block gets its other side as it is.
    await at('0').tap();
    expect(await chosen()).toBe('When: Fire warning');
    expect(await page.getByText('Only if', { exact: true }).count()).toBe(1);
    await button(/^Undo/).tap();
    await expect.poll(stored).toEqual([step('a', { if: 'fire' }), step('b')]);
  });

  test('neighbours that are marked become a block, or the one side of a branch', async () => {
    await begin([step('a'), step('b'), step('c')]);
    await at('0').tap();
    await page.getByText('With its neighbours …').tap();
    await button('One more').tap();
    await onlyIf().selectOption('Not: Fire warning (No fire warning)');
    await button('A branch: otherwise …').tap();
    await expect
      .poll(stored)
      .toEqual([{ if: '!fire', steps: [step('a'), step('b')] }, { if: 'fire', steps: [{ id: 'step' }] }, step('c')]);
    await button(/^Undo/).tap();
    await at('1').tap();
    await page.getByText('With its neighbours …').tap();
    await button('One more').tap();
    await onlyIf().selectOption('When: Fire warning');
    await button('Only then').tap();
    await expect.poll(stored).toEqual([step('a'), { if: 'fire', steps: [step('b'), step('c')] }]);
    expect(await chosen()).toBe('When: Fire warning');
  });

  test('a new condition is made of its two sentences right there, in one change', async () => {
    await begin([step('a')], []);
    await at('0').tap();
    await onlyIf().selectOption('A new condition …');
    const add = button('Add it: only when it is so');
    expect(await add.isDisabled()).toBe(true);
    await page.getByLabel('Told when it is so').fill('Engine failure after V1');
    await page.getByLabel('Told when it is not').fill('Both engines run');
    await add.tap();
    await expect.poll(stored).toEqual([step('a', { if: 'engineFailureAfterV1' })]);
    expect(await stored('/conditions')).toEqual([
      {
        id: 'engineFailureAfterV1',
        label: 'Engine failure after V1',
        yes: 'Engine failure after V1',
        no: 'Both engines run',
      },
    ]);
    expect(await chosen()).toBe('When: Engine failure after V1');
    await button(/^Undo/).tap();
    await expect.poll(() => stored('/conditions')).toEqual([]);
    expect(await stored()).toEqual([step('a')]);
    expect(await chosen()).toBe('Always');
  });

  test('what is no plain condition is written as a formula', async () => {
    await begin([step('a', { if: 'fire && flaps == "up"' })]);
    await at('0').tap();
    expect(await chosen()).toBe('As a formula');
    const formula = page.locator(`[data-path="${STEPS}/0/if"]`);
    expect(await formula.inputValue()).toBe('fire && flaps == "up"');
    await formula.fill('nobody');
    await expect.poll(stored).toEqual([step('a', { if: 'nobody' })]);
    // What the checker says of it stands there, and leads there.
    await expect.poll(() => page.locator('.tools').innerText()).toContain('nobody');
    await at('0').tap();
    await page.locator('main .folded > summary').first().tap();
    await page
      .getByRole('link', { name: /nobody/ })
      .first()
      .tap();
    await expect.poll(() => focusedPlace(page)).toBe(`${STEPS}/0/if`);
    await button(/^Undo/).tap();
    await expect.poll(() => formula.inputValue()).toBe('fire && flaps == "up"');
  });
});

test('on a phone what was opened is scrolled to, and its form begins above the bar', async () => {
  await begin(['a', 'b', 'c', 'd', 'e', 'f', 'g', 'h'].map((id) => step(id)));
  await page.setViewportSize({ width: 360, height: 740 });
  for (const which of ['1', '6']) {
    await at(which).tap();
    const bar = (await page.locator('.bar').last().boundingBox())?.y ?? 0;
    const first = page.locator('.node-form textarea').first();
    await expect
      .poll(async () => {
        const there = await first.boundingBox();
        return there === null ? 0 : there.y + there.height;
      })
      .toBeLessThan(bar);
    // With its tools above it.
    expect((await button('Step after').boundingBox())?.y).toBeGreaterThan(0);
  }
});

test('at a desk the keys are said; Enter leads into the form, Escape and a button back', async () => {
  page = desktop;
  await begin([step('a'), step('b')]);
  await at('1').focus();
  await page.keyboard.press('Enter');
  await expect.poll(() => focusedPlace(page)).toBe(`${STEPS}/1/do`);
  expect(await page.getByText('Alt+↑').isVisible()).toBe(true);
  await page.keyboard.press('Escape');
  await expect.poll(() => focusedPlace(page)).toBe(`${STEPS}/1`);
  await button('Back to the line').focus();
  await page.keyboard.press('Enter');
  await expect.poll(() => focusedPlace(page)).toBe(`${STEPS}/1`);
  // By the mouse the cursor stays.
  await at('0').click();
  await page.locator(`[data-path="${STEPS}/0/do"]`).waitFor();
  expect(await focusedPlace(page)).toBe(`${STEPS}/0`);
});

test('touch sees nothing of keys; the open tools have no accessibility findings', async () => {
  await begin([step('a', { if: 'fire && fire' }), step('b')]);
  await at('0').tap();
  expect(await page.getByText('Alt+↑').count()).toBe(0);
  expect(await axe(page)).toEqual([]);
  await at('1').tap();
  await onlyIf().selectOption('A new condition …');
  expect(await axe(page)).toEqual([]);
  expect(await touchTargets(page)).toEqual([]);
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
});

test('nothing threw', () => {
  expect(browser.errors).toEqual([]);
});
