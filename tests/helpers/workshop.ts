import type { Locator, Page } from 'playwright-core';
import { inject } from 'vitest';
import type { Json } from '../../src/lib/canonical-json.ts';
import { inDatabase } from './app.ts';

/** Opens a deck as a draft. @returns its address */
export const openAsDraft = async (page: Page, deck: object): Promise<string> => {
  await page.goto(`${inject('baseUrl')}#/workshop`);
  await page.locator('h1', { hasText: 'Workshop' }).waitFor();
  const buffer = Buffer.from(JSON.stringify(deck));
  await page
    .locator('input[type=file]')
    .first()
    .setInputFiles({ name: 'x.json', mimeType: 'application/json', buffer });
  await page.waitForURL(/#\/workshop\/\w+$/);
  return page.url();
};

/** The draft that is open, as it is stored. */
export const storedDraft = async (page: Page): Promise<Json> => {
  const id = new URL(page.url()).hash.split('/')[2] ?? '';
  return ((await inDatabase(page, 'drafts', id)) as { readonly value: Json }).value;
};

/** The box for a place of a draft. @param path JSON Pointer */
export const box = (page: Page, path: string): Locator =>
  page.locator(`:is(input, textarea, select)[data-path="${path}"]`).first();

/** The button that adds to a list. */
export const adder = (page: Page, path: string): Locator =>
  page.locator(`[data-add="${path}"]`).and(page.locator(':visible')).last();

/** JSON Pointer of the box (of a value or of its name) or step that has the focus, or the tool. */
export const focusedPlace = (page: Page): Promise<string | null> =>
  page.evaluate(() => {
    const { path, key, step, tool } = (document.activeElement as HTMLElement).dataset;
    return path ?? key ?? step ?? tool ?? null;
  });

/**
 * Drags a step by its number with the mouse. What the checker says of the page must be there: it comes above the line,
 * and moves it.
 * @param path JSON Pointer
 * @param to the words of a step, or the end of a list
 */
export const dragStep = async (page: Page, path: string, to: Locator, part: 'upper' | 'lower'): Promise<void> => {
  await page.locator(`[data-step="${path}"]`).locator('xpath=../span').hover();
  await page.mouse.down();
  for (let i = 0; i < 2; i++) {
    const end = await to.boundingBox();
    if (end === null) throw new Error('not there');
    await page.mouse.move(end.x + end.width / 2, end.y + end.height * (part === 'upper' ? 0.2 : 0.8), { steps: 4 });
  }
  await page.mouse.up();
};

/** The draft that is open rises by one behind its back: as where another tab was faster. Its value stays. */
export const changeBehind = (page: Page): Promise<void> =>
  page.evaluate(
    () =>
      new Promise((done, failed) => {
        const opening = indexedDB.open('recency');
        opening.onerror = () => failed(opening.error);
        opening.onsuccess = () => {
          const database = opening.result;
          const drafts = database.transaction('drafts', 'readwrite').objectStore('drafts');
          const reading = drafts.get(location.hash.split('/')[2] ?? '');
          reading.onsuccess = () => {
            const writing = drafts.put({ ...reading.result, seq: reading.result.seq + 1 });
            writing.onsuccess = () => {
              database.close();
              done();
            };
          };
        };
      }),
  );
