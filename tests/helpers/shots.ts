import { join } from 'node:path';
import type { Page } from 'playwright-core';

/** Keeps a picture of the whole page where RECENCY_SHOTS names a folder, to be looked at. */
export const shoot = async (page: Page, name: string): Promise<void> => {
  const folder = process.env.RECENCY_SHOTS;
  if (folder === undefined) return;
  await page.screenshot({ path: join(folder, `${name.replaceAll(/[^\w-]+/g, '-')}.png`), fullPage: true });
};
