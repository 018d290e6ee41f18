import type { Page } from 'playwright-core';
import { expect, inject, test } from 'vitest';
import { answer, type Put, press, shown } from '../helpers/app.ts';
import { axe, type Launched, launch, touchTargets } from '../helpers/browser.ts';

/** Axe (WCAG 2.2 A, AA and best practices), targets of 44 px (WCAG 2.5.5), and no page wider than the phone. */
const soundIn =
  (scheme: 'light' | 'dark') =>
  async (page: Page, name: string): Promise<void> => {
    await page.waitForTimeout(120);
    // The two differ in colours alone.
    expect(await axe(page, scheme === 'dark' ? 'color-contrast' : undefined), `axe: ${name}`).toEqual([]);
    expect(await touchTargets(page), `targets: ${name}`).toEqual([]);
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    expect(wide, `width: ${name}`).toBeLessThanOrEqual(0);
  };

test.each(['light', 'dark'] as const)(
  'every screen, %s',
  async (colorScheme) => {
    const browser: Launched = await launch({ colorScheme });
    const { page } = browser;
    const sound = soundIn(colorScheme);
    page.setDefaultTimeout(8000);
    try {
      await page.goto(inject('baseUrl'));
      await page.getByRole('button', { name: 'I have read this' }).waitFor();
      await sound(page, 'caution');
      await press(page, 'I have read this');
      await page.getByRole('button', { name: /initial climb/ }).waitFor();
      await sound(page, 'first decks');
      await page.locator('input[type=file]').setInputFiles({
        name: 'x.json',
        mimeType: 'application/json',
        buffer: Buffer.from('{"format": 2}'),
      });
      await page.getByText('Not installed').waitFor();
      await sound(page, 'refused');
      await press(page, 'Back to the decks');
      await press(page, /initial climb/);
      await page.getByRole('button', { name: 'Install' }).waitFor();
      await sound(page, 'install');
      await press(page, 'Install');
      await page.getByLabel(/TK-11/).check();
      await page.getByLabel(/TK-14/).check();
      await page.getByLabel(/Calder/).check();
      await sound(page, 'variants');
      await press(page, 'Go on');
      await page.getByLabel('Check date').fill('2027-01-12');
      await sound(page, 'date');
      await press(page, /^Begin/);
      await page.getByRole('button', { name: /ask me/ }).waitFor();
      await sound(page, 'reading');

      const seen = new Set<Put>();
      for (let i = 0; i < 24 && !(seen.has('run') && seen.has('number') && seen.has('choice')); i++) {
        const put = await shown(page);
        if (put === 'read') {
          await press(page, /ask me/);
          await page.waitForTimeout(100);
          continue;
        }
        const fresh = !seen.has(put);
        seen.add(put);
        if (fresh) {
          await sound(page, `question ${put}`);
          if (put === 'run') {
            for (let row = 0; row < 3; row++) await page.locator('.run-row').nth(row).tap();
            await press(page, 'Move steps');
            await sound(page, 'moving steps');
            await press(page, 'Done moving');
            await press(page, 'Not sure');
            await sound(page, 'which steps');
            await press(page, 'Back');
            for (let row = 0; row < 3; row++) await page.locator('.run-row').nth(row).tap();
          }
        }
        await answer(page, 'Sure');
        if (fresh) await sound(page, `verdict ${put}`);
        if (fresh && put === 'run') {
          await press(page, 'Query this question');
          await sound(page, 'query');
          await press(page, 'Never mind');
        }
        await press(page, 'Next');
      }
      expect([...seen].sort()).toEqual(['choice', 'number', 'run']);
      await press(page, 'Leave');
      await page.getByRole('button', { name: /^Go on/ }).waitFor();
      await sound(page, 'brief, drill under way');
      await press(page, 'Go on with your drill');
      if ((await shown(page)) === 'read') await press(page, /ask me/);
      await answer(page, "Don't know");
      await press(page, 'Enough for today');
      await page.getByRole('heading', { name: 'Debrief' }).waitFor();
      await sound(page, 'debrief');
      await press(page, 'To the Brief');
      await page.getByRole('button', { name: /^Start/ }).waitFor();
      await sound(page, 'brief');
      for (const place of [
        'decks',
        'settings',
        'deck/recency%2Fmerrow-takeoff',
        'read/recency%2Fmerrow-takeoff/limits',
        'read/recency%2Fmerrow-takeoff/scenarios',
        'read/recency%2Fmerrow-takeoff/clean-up',
      ]) {
        await page.goto(`${inject('baseUrl')}#/${place}`);
        await page.waitForTimeout(250);
        await sound(page, place);
      }
      expect(browser.errors).toEqual([]);
    } finally {
      await browser.close();
    }
  },
  120_000,
);
