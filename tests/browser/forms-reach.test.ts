import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { axe, touchTargets, type Visit, visit } from '../helpers/browser.ts';
import { shoot } from '../helpers/shots.ts';
import { type GalleryServer, galleryServer } from './gallery/build.ts';
import { everything, named, odd } from './gallery/exhibits.ts';
import type { Answered, Exhibit, Gallery } from './gallery/main.tsx';

/** Every way to ask, from the registry itself: a form that comes later is in this table without a word. */
const FORMS = Object.keys(everything()).filter((name) => name.startsWith('each-') && !name.endsWith('-told'));

let server: GalleryServer;
let browser: Visit;
let page: Page;
beforeAll(async () => {
  server = await galleryServer();
  browser = await visit();
  page = browser.page;
  await page.goto(server.url);
  await page.waitForFunction(() => 'gallery' in window);
});
afterAll(async () => {
  await browser.close();
  await server.close();
});

const hang = (exhibit: Exhibit) =>
  page.evaluate(async (one) => {
    await (window as unknown as { gallery: Gallery }).gallery.show(one);
    await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
  }, exhibit);
const answered = (): Promise<Answered | null> =>
  page.evaluate(() => (window as unknown as { gallery: Gallery }).gallery.answered());

/** What has the focus, as assistive technology meets it. */
const focused = () =>
  page.evaluate(() => {
    const one = document.activeElement as HTMLElement;
    const field = one instanceof HTMLInputElement || one instanceof HTMLTextAreaElement;
    const box = one.getBoundingClientRect();
    const { outlineStyle, outlineWidth } = getComputedStyle(one);
    return {
      kind: one === document.body ? 'none' : field ? (one as HTMLInputElement).type : one.tagName.toLowerCase(),
      name:
        one.getAttribute('aria-label') ??
        (field ? (one as HTMLInputElement).labels?.[0]?.textContent : one.textContent) ??
        '',
      numeric: one.getAttribute('inputmode') === 'decimal',
      pressed: one.getAttribute('aria-pressed'),
      inBar: one.closest('.bar') !== null,
      inMain: one.closest('main') !== null,
      outlined: outlineStyle !== 'none' && Number.parseFloat(outlineWidth) >= 2 && box.width > 0,
    };
  });
/** What is said by itself when something changes (WCAG 2.2, 4.1.3). */
const live = (): Promise<string> =>
  page
    .locator('[aria-live], [role=status], [role=alert], output')
    .evaluateAll((all) => all.map((one) => one.textContent?.trim()).join(' '));

test.each(FORMS)('%s: reached, answered and left by the keyboard alone, and what changes is said', async (name) => {
  await page.emulateMedia({ colorScheme: 'light', reducedMotion: 'reduce' });
  await hang(named(name));
  // A screen reader begins at the heading, which says what is asked.
  expect(await page.evaluate(() => document.activeElement?.tagName)).toBe('H1');
  let silent = 0;
  let entered = 0;
  const groups = new Set<string>();
  for (let i = 0; i < 60; i++) {
    await page.keyboard.press('Tab');
    const at = await focused();
    if (!at.inMain) {
      if (at.inBar || at.kind === 'none') break;
      continue;
    }
    expect(at.outlined, `focus is seen: ${at.name}`).toBe(true);
    expect(at.name.trim(), `${at.kind} has a name`).not.toBe('');
    const before = await live();
    if (at.kind === 'radio') {
      const group = await page.evaluate(() => (document.activeElement as HTMLInputElement).name);
      expect(groups.has(group), 'a group is one stop').toBe(false);
      groups.add(group);
      await page.keyboard.press('Space');
      await page.keyboard.press('ArrowDown');
      expect(await page.evaluate(() => (document.activeElement as HTMLInputElement).checked)).toBe(true);
    } else if (at.kind === 'checkbox') {
      await page.keyboard.press('Space');
      expect(await page.evaluate(() => (document.activeElement as HTMLInputElement).checked)).toBe(true);
    } else if (at.kind === 'text' || at.kind === 'textarea') {
      await page.keyboard.type(at.numeric ? '17' : 'some words');
      // The reading of a number is echoed before it counts.
      if (at.numeric && (await live()) === before) silent += 1;
    } else if (at.pressed !== null) {
      if (at.name === 'Minus') continue;
      await page.keyboard.press('Space');
      expect((await focused()).pressed, at.name).not.toBe(at.pressed);
      if ((await live()) === before) silent += 1;
    } else continue;
    entered += 1;
  }
  expect(entered, 'something was entered').toBeGreaterThan(0);
  expect(silent, 'what was tapped or typed is said').toBe(0);
  // On to the answers; none of them takes the focus by surprise.
  for (let i = 0; i < 8 && (await focused()).name !== 'Sure'; i++) {
    const at = await focused();
    expect(at.inBar || at.inMain || at.kind === 'a', `on the way to Sure: ${at.name}`).toBe(true);
    await page.keyboard.press('Tab');
  }
  expect((await focused()).name).toBe('Sure');
  await page.keyboard.press('Enter');
  expect(await answered()).toEqual({ sure: true, unsure: [] });
});

