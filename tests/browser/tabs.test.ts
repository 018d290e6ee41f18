import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { answer, firstMinutes, logged, press, shown, WIND } from '../helpers/app.ts';
import { type Visit, visit } from '../helpers/browser.ts';
import { sound } from '../helpers/sound.ts';

let browser: Visit;
beforeAll(async () => {
  browser = await visit();
});
afterAll(() => browser.close());

test('one tab writes; the other shows the Brief, and may take over', async () => {
  const { page, context } = browser;
  await page.goto(inject('baseUrl'));
  await firstMinutes(page, WIND);
  await press(page, /ask me/);
  await answer(page, 'Sure');

  const second = await context.newPage();
  await second.goto(inject('baseUrl'));
  await expect.poll(() => second.locator('main').innerText()).toContain('open in another tab');
  expect(await second.getByRole('button', { name: /drill$|^Start/ }).isDisabled()).toBe(true);
  await sound(second, 'brief, open elsewhere');

  await press(second, 'Continue here');
  await press(second, 'Go on with your drill');
  // The same verdict that the first tab showed.
  expect(await shown(second)).toBe('verdict');
  await expect.poll(() => page.locator('main').innerText()).toContain('open in another tab');

  await press(second, 'Next');
  if ((await shown(second)) === 'read') await press(second, /ask me/);
  await answer(second, "Don't know");
  expect(await logged(second, 'answer')).toHaveLength(2);
  const ids = (await logged(second, 'answer')).map(({ id }) => id);
  expect(new Set(ids).size).toBe(2);

  // And back.
  await page.bringToFront();
  await press(page, 'Continue here');
  await expect.poll(() => page.locator('main').innerText()).not.toContain('open in another tab');
  expect(browser.errors).toEqual([]);
});
