import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { valueAt } from '../../src/draft/change.ts';
import { formsPage } from '../helpers/forms-page.ts';
import type { FormName, Shown } from './workshop-forms/main.tsx';

let bench: Awaited<ReturnType<typeof formsPage>>;
let page: Page;

beforeAll(async () => {
  bench = await formsPage();
  page = bench.page;
});
afterAll(() => bench.close());

const shown = async (deck: unknown, form: FormName, path: string): Promise<void> => {
  await page.evaluate(
    async ([text, name, at]) => {
      const { forms } = window as unknown as { forms: Shown };
      forms.begin(JSON.parse(text));
      await forms.show(name, at);
      for (const one of document.querySelectorAll('details')) one.open = true;
    },
    [JSON.stringify(deck), form, path] as const,
  );
};
const at = async (path: string) =>
  valueAt(await page.evaluate(() => (window as unknown as { forms: Shown }).forms.value()), path);
const said = () => page.locator('[data-said]').textContent();
const button = (name: string | RegExp) => page.getByRole('button', { name, exact: true });
/** The accessible name of what has the focus, with what it says of itself. */
const focused = () =>
  page.evaluate(() => {
    const one = document.activeElement;
    const name = one?.getAttribute('aria-label') ?? one?.textContent ?? '';
    return one?.getAttribute('aria-disabled') === 'true' ? `${name}, not now` : name;
  });

/** What is drawn next has been drawn. */
const drawn = () =>
  page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));

const rule = (id: string) => ({ id, if: 'v > 1', text: id });
const LISTS: readonly (readonly [string, unknown, FormName, string, string, string, string])[] = [
  [
    'cases of a limit',
    { limits: [{ id: 'l', ask: 'L', unit: 'kt', sense: 'at least', cases: [{ id: 'a' }, { id: 'b' }, { id: 'c' }] }] },
    'limit',
    '/limits/0',
    '/limits/0/cases',
    'Case',
    'Add a case',
  ],
  [
    'sources',
    { sources: [{ id: 'a' }, { id: 'b' }, { id: 'c' }] },
    'sources',
    '/sources',
    '/sources',
    'Source',
    'Add a source',
  ],
  [
    'rules of a question',
    {
      scenarios: [
        {
          id: 's',
          situation: 'S',
          draw: { v: { from: 1, to: 2 } },
          asks: [{ id: 'q', ask: 'Q', choose: { rules: [rule('a'), rule('b'), rule('c')] } }],
        },
      ],
    },
    'scenario',
    '/scenarios/0',
    '/scenarios/0/asks/0/choose/rules',
    'Rule',
    'Add a rule',
  ],
];

test.each(LISTS)('%s moved by the keyboard keep it at its place, and it is said', async (...one) => {
  const [, deck, form, formPath, list, name, add] = one;
  const ids = async () => ((await at(list)) as readonly { id: string }[]).map(({ id }) => id);
  await shown(deck, form, formPath);
  expect(await said()).toBe('');
  await button(`${name} 3: up`).focus();
  await page.keyboard.press('Enter');
  await expect.poll(said).toBe(`${name} 3 moved: 2 of 3.`);
  await drawn();
  expect([await ids(), await focused()]).toEqual([['a', 'c', 'b'], `${name} 2: up`]);
  await page.keyboard.press('Enter');
  await expect.poll(said).toBe(`${name} 2 moved: 1 of 3.`);
  await drawn();
  expect([await ids(), await focused()]).toEqual([['c', 'a', 'b'], `${name} 1: up, not now`]);
  await page.keyboard.press('Enter');
  await expect.poll(said).toBe(`${name} 1 stays where it is: 1 of 3.`);
  await drawn();
  expect([await ids(), await focused()]).toEqual([['c', 'a', 'b'], `${name} 1: up, not now`]);
  await page.locator(`[data-remove="${list}/1"]`).focus();
  await page.keyboard.press('Enter');
  await expect.poll(said).toBe(`${name} 2 removed: 2 left.`);
  await drawn();
  expect([await ids(), await focused()]).toEqual([['c', 'b'], add]);
});

test('what is unfolded stays so where it went', async () => {
  await shown({ sources: [{ id: 'a' }, { id: 'b' }, { id: 'c' }] }, 'sources', '/sources');
  await page.evaluate(() => {
    for (const [i, one] of document.querySelectorAll<HTMLDetailsElement>('details.thing').entries()) one.open = i === 2;
  });
  await button('Source 3: up').click();
  const open = () =>
    page.evaluate(() => [...document.querySelectorAll<HTMLDetailsElement>('details.thing')].map((one) => one.open));
  await expect.poll(open).toEqual([false, true, false]);
});

test('options have keys and are moved and told alike', async () => {
  const options = { a: 'A', b: 'B', c: 'C' };
  await shown({ limits: [{ id: 'l', ask: 'L', options, is: 'a' }] }, 'limit', '/limits/0');
  const downs = page.getByRole('button', { name: /: down$/ });
  const name = (await downs.first().getAttribute('aria-label'))?.replace(/ 1: down$/, '');
  await downs.nth(1).focus();
  await page.keyboard.press('Enter');
  await expect.poll(said).toBe(`${name} 2 moved: 3 of 3.`);
  await drawn();
  expect(Object.keys((await at('/limits/0/options')) as object)).toEqual(['a', 'c', 'b']);
  expect(await focused()).toBe(`${name} 3: down, not now`);
});

test('the same words twice are two additions to the page', async () => {
  await shown({ sources: [{ id: 'a' }, { id: 'b' }] }, 'sources', '/sources');
  await button('Source 1: up').focus();
  await page.keyboard.press('Enter');
  await expect.poll(said).toBe('Source 1 stays where it is: 1 of 2.');
  const first = await page.locator('[data-said] span').elementHandle();
  await page.keyboard.press('Enter');
  await expect.poll(() => first?.evaluate((one) => one.isConnected)).toBe(false);
  expect(await said()).toBe('Source 1 stays where it is: 1 of 2.');
});

test('after the last undo the cursor is still on Undo, which does nothing then', async () => {
  await shown({ sources: [{ id: 'a' }, { id: 'b' }] }, 'sources', '/sources');
  await button('Source 1: down').click();
  await page.evaluate(() => (window as unknown as { forms: Shown }).forms.bar());
  const undo = page.getByRole('button', { name: /^Undo/ });
  await undo.focus();
  await page.keyboard.press('Enter');
  await expect.poll(focused).toBe('Undo, not now');
  await page.keyboard.press('Enter');
  await drawn();
  expect(await focused()).toBe('Undo, not now');
  expect(await at('/sources')).toEqual([{ id: 'a' }, { id: 'b' }]);
  expect(await page.getByRole('button', { name: /^Redo/ }).getAttribute('aria-disabled')).toBe('false');
});
