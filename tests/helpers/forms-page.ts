import { join } from 'node:path';
import { galleryServer } from '../browser/gallery/build.ts';
import { visit } from './browser.ts';

/** The forms of the Workshop on a page of their own (tests/browser/workshop-forms), driven by what it puts on `window`. */
export const formsPage = async () => {
  const server = await galleryServer(join(import.meta.dirname, '../browser/workshop-forms'));
  const browser = await visit();
  const { page } = browser;
  await page.goto(server.url);
  await page.waitForFunction(() => 'forms' in window);
  return {
    page,
    close: async () => {
      await browser.close();
      await server.close();
    },
  };
};
