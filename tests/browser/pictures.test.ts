import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { firstMinutes, MERROW, press } from '../helpers/app.ts';
import { axe, type Visit, visit } from '../helpers/browser.ts';
import { shoot } from '../helpers/shots.ts';
import { sound } from '../helpers/sound.ts';
import { type GalleryServer, galleryServer } from './gallery/build.ts';
import { named } from './gallery/exhibits.ts';
import type { Exhibit, Gallery } from './gallery/main.tsx';

let server: GalleryServer;
let browser: Visit;
let page: Page;

beforeAll(async () => {
  server = await galleryServer();
  browser = await visit();
  page = browser.page;
});
afterAll(async () => {
  await browser.close();
  await server.close();
});

const hang = async (exhibit: Exhibit, name: string): Promise<void> => {
  await page.evaluate(async (one) => {
    await (window as unknown as { gallery: Gallery }).gallery.show(one);
    await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
  }, exhibit);
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    await shoot(page, `picture-${name}-${colorScheme}`);
    expect(await axe(page, colorScheme === 'dark' ? 'color-contrast' : undefined), name).toEqual([]);
  }
  await page.emulateMedia({ colorScheme: 'light' });
};
const label = (selector: string) => page.locator(selector).getAttribute('aria-label');

/** Runway 24, wind from 270° at 20 kt: 30° off from the right, cos 30° = 0.866, sin 30° = 0.5 (trigonometry). */
const WIND = { runway: 240, windDir: 270, windSpeed: 20 };

test('the components stand on the runway with the answer, in figures and words, and never with the question', async () => {
  await page.goto(server.url);
  await page.waitForFunction(() => 'gallery' in window);
  const asked = named('scenario-number');
  const told = named('scenario-verdict');
  if (asked.shown.form !== 'scenario' || told.part !== 'verdict' || told.shown.form !== 'scenario')
    throw new Error('no scenario');
  await hang({ ...asked, shown: { ...asked.shown, picture: WIND } } as Exhibit, 'wind-asked');
  expect(await label('.runway-wind')).toBe('Runway 24, wind from 270° at 20\u00a0kt. North is up.');
  expect(await page.locator('.wp-part, .wind-parts').count()).toBe(0);
  expect(await page.locator('.runway-wind').innerHTML()).not.toMatch(/>(17|10)</);
  expect(await page.locator('main').innerText()).not.toMatch(/headwind 17|from the right/i);

  // Of a gusty wind both speeds, in the question and with the answer: the gust may be what counts.
  const gusty = { ...WIND, gusty: true, gust: 33 } as const;
  const said = 'Runway 24, wind from 270° at 20\u00a0kt, gusting 33\u00a0kt. North is up.';
  await hang({ ...asked, shown: { ...asked.shown, picture: gusty } } as Exhibit, 'wind-gust');
  expect(await label('.runway-wind')).toBe(said);
  const inside = await page.evaluate(() => {
    const box = document.querySelector('.runway-wind')?.getBoundingClientRect();
    const texts = [...document.querySelectorAll('.rw-said text')].map((one) => one.getBoundingClientRect());
    return (
      texts.length === 5 &&
      box !== undefined &&
      texts.every(({ top, bottom }) => top >= box.top && bottom <= box.bottom)
    );
  });
  expect(inside).toBe(true);
  await hang({ ...told, shown: { ...told.shown, picture: gusty } }, 'wind-gust-told');
  expect(await label('.runway-wind')).toBe(said);

  await hang({ ...told, shown: { ...told.shown, picture: WIND } }, 'wind-told');
  const words = 'Headwind 17\u00a0kt, crosswind 10\u00a0kt from the right';
  expect(await label('.wind-parts')).toBe(`Runway 24, wind from 270° at 20\u00a0kt: ${words}. North is up.`);
  expect(await page.locator('figcaption').innerText()).toBe(words);
  expect(await page.locator('.wp-part').count()).toBe(2);
  expect(await page.locator('.wind-parts > text').allTextContents()).toEqual(['17', '10']);

  // From behind and from the left; square across; calm.
  await hang({ ...told, shown: { ...told.shown, picture: { ...WIND, windDir: 90 } } }, 'wind-tail');
  expect(await page.locator('figcaption').innerText()).toBe('Tailwind 17\u00a0kt, crosswind 10\u00a0kt from the left');
  await hang({ ...told, shown: { ...told.shown, picture: { ...WIND, windDir: 150 } } }, 'wind-square');
  expect(await page.locator('figcaption').innerText()).toBe(
    'No headwind or tailwind, crosswind 20\u00a0kt from the left',
  );
  expect(await page.locator('.wp-part').count()).toBe(1);
  await hang({ ...told, shown: { ...told.shown, picture: { ...WIND, windSpeed: 0 } } }, 'wind-calm');
  expect(await label('.runway-wind')).toBe('Runway 24, calm. North is up.');
});

