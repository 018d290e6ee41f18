import { afterEach, beforeEach, expect, inject, test } from 'vitest';
import { firstMinutes, heading, MERROW, press } from '../helpers/app.ts';
import { type Visit, visit } from '../helpers/browser.ts';

let browser: Visit;
beforeEach(async () => {
  browser = await visit();
});
afterEach(() => browser.close());

const give = async (name: string, text: string): Promise<void> => {
  const { page } = browser;
  await page
    .locator('input[type=file]')
    .first()
    .setInputFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) });
};

const MINIMAL = {
  format: 1,
  id: 'test/one',
  version: '1.0.0',
  title: '<img src=x onerror="document.title=\'broken\'"> One limit',
  language: 'en',
  nature: 'public',
  sources: [{ id: 's', title: '<b>Source</b>', basis: 'published' }],
  limits: [{ id: 'l', ask: 'How <i>fast</i>?', unit: 'kt', sense: 'at most', value: 250, source: 's' }],
};

test('a broken deck shows each finding, and what was installed stays as it was', async () => {
  const { page } = browser;
  await page.goto(inject('baseUrl'));
  await firstMinutes(page, MERROW);
  await press(page, 'Leave');
  await press(page, 'Decks');
  await page.getByRole('button', { name: 'Wind and altimetry' }).waitFor();
  const before = await page.locator('main').innerText();

  await give('unreadable.deck.json', '{\n  "format": 1,\n  "id" "x"\n}');
  await expect.poll(() => heading(page)).toBe('Not installed');
  expect(await page.locator('main').innerText()).toMatch(/line 3, column \d+/);
  await press(page, 'Back to the decks');

  const broken = {
    ...MINIMAL,
    limits: [
      { ...MINIMAL.limits[0], unit: 'knots' },
      { ...MINIMAL.limits[0], id: 'm', source: 'nowhere' },
    ],
  };
  await give('broken.deck.json', JSON.stringify(broken));
  await expect.poll(() => heading(page)).toBe('Not installed');
  expect(await page.locator('main').innerText()).toContain('/limits/0/unit');
  await press(page, 'Back to the decks');

  await give('empty.deck.json', '');
  await expect.poll(() => heading(page)).toBe('Not installed');
  await press(page, 'Back to the decks');
  // Made in the page: five megabytes over the debugger's wire would only test the wire.
  await page.evaluate(() => {
    const input = document.querySelector('input[type=file]') as HTMLInputElement;
    const files = new DataTransfer();
    files.items.add(new File(['['.repeat(5_000_000)], 'deep.deck.json'));
    input.files = files.files;
    input.dispatchEvent(new Event('change', { bubbles: true }));
  });
  await expect.poll(() => heading(page)).toBe('Not installed');
  await press(page, 'Back to the decks');
  await expect.poll(() => page.locator('main').innerText()).toBe(before);
  expect(browser.errors).toEqual([]);
});

test("a stranger's text is shown as text", async () => {
  const { page } = browser;
  await page.goto(inject('baseUrl'));
  await press(page, 'I have read this');
  await give('html.deck.json', JSON.stringify(MINIMAL));
  await expect.poll(() => heading(page)).toContain('<img src=x');
  expect(await page.locator('main').innerText()).toContain('<b>Source</b>');
  await press(page, 'Install');
  await press(page, /^No date yet/);
  await page.getByRole('button', { name: /ask me/ }).waitFor();
  expect(await page.locator('main').innerText()).toContain('How <i>fast</i>?');
  expect(await page.title()).not.toBe('broken');
  expect(browser.errors).toEqual([]);
});

test('what is flown is said once for a type: a second deck of it begins with that', async () => {
  const { page } = browser;
  await page.goto(inject('baseUrl'));
  await firstMinutes(page, MERROW);
  await press(page, 'Leave');
  await press(page, 'Decks');
  await press(page, /^Merrow 240: rejected/);
  await press(page, 'Install');
  await expect.poll(() => heading(page)).toBe('Which do you fly?');
  for (const [label, isFlown] of [
    [/TK-11/, true],
    [/TK-14/, false],
    [/Calder/, true],
    [/Fellwater/, false],
  ] as const)
    expect(await page.getByLabel(label).first().isChecked(), String(label)).toBe(isFlown);
  await press(page, 'Go on');
  await expect.poll(() => heading(page)).not.toBe('Which do you fly?');
});
