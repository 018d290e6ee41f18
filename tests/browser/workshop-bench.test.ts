import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { BASE, changed } from '../fixtures/decks/base.ts';
import { press } from '../helpers/app.ts';
import { axe, touchTargets, type Visit, visit } from '../helpers/browser.ts';
import { focusedPlace, openAsDraft } from '../helpers/workshop.ts';

let device: Visit;
let page: Page;

beforeAll(async () => {
  device = await visit();
  page = device.page;
  await page.goto(inject('baseUrl'));
  await press(page, 'I have read this');
});
afterAll(() => device.close());

const status = () => page.getByRole('status').first().innerText();
const focused = () => focusedPlace(page);
const isNarrow = () => page.evaluate(() => document.documentElement.scrollWidth <= innerWidth);

test('what is wrong is listed by thing, leads to its field, and goes when it is mended', async () => {
  const draft = await openAsDraft(page, BASE);
  await expect.poll(status).toBe('Nothing to mend.');
  const at = BASE.limits.findIndex((l) => 'value' in l);
  await page.goto(`${draft}/limits/${at}`);
  const value = page.locator(`[data-path="/limits/${at}/value"]`);
  const before = await value.inputValue();
  await value.fill('4x');
  await expect.poll(() => value.getAttribute('aria-invalid')).toBe('true');
  const by = (await value.getAttribute('aria-describedby')) ?? '';
  const said = page.locator(`[id="${by.split(' ').at(-1)}"]`);
  expect(await said.innerText()).toMatch(/number/);

  await page.goto(draft);
  await expect.poll(status).toBe('1 to mend.');
  await page.getByRole('link', { name: /^Must be mended: .*number/ }).click();
  await expect.poll(focused).toBe(`/limits/${at}/value`);
  await value.fill(before);
  await expect.poll(() => value.getAttribute('aria-invalid')).toBeNull();
});

test('a finding opens the step, or the part of a procedure, that holds it', async () => {
  const draft = await openAsDraft(
    page,
    changed((d) => {
      d.procedures[0].steps[1].lanes[0][1].by = 'nobody';
      d.procedures[0].why = '<b>Why</b>';
    }),
  );
  await expect.poll(status).toBe('1 to mend, 1 hint.');
  await page.getByRole('link', { name: /There is no crew member/ }).click();
  await expect.poll(focused).toBe('/procedures/0/steps/1/lanes/0/1/by');
  await page.goto(draft);
  await page.getByText('1 hint', { exact: true }).click();
  await page.getByRole('link', { name: /^Hint: .*HTML/ }).click();
  await expect.poll(focused).toBe('/procedures/0/why');
  expect(await axe(page)).toEqual([]);
});

test('the draws of a scenario: examples, rules, picture and its table', async () => {
  await page.goto(`${await openAsDraft(page, BASE)}/scenarios/0`);
  const bench = page.getByRole('region', { name: 'What is drawn' });
  const rows = bench.getByRole('region', { name: 'Table of examples' }).locator('tbody tr');
  await expect.poll(() => rows.count()).toBeGreaterThan(3);
  const before = await rows.allInnerTexts();
  await bench.getByRole('button', { name: 'Other examples' }).click();
  await expect.poll(() => rows.allInnerTexts()).not.toEqual(before);

  await bench.getByRole('combobox', { name: 'Question' }).selectOption({ index: 1 });
  const picture = bench.locator('svg.cover');
  await expect.poll(() => picture.getAttribute('aria-label')).toMatch(/^Rules over .*the table below says the same$/);
  // Every cell has a letter or a sign: patterns are never all there is.
  const cells = await picture.locator('rect.cell').count();
  expect(await picture.locator('text.sign').count()).toBe(cells);
  await bench.locator('summary', { hasText: 'The same as a table' }).click();
  await bench.getByRole('combobox', { name: 'Upwards' }).selectOption('');
  await expect.poll(() => bench.locator('caption').innerText()).not.toContain('upwards');
  const cellsOfTable = bench.locator('caption + thead + tbody td');
  expect((await cellsOfTable.allInnerTexts()).join()).toMatch(/[A-D] \d+ %/);

  await bench.getByRole('button', { name: 'Example 1: look around it' }).click();
  await expect.poll(() => bench.innerText()).toContain('All else as in the chosen example.');
  await expect.poll(() => bench.innerText()).toContain('Where the rule changes, all else as in example 1');

  expect(await isNarrow()).toBe(true);
  expect(await axe(page)).toEqual([]);
  expect(await touchTargets(page)).toEqual([]);

  // From a rule to its field.
  await bench.getByRole('button', { name: /^B, / }).click();
  await expect.poll(focused).toMatch(/^\/scenarios\/0\/asks\/1\/choose\/rules\/1\//);
});

test('a rule that is never reached is said beside the draws, and by the checker', async () => {
  await page.goto(`${await openAsDraft(page, BASE)}/scenarios/0`);
  const condition = page.locator('[data-path="/scenarios/0/asks/1/choose/rules/1/if"]');
  await condition.waitFor({ state: 'attached' });
  await page.evaluate(() => {
    for (const one of document.querySelectorAll('details')) one.open = true;
  });
  const before = await condition.inputValue();
  await condition.fill('cross > 500');
  const bench = page.getByRole('region', { name: 'What is drawn' });
  await bench.getByRole('combobox', { name: 'Question' }).selectOption({ index: 1 });
  await expect.poll(() => bench.getByRole('button', { name: /^B, never reached/ }).count()).toBe(1);
  await condition.fill('cross >');
  await expect.poll(() => bench.innerText()).toContain('must be mended first');
  await condition.fill(before);
  await expect.poll(() => bench.getByRole('button', { name: /^B, \d+ %/ }).count()).toBe(1);
});
