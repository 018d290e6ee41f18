import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { valueAt } from '../../src/draft/change.ts';
import type { Json } from '../../src/lib/canonical-json.ts';
import { type Visit, visit } from '../helpers/browser.ts';
import { type GalleryServer, galleryServer } from './gallery/build.ts';
import type { FormName, Shown } from './workshop-forms/main.tsx';

let server: GalleryServer;
let browser: Visit;
let page: Page;

beforeAll(async () => {
  server = await galleryServer(join(import.meta.dirname, 'workshop-forms'));
  browser = await visit();
  page = browser.page;
  await page.goto(server.url);
  await page.waitForFunction(() => 'forms' in window);
});
afterAll(async () => {
  await browser.close();
  await server.close();
});

const begin = async (value: Json, form: FormName, path: string): Promise<void> => {
  await page.evaluate(
    async ([value, form, path]) => {
      const { forms } = window as never as { forms: Shown };
      forms.begin(value as Json);
      await forms.show(form as FormName, path as string);
    },
    [value, form, path] as const,
  );
};
const at = async (path: string): Promise<Json | undefined> =>
  valueAt(await page.evaluate(() => (window as never as { forms: Shown }).forms.value()), path);
const undo = (): Promise<void> => page.evaluate(() => (window as never as { forms: Shown }).forms.undo());

const deck = (scenario: Json, rest: { readonly [key: string]: Json } = {}): Json => ({
  format: 1,
  id: 'my/deck',
  title: 'T',
  version: '1.0.0',
  language: 'en',
  nature: 'fictional',
  sources: [],
  scenarios: [scenario],
  ...rest,
});
const scenario = (more: { readonly [key: string]: Json }): Json => ({
  id: 's',
  situation: 'Now',
  draw: {},
  asks: [],
  ...more,
});

test('runways typed as they are painted are changed to degrees by one button, and back by Undo', async () => {
  const draw = { runway: { oneOf: [''], show: 'runway' } };
  await begin(deck(scenario({ draw })), 'scenario', '/scenarios/0');
  const list = '/scenarios/0/draw/runway/oneOf';
  await page.getByText('runway', { exact: true }).click();
  await page.locator(`[data-path="${list}/0"]`).fill('07');
  await page.locator(`[data-add="${list}"]`).click();
  await page.locator(`[data-path="${list}/1"]`).fill('25');
  await page.getByText('Did you mean 70 and 250?').waitFor();
  await page.getByRole('button', { name: 'Change to degrees' }).click();
  expect(await at(list)).toEqual([70, 250]);
  expect(await page.getByText('Did you mean').count()).toBe(0);
  await undo();
  expect(await at(list)).toEqual([7, 25]);
});
