import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { valueAt } from '../../src/draft/change.ts';
import type { Json } from '../../src/lib/canonical-json.ts';
import { axe } from '../helpers/browser.ts';
import { formsPage } from '../helpers/forms-page.ts';
import type { FormName, Shown } from './workshop-forms/main.tsx';

let bench: Awaited<ReturnType<typeof formsPage>>;
let page: Page;

beforeAll(async () => {
  bench = await formsPage();
  page = bench.page;
});
afterAll(() => bench.close());

const begin = async (value: Json, form: FormName, path: string): Promise<void> => {
  await page.evaluate(
    async ([text, name, place]) => {
      const { forms } = window as never as { forms: Shown };
      // Drawn anew, with nothing unfolded.
      await forms.show('sources', '/sources');
      forms.begin(JSON.parse(text));
      await forms.show(name, place);
    },
    [JSON.stringify(value), form, path] as const,
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

const WIND = {
  draw: {
    windSpeed: { from: 4, to: 30, unit: 'kt' },
    event: { oneOf: { none: '', 'engine-fire': 'Engine fire warning' } },
  },
  let: { cross: 'windSpeed' },
  require: [''],
};

test('values, events, limits and functions are put into a formula where the cursor is, by keys too', async () => {
  const limits = [{ id: 'gusts', ask: 'Greatest crosswind', unit: 'kt', sense: 'at most', value: 28 }];
  await begin(deck(scenario(WIND), { limits }), 'scenario', '/scenarios/0');
  const place = '/scenarios/0/require/0';
  const box = page.locator(`[data-path="${place}"]`);
  const field = page.locator('.field', { has: box }).last();
  await field.getByText('What can be written here').focus();
  await page.keyboard.press('Enter');
  await field.getByRole('button', { name: 'event == "engine-fire"' }).click();
  expect(await at(place)).toBe('event == "engine-fire"');
  await box.fill('cross > ');
  const limit = field.getByRole('button', { name: 'limit("gusts")' });
  await limit.focus();
  await page.keyboard.press('Enter');
  expect(await at(place)).toBe('cross > limit("gusts")');
  await page.waitForFunction((path) => document.activeElement?.getAttribute('data-path') === path, place);
  // Behind what was put in: what is typed goes on there; of a function its values are typed over.
  await page.keyboard.type(' && ');
  await field.getByText('Functions', { exact: true }).click();
  await box.focus();
  await field.getByRole('button', { name: 'abs(number)' }).click();
  await page.waitForFunction((path) => document.activeElement?.getAttribute('data-path') === path, place);
  await page.keyboard.type('cross');
  expect(await at(place)).toBe('cross > limit("gusts") && abs(cross)');
  const low = await field
    .getByRole('button')
    .evaluateAll((all) => all.filter((one) => one.getBoundingClientRect().height < 44).map((one) => one.textContent));
  expect(low).toEqual([]);
  expect(await axe(page)).toEqual([]);
});

test('a comparison is picked, written as a formula, and joined to the next', async () => {
  await begin(deck(scenario(WIND)), 'scenario', '/scenarios/0');
  const place = '/scenarios/0/require/0';
  const field = page.locator('.field', { has: page.locator(`[data-path="${place}"]`) }).last();
  await field.getByText('What can be written here').click();
  const write = field.getByRole('button', { name: 'Write' });
  await field.getByRole('combobox', { name: 'Value' }).selectOption('cross');
  await field.getByRole('textbox', { name: 'Number' }).fill('28');
  expect(await write.textContent()).toBe('Write cross > 28');
  await write.click();
  expect(await at(place)).toBe('cross > 28');
  await field.getByRole('combobox', { name: 'Besides' }).selectOption('||');
  await field.getByRole('combobox', { name: 'Value' }).selectOption('event');
  await field.getByRole('combobox', { name: 'Comparison' }).selectOption('!=');
  await field.getByRole('combobox', { name: 'With' }).selectOption('"none"');
  await write.click();
  expect(await at(place)).toBe('cross > 28 || event != "none"');
  await undo();
  expect(await at(place)).toBe('cross > 28');
});

test('an empty scenario is begun with wind and runway, or with an event, by one step that can be taken back', async () => {
  await begin(deck(scenario({ situation: '' })), 'scenario', '/scenarios/0');
  await page.getByRole('button', { name: 'Begin with an event' }).click();
  await page.waitForFunction(() => document.activeElement?.getAttribute('data-path') === '/scenarios/0/situation');
  expect(await page.getByRole('button', { name: /^Begin with/ }).count()).toBe(0);
  // What is written of the event names it in the rule too.
  const event = '/scenarios/0/draw/event/oneOf/event';
  await page.locator(`[data-path="${event}"]`).fill('Engine fire warning');
  await page.locator(`[data-path="/scenarios/0/title"]`).focus();
  await expect.poll(() => at('/scenarios/0/asks/0/choose/rules/0/if')).toBe('event == "engine-fire-warning"');
  for (let n = 0; n < 5 && (await at('/scenarios/0/situation')) !== ''; n++) await undo();
  await page.getByRole('button', { name: 'Begin with wind and runway' }).click();
  expect(await at('/scenarios/0/let/cross')).toBe('abs(crosswind(windDir, windSpeed, runway))');
  await undo();
  expect(await at('/scenarios/0')).toEqual(scenario({ situation: '' }));
});

test('runway and wind are drawn for the picture by its button', async () => {
  await begin(deck(scenario({ draw: { gust: { from: 0, to: 10 } } })), 'scenario', '/scenarios/0');
  await page.getByRole('button', { name: 'Draw runway and wind' }).click();
  await page.waitForFunction(() => document.activeElement?.getAttribute('data-path') === '/scenarios/0/picture');
  expect(await at('/scenarios/0/picture')).toBe('runway-wind');
  expect(Object.keys((await at('/scenarios/0/draw')) as object)).toEqual(['runway', 'windDir', 'windSpeed', 'gust']);
  expect(await page.getByRole('button', { name: 'Draw runway and wind' }).count()).toBe(0);
  await undo();
  expect(await at('/scenarios/0')).toEqual(scenario({ draw: { gust: { from: 0, to: 10 } } }));
});

test('a condition that is so when something is not is told as formulas read it', async () => {
  const condition = { id: 'autofeather', label: 'Autofeather', yes: 'Autofeather has not worked', no: '' };
  await begin(deck(scenario({}), { conditions: [condition] }), 'conditions', '/conditions');
  await page.locator('[data-path="/conditions/0/no"]').fill('Autofeather has worked');
  await page.getByText('Formulas read autofeather as: Autofeather has not worked.').waitFor();
  await page.locator('[data-path="/conditions/0/yes"]').fill('Autofeather has failed');
  expect(await page.getByText('Formulas read').count()).toBe(0);
});
