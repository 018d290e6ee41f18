import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { axe, touchTargets } from './browser.ts';
import { shoot } from './shots.ts';

/** What was asked for is drawn and stands still. */
const settled = (page: Page): Promise<void> =>
  page.evaluate(async () => {
    const ending = document.getAnimations().filter((one) => one.effect?.getComputedTiming().endTime !== Infinity);
    await Promise.allSettled(ending.map(({ finished }) => finished));
    await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
  });

/**
 * What reaches beyond the right edge of the page, and by how many CSS pixels; nothing where the page does not scroll
 * sideways. The width of the window would grow with a page that is too wide: a phone zooms out.
 */
const tooWide = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const { scrollWidth, clientWidth } = document.documentElement;
    if (scrollWidth <= clientWidth) return [];
    const beyond = [...document.querySelectorAll('body *')].filter(
      (one) => one.getBoundingClientRect().right > clientWidth + 0.5,
    );
    return [`${scrollWidth - clientWidth} px`, ...beyond.slice(-3).map((one) => one.outerHTML.slice(0, 160))];
  });

/** Text at 200 % (WCAG 2.2, 1.4.4 Resize Text): the letters alone, as a phone's own setting does. */
const textAt = (page: Page, size: '200%' | ''): Promise<void> =>
  page.evaluate((to) => {
    const { style } = document.documentElement;
    style.fontSize = '';
    if (to !== '') style.fontSize = `${2 * Number.parseFloat(getComputedStyle(document.documentElement).fontSize)}px`;
  }, size);

/**
 * In both appearances: axe (WCAG 2.2 A, AA and best practices). Targets of 44 px (WCAG 2.5.5). No page wider than the
 * phone, nor than 320 px (WCAG 1.4.10 Reflow), nor with letters twice as large.
 */
export const sound = async (page: Page, name: string): Promise<void> => {
  const size = page.viewportSize();
  if (size === null) throw new Error('a page without a size');
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    await settled(page);
    await shoot(page, `${name}-${colorScheme}`);
    // The two differ in colours alone: the rules about anything else were tried in the first.
    expect
      .soft(await axe(page, colorScheme === 'dark' ? 'color-contrast' : undefined), `axe: ${name}, ${colorScheme}`)
      .toEqual([]);
  }
  await page.emulateMedia({ colorScheme: 'light' });
  expect.soft(await touchTargets(page), `targets: ${name}`).toEqual([]);
  expect.soft(await tooWide(page), `width: ${name}`).toEqual([]);
  await textAt(page, '200%');
  await shoot(page, `${name}-large`);
  expect.soft(await tooWide(page), `width, text at 200 %: ${name}`).toEqual([]);
  await textAt(page, '');
  await page.setViewportSize({ ...size, width: 320 });
  await settled(page);
  expect.soft(await tooWide(page), `width of 320: ${name}`).toEqual([]);
  expect.soft(await touchTargets(page), `targets, width of 320: ${name}`).toEqual([]);
  // To be looked at alone: at a desk.
  await page.setViewportSize({ width: 1280, height: 800 });
  await shoot(page, `${name}-desk`);
  await page.setViewportSize(size);
};