test('a pitch is drawn with the answer, to scale, and named', async () => {
  await page.goto(server.url);
  await page.waitForFunction(() => 'gallery' in window);
  await hang(named('pitch-question'), 'pitch-asked');
  expect(await page.locator('.pitch').count()).toBe(0);
  const told = named('pitch-verdict');
  await hang(told, 'pitch-told');
  expect(await label('.pitch')).toBe('Aeroplane from the side, its nose above the horizon: pitch below 10.2°.');
  expect(await page.locator('.pitch-plane').evaluate((one) => one.parentElement?.getAttribute('transform'))).toContain(
    'rotate(-10.2)',
  );
  if (told.part !== 'verdict' || told.told.marked.detail.form !== 'limit') throw new Error('no limit');
  const { detail } = told.told.marked;
  const drawn = (pitch: readonly number[], right: string): Exhibit => ({
    ...told,
    told: { ...told.told, marked: { ...told.told.marked, detail: { ...detail, pitch, right } } },
  });
  await hang(drawn([5, 8], '5° to 8°'), 'pitch-band');
  expect(await page.locator('.pitch-band').count()).toBe(1);
  expect(await page.locator('.pitch text').allTextContents()).toEqual(['8°', '5°', 'Horizon']);
  await hang(drawn([-3.5], 'about \u22123.5°'), 'pitch-down');
  expect(await label('.pitch')).toContain('its nose below the horizon');
  await hang(drawn([27], 'at most 27°'), 'pitch-beyond');
  expect(await label('.pitch')).toContain('pitch at most 27°, drawn at 20°.');
  expect(await page.locator('.pitch').textContent()).toContain('steeper than drawn (20°)');
});

test('where a limit is read its pitch is drawn, and hidden with its answer; speeds stand on a line under the map', async () => {
  await page.goto(inject('baseUrl'));
  await firstMinutes(page, MERROW);
  const read = (thing: string) =>
    page.goto(`${inject('baseUrl')}#/read/${encodeURIComponent('recency/merrow-takeoff')}/${thing}`);
  await read('limits');
  const first = page.locator('.pitch').first();
  await first.waitFor();
  expect(await page.locator('.pitch').count()).toBe(3);
  await sound(page, 'limits with pictures');
  await press(page, 'Hide the answers');
  expect(await first.isVisible()).toBe(false);

  for (const [thing, title] of [
    ['take-off-roll', 'Speeds'],
    ['rotation', 'Speeds and heights'],
    ['clean-up', 'Speeds and heights'],
  ] as const) {
    await read(thing);
    await page.locator('.walk-tools button', { hasText: 'Map' }).tap();
    await page.locator('.map').waitFor();
    await page.getByText(title, { exact: true }).first().tap();
    await page.locator('.gates-line').first().waitFor();
    const figures = await page.locator('.gates-line text:not(.gates-name)').allTextContents();
    const words = await page.locator('.gates-list li > strong').allTextContents();
    expect(words.length).toBeGreaterThan(1);
    expect(figures.map((one, i) => (words[i] ?? '').includes(one))).toEqual(figures.map(() => true));
    if (thing === 'take-off-roll') await sound(page, `line of ${thing}`);
    else await shoot(page, `line-of-${thing}`);
  }
  // The page of pictures has no icon.
  expect(browser.errors.filter((text) => !/404/.test(text))).toEqual([]);
});