test.each(FORMS)('%s: axe in both themes, targets, 320 px and letters twice as large', async (name) => {
  const size = page.viewportSize();
  if (size === null) throw new Error('a page without a size');
  const tooWide = () =>
    page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  for (const one of [name, `${name}-told`]) {
    await hang(named(one));
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme });
      await shoot(page, `${one}-${colorScheme}`);
      expect(await axe(page, colorScheme === 'dark' ? 'color-contrast' : undefined), `${one}, ${colorScheme}`).toEqual(
        [],
      );
    }
    await page.emulateMedia({ colorScheme: 'light' });
    expect(await touchTargets(page), one).toEqual([]);
    // WCAG 2.2, 1.4.10 Reflow and 1.4.4 Resize Text.
    await page.setViewportSize({ width: 320, height: 640 });
    expect(await touchTargets(page), `${one}, 320`).toEqual([]);
    expect(await tooWide(), `${one}, 320`).toBe(0);
    await page.setViewportSize(size);
    await page.evaluate(() => {
      document.documentElement.style.fontSize = '36px';
    });
    expect(await tooWide(), `${one}, letters of 36 px`).toBe(0);
    await page.evaluate(() => {
      document.documentElement.style.fontSize = '';
    });
  }
});

test.each(['forty', 'right-to-left'] as const)(
  '%s: whatever a deck is written in, no form breaks',
  async (how) => {
    const size = page.viewportSize();
    if (size === null) throw new Error('a page without a size');
    await page.emulateMedia({ colorScheme: 'light' });
    await page.setViewportSize({ ...size, width: 320 });
    const all = Object.entries(odd(how));
    expect(new Set(all.map(([name]) => name.replace(`${how}-`, '').split('-')[0])).size).toBeGreaterThan(9);
    for (const [name, exhibit] of all) {
      await hang(exhibit);
      await shoot(page, name);
      expect(await axe(page), name).toEqual([]);
      const wide = await page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      );
      expect(wide, name).toBe(0);
      expect(await touchTargets(page), name).toEqual([]);
      // Where a line runs from right to left, the mark at its end stands left of its first letter.
      const turned = await page.evaluate(() => {
        const at = (node: Node, i: number): DOMRect => {
          const one = document.createRange();
          one.setStart(node, i);
          one.setEnd(node, i + 1);
          return one.getBoundingClientRect();
        };
        const texts = document.createTreeWalker(document.querySelector('main') as Element, NodeFilter.SHOW_TEXT);
        const wrong: string[] = [];
        for (let node = texts.nextNode(); node !== null; node = texts.nextNode()) {
          const text = node.textContent ?? '';
          const first = text.search(/[\u05d0-\u05ea]/);
          const seen = first >= 0 && /^[^a-z]*!$/i.test(text) && at(node, first).width > 1;
          if (seen && at(node, text.length - 1).left >= at(node, first).left) wrong.push(text);
        }
        return wrong;
      });
      expect(turned, name).toEqual([]);
    }
  },
  120_000,
);

test('with less motion wished for, nothing moves at all (WCAG 2.2, 2.3.3)', async () => {
  await page.emulateMedia({ reducedMotion: 'reduce' });
  const moved = async (name: string) => {
    await hang(named(name));
    const button = page.getByRole('button', { name: "Don't know" });
    const box = await button.boundingBox();
    if (box === null) throw new Error('no button');
    await page.mouse.move(box.x + 5, box.y + 5);
    await page.mouse.down();
    const [translate, running] = await button.evaluate((one) => [
      getComputedStyle(one).translate,
      document.getAnimations().length,
    ]);
    await page.mouse.up();
    return { translate, running };
  };
  expect(await moved('run-empty')).toEqual({ translate: 'none', running: 0 });
  await page.emulateMedia({ reducedMotion: 'no-preference' });
  expect((await moved('run-empty')).translate).toBe('0px 1px');
});

test('"not sure" of a run: which steps, by the keyboard alone', async () => {
  await hang(named('run-numbered'));
  await page.getByRole('button', { name: 'Not sure' }).focus();
  await page.keyboard.press('Enter');
  await page.getByRole('heading', { name: 'Which steps are you not sure of?' }).waitFor();
  expect(await page.evaluate(() => document.activeElement?.tagName)).toBe('H1');
  for (let i = 0; i < 3 && (await focused()).kind !== 'checkbox'; i++) await page.keyboard.press('Tab');
  await page.keyboard.press('Space');
  await page.getByRole('button', { name: 'These' }).focus();
  await page.keyboard.press('Enter');
  const given = await answered();
  expect(given?.sure).toBe(false);
  expect(given?.unsure).toHaveLength(1);
});

test('what is put right by the keyboard: the focus goes into the tools and comes back, and each change is said', async () => {
  await hang(named('run-numbered'));
  await page.getByRole('button', { name: 'Edit' }).focus();
  await page.keyboard.press('Enter');
  expect((await focused()).name).toBe('Done');
  await page.getByRole('button', { name: 'Take back' }).focus();
  await page.keyboard.press('Enter');
  expect(await live()).toContain('Taken back: number 4.');
  await page.getByRole('button', { name: 'Clear' }).focus();
  await page.keyboard.press('Enter');
  expect(await live()).toContain('All numbers cleared.');
  expect((await focused()).name).toBe('Undo');
  await page.keyboard.press('Enter');
  expect(await live()).toContain('The numbers are back.');
  await page.getByRole('button', { name: 'Done' }).focus();
  await page.keyboard.press('Enter');
  expect((await focused()).name).toBe('Edit');
});
