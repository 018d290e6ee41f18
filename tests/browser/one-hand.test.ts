import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import type { SlipLine } from '../../src/model/form.ts';
import { answer, firstMinutes, MERROW, press, shown, unfold } from '../helpers/app.ts';
import { visit } from '../helpers/browser.ts';
import { shoot } from '../helpers/shots.ts';
import { type GalleryServer, galleryServer } from './gallery/build.ts';
import { crewsOf, everything, runsOf, slipsOf } from './gallery/exhibits.ts';
import type { Exhibit, Gallery } from './gallery/main.tsx';

let server: GalleryServer;
beforeAll(async () => {
  server = await galleryServer();
});
afterAll(() => server.close());

const UPRIGHT = { width: 360, height: 740 };
const ON_ITS_SIDE = { width: 740, height: 360 };

const gallery = async () => {
  const browser = await visit();
  const { page } = browser;
  await page.goto(server.url);
  await page.waitForFunction(() => 'gallery' in window);
  const hang = (exhibit: Exhibit) =>
    page.evaluate(async (one) => {
      await (window as unknown as { gallery: Gallery }).gallery.show(one);
      await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
    }, exhibit);
  return { browser, page, hang };
};

/** How far the page scrolls, px, and what of the rows is hidden or lower than a thumb needs. */
const standing = (page: Page) =>
  page.evaluate(() => {
    const bar = document.querySelector('.foot')?.getBoundingClientRect();
    const rows = [...document.querySelectorAll<HTMLElement>('.run-row')].map((row) => row.getBoundingClientRect());
    return {
      scrolls: document.documentElement.scrollHeight - document.documentElement.clientHeight,
      rows: rows.length,
      lowest: Math.min(...rows.map(({ height }) => height)),
      covered: rows.filter(({ bottom }) => bottom > (bar?.top ?? 0) + 0.5).length,
      letters: Number.parseFloat(getComputedStyle(document.querySelector('.run-row') as Element).fontSize),
    };
  });

test('a run of twelve rows stands on a phone of 360 × 740 without scrolling', async () => {
  const { browser, page, hang } = await gallery();
  // A button gives way by a pixel as long as a finger is on it: no move that is meant here.
  await page.emulateMedia({ reducedMotion: 'reduce' });
  const runs = [...runsOf('merrow-takeoff'), ...runsOf('merrow-abnormal')];
  const long = runs.filter(({ chips }) => chips.length === 12);
  expect(long.length).toBeGreaterThan(15);
  for (const run of runs) {
    await hang({ part: 'question', shown: run });
    const found = await standing(page);
    expect(found, run.title).toMatchObject({ scrolls: 0, rows: run.chips.length, covered: 0 });
    expect(found.lowest, run.title).toBeGreaterThanOrEqual(44);
    // Small letters of the rules of the look: none smaller.
    expect(found.letters, run.title).toBeGreaterThanOrEqual(16);
    // Numbering all of them moves nothing.
    if (run === long[0]) {
      const tops = () =>
        page.locator('.run-row, .bar button').evaluateAll((all) => all.map((one) => one.getBoundingClientRect().top));
      const before = await tops();
      for (const row of await page.locator('.run-row').all()) await row.tap();
      expect(await tops()).toEqual(before);
      await shoot(page, 'twelve-rows');
      await press(page, 'Edit');
      expect((await tops()).slice(0, 12)).toEqual(before.slice(0, 12));
      expect(new Set((await tops()).slice(12))).toEqual(new Set(before.slice(12)));
    }
  }
  await browser.close();
});

test('a run with slips in it stands there as well, whatever its lines are', async () => {
  const { browser, page, hang } = await gallery();
  await page.emulateMedia({ reducedMotion: 'reduce' });
  const all = ['merrow-takeoff', 'merrow-abnormal', 'public-rules'].flatMap(slipsOf);
  // Of each procedure the one with most lines.
  const most = new Map<string, (typeof all)[number]>();
  for (const one of all) if ((most.get(one.title)?.lines.length ?? 0) < one.lines.length) most.set(one.title, one);
  const [long] = [...most.values()].sort((a, b) => b.lines.length - a.lines.length);
  if (long === undefined) throw new Error('no slip');
  expect(long.lines.length).toBe(11);
  const twelve = { ...long, lines: [...long.lines, { ...(long.lines[0] as SlipLine), id: 'line-12' }] };
  for (const shown of [...most.values(), twelve]) {
    await hang({ part: 'question', shown });
    const found = await standing(page);
    expect(found, shown.title).toMatchObject({ scrolls: 0, rows: shown.lines.length, covered: 0 });
    expect(found.lowest, shown.title).toBeGreaterThanOrEqual(44);
    expect(found.letters, shown.title).toBeGreaterThanOrEqual(16);
    // Naming lines moves nothing.
    if (shown !== twelve) continue;
    const tops = () =>
      page.locator('.run-row, .bar button').evaluateAll((rows) => rows.map((row) => row.getBoundingClientRect().top));
    const before = await tops();
    for (const row of await page.locator('.run-row').all()) await row.tap();
    expect(await tops(), shown.title).toEqual(before);
    await shoot(page, 'twelve-lines');
  }
  await browser.close();
});

test('who does what: seven rows stand without scrolling, and what is dealt moves nothing', async () => {
  const { browser, page, hang } = await gallery();
  await page.emulateMedia({ reducedMotion: 'reduce' });
  const all = [...crewsOf('merrow-takeoff'), ...crewsOf('merrow-abnormal')];
  const long = all.filter(({ rows }) => rows.length === 7);
  expect(long.length).toBeGreaterThan(5);
  for (const shown of all) {
    await hang({ part: 'question', shown });
    const found = await page.evaluate(() => {
      const bar = document.querySelector('.foot')?.getBoundingClientRect();
      const seats = [...document.querySelectorAll('.seat')].map((one) => one.getBoundingClientRect());
      return {
        scrolls: document.documentElement.scrollHeight - document.documentElement.clientHeight,
        wide: document.documentElement.scrollWidth - document.documentElement.clientWidth,
        seats: seats.length,
        least: Math.min(...seats.flatMap(({ width, height }) => [width, height])),
        covered: seats.filter(({ bottom }) => bottom > (bar?.top ?? 0) + 0.5).length,
        // The seats of a row are in one line.
        lines: new Set(seats.map(({ top }) => Math.round(top))).size,
      };
    });
    const rows = shown.rows.length;
    const name = `${shown.title}: ${shown.rows[0]?.text}`;
    expect(found, name).toMatchObject({
      scrolls: 0,
      wide: 0,
      covered: 0,
      seats: rows * shown.seats.length,
      lines: rows,
    });
    expect(found.least, name).toBeGreaterThanOrEqual(44);
    if (shown !== long[0]) continue;
    const places = () =>
      page
        .locator('.seat, .bar button')
        .evaluateAll((ones) => ones.map((one) => JSON.stringify(one.getBoundingClientRect())));
    const before = await places();
    for (const row of await page.getByRole('radiogroup').all()) await row.getByRole('radio').last().tap();
    expect(await places()).toEqual(before);
    await shoot(page, 'seven-rows');
  }
  await browser.close();
});

test('every other question of the demonstration decks fits, too', async () => {
  const { browser, page, hang } = await gallery();
  for (const [name, exhibit] of Object.entries(everything())) {
    // Texts longer than a deck has; four lines of them.
    if (exhibit.part !== 'question' || /longest|disabled/.test(name)) continue;
    await hang(exhibit);
    const scrolls = await page.evaluate(
      () => document.documentElement.scrollHeight - document.documentElement.clientHeight,
    );
    expect(scrolls, name).toBe(0);
  }
  await browser.close();
});

test('at a verdict what is right is in sight, and all that can be done about it, without scrolling', async () => {
  const { browser, page, hang } = await gallery();
  const verdicts = Object.entries(everything()).filter(([, { part }]) => part === 'verdict');
  expect(verdicts.length).toBeGreaterThan(40);
  for (const width of [360, 320]) {
    await page.setViewportSize({ width, height: 740 });
    for (const [name, exhibit] of verdicts) {
      await hang(exhibit);
      const found = await page.evaluate(() => {
        const foot = document.querySelector('.foot')?.getBoundingClientRect();
        // Of a list its first step, or the first line that was wrong, with what is right about it.
        const right = document.querySelector('.right-answer, .run-told.wrong, .run-told, .walk-told .what');
        const buttons = [...document.querySelectorAll('.bar button')].map((one) => one.getBoundingClientRect());
        return {
          right: (right?.getBoundingClientRect().bottom ?? Number.POSITIVE_INFINITY) <= (foot?.top ?? 0),
          filled: document.querySelectorAll('button.main').length,
          buttons: buttons.length,
          seen: buttons.every(({ top, bottom }) => top >= (foot?.top ?? 0) && bottom <= innerHeight),
          least: Math.min(...buttons.map(({ height }) => height)),
        };
      });
      expect(found, `${name}, ${width}`).toMatchObject({ right: true, filled: 1, buttons: 4, seen: true });
      expect(found.least, name).toBeGreaterThanOrEqual(44);
    }
  }
  await browser.close();
});

test('with letters twice as large the bar stands below the rows, and what is invented stays marked', async () => {
  const { browser, page, hang } = await gallery();
  await page.evaluate(() => {
    document.documentElement.style.fontSize = '36px';
  });
  for (const [name, exhibit] of Object.entries(everything())) {
    if (!/crew-(dealt|few)/.test(name)) continue;
    await hang(exhibit);
    const found = await page.evaluate(() => {
      const mark = document.createRange();
      mark.selectNodeContents(document.querySelector('.whence strong') as Element);
      const words = (mark.startContainer.firstChild as Text) ?? mark.startContainer;
      mark.setStart(words, 0);
      mark.setEnd(words, 'Invented'.length);
      const line = document.querySelector('.whence')?.getBoundingClientRect();
      return {
        rows: [...document.querySelectorAll('.deal > li')].filter(
          (row) => row.getBoundingClientRect().bottom <= innerHeight,
        ).length,
        below: (document.querySelector('.foot')?.getBoundingClientRect().top ?? 0) > innerHeight,
        marked: mark.getBoundingClientRect().right <= (line?.right ?? 0),
      };
    });
    expect(found, name).toMatchObject({ below: true, marked: true });
    expect(found.rows, name).toBeGreaterThanOrEqual(2);
  }
  await browser.close();
});

test('on its side the bar stands beside the page, whole, at the thumb', async () => {
  const { browser, page, hang } = await gallery();
  await page.setViewportSize(ON_ITS_SIDE);
  for (const [name, exhibit] of Object.entries(everything())) {
    if (exhibit.part === 'unsure') continue;
    await hang(exhibit);
    const found = await page.evaluate(() => {
      const main = document.querySelector('main')?.getBoundingClientRect();
      const buttons = [...document.querySelectorAll('.bar button')].map((one) => one.getBoundingClientRect());
      return {
        beside: buttons.every(({ left }) => left >= (main?.right ?? 0)),
        seen: buttons.every(({ top, bottom }) => top >= 0 && bottom <= innerHeight),
        wide: document.documentElement.scrollWidth - document.documentElement.clientWidth,
        count: buttons.length,
      };
    });
    expect(found, name).toMatchObject({ beside: true, seen: true, wide: 0 });
    expect(found.count, name).toBeGreaterThan(0);
  }
  await browser.close();
});

test('what the keyboard reaches is never under the bar (WCAG 2.2, 2.4.11)', async () => {
  const { browser, page, hang } = await gallery();
  await page.setViewportSize({ width: 360, height: 520 });
  const [run] = runsOf('merrow-takeoff').filter(({ chips }) => chips.length === 12);
  if (run === undefined) throw new Error('no run');
  await hang({ part: 'question', shown: run });
  await page.locator('h1').focus();
  const reached: string[] = [];
  for (let i = 0; i < 12; i++) {
    await page.keyboard.press('Tab');
    const at = await page.evaluate(() => {
      const one = document.activeElement as HTMLElement;
      const box = one.getBoundingClientRect();
      const there = [box.top + 3, box.bottom - 3].map((y) => document.elementFromPoint(box.left + box.width / 2, y));
      return { text: one.textContent ?? '', seen: there.every((found) => one.contains(found)) };
    });
    expect(at.seen, at.text).toBe(true);
    reached.push(at.text);
  }
  expect(reached).toEqual(run.chips.map(({ text }) => text.replaceAll(/\*/g, '')));
  await browser.close();
});

/** Everything that moved by itself or under the finger (Layout Instability API, WICG), as sources. */
const watchShifts = (page: Page) =>
  page.evaluate(() => {
    const shifts: string[] = [];
    Object.assign(window, { shifts });
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries() as (PerformanceEntry & {
        value: number;
        sources: { node: Node | null }[];
      })[]) {
        const who = entry.sources.map(({ node }) => (node instanceof Element ? node.outerHTML : node?.textContent));
        shifts.push(`${entry.value.toFixed(4)} ${who.join(' | ').slice(0, 300)}`);
      }
    }).observe({ type: 'layout-shift' });
  });
const shifts = (page: Page): Promise<string[]> =>
  page.evaluate(async () => {
    await new Promise((done) => requestAnimationFrame(() => setTimeout(done, 50)));
    const { shifts: found } = window as unknown as { shifts: string[] };
    return found.splice(0);
  });

test('in a drill nothing moves that stays: not at a tap, not at a verdict, not at the next question', async () => {
  const browser = await visit();
  const { page } = browser;
  await page.goto(inject('baseUrl'));
  await firstMinutes(page, MERROW);
  await press(page, /ask me/);
  await shown(page);
  await watchShifts(page);
  // Were something moved, it would be seen.
  await page.evaluate(() => {
    const block = Object.assign(document.createElement('p'), { className: 'moved', textContent: 'x' });
    block.style.height = '90px';
    document.querySelector('.app')?.prepend(block);
  });
  expect((await shifts(page)).length).toBeGreaterThan(0);
  await page.evaluate(() => document.querySelector('.moved')?.remove());
  await shifts(page);
  const put = new Set<string>();
  for (let i = 0; i < 14; i++) {
    const now = await shown(page);
    if (now === 'debrief') break;
    if (now === 'read') await press(page, /ask me/);
    else {
      put.add(now);
      await answer(page, i % 3 === 0 ? 'Not sure' : 'Sure');
      expect(await shifts(page), `${now}, answered`).toEqual([]);
      await press(page, 'Next');
    }
    await shown(page);
    expect(await shifts(page), `after ${now}`).toEqual([]);
  }
  expect([...put].sort()).toEqual(['choice', 'number', 'run']);
  await browser.close();
});

test('the screen is kept lit in a drill alone, and again when the page is seen again', async () => {
  const browser = await visit();
  const { page } = browser;
  await page.addInitScript(() => {
    const lock = { asked: 0, lit: 0 };
    Object.assign(window, { lock });
    const request = async () => {
      lock.asked += 1;
      lock.lit += 1;
      const one = {
        released: false,
        release: async () => {
          if (!one.released) lock.lit -= 1;
          one.released = true;
        },
      };
      // As a browser does with a page that is hidden.
      document.addEventListener('visibilitychange', () => document.visibilityState === 'hidden' && one.release());
      return one;
    };
    Object.defineProperty(navigator, 'wakeLock', { value: { request } });
  });
  const lock = () => page.evaluate(() => (window as unknown as { lock: { asked: number; lit: number } }).lock);
  const turn = (to: string) =>
    page.evaluate((state) => {
      Object.defineProperty(document, 'visibilityState', { value: state, configurable: true });
      document.dispatchEvent(new Event('visibilitychange'));
    }, to);
  await page.goto(inject('baseUrl'));
  await press(page, 'I have read this');
  expect(await lock()).toEqual({ asked: 0, lit: 0 });
  await page.reload();
  await press(page, /initial climb/);
  await press(page, 'Install');
  for (const label of MERROW.flies ?? []) await page.getByLabel(label).first().check();
  await press(page, 'Go on');
  await press(page, /^No date yet/);
  await press(page, /ask me/);
  await shown(page);
  await expect.poll(lock).toEqual({ asked: 1, lit: 1 });
  await turn('hidden');
  await expect.poll(lock).toEqual({ asked: 1, lit: 0 });
  await turn('visible');
  await expect.poll(lock).toEqual({ asked: 2, lit: 1 });
  await press(page, 'Leave');
  await page.getByRole('button', { name: /^Go on/ }).waitFor();
  await expect.poll(lock).toEqual({ asked: 2, lit: 0 });
  await browser.close();
});

test('the device buzzes at a verdict only where the learner wants it to', async () => {
  const browser = await visit();
  const { page } = browser;
  await page.addInitScript(() => {
    const buzzes: number[][] = [];
    Object.assign(window, { buzzes });
    Object.defineProperty(navigator, 'vibrate', { value: (ms: number[]) => buzzes.push(ms) > 0 });
  });
  const buzzes = () => page.evaluate(() => (window as unknown as { buzzes: number[][] }).buzzes.splice(0));
  await page.goto(inject('baseUrl'));
  await firstMinutes(page, MERROW);
  await press(page, /ask me/);
  await answer(page, 'Sure');
  expect(await buzzes()).toEqual([]);
  await page.goto(`${inject('baseUrl')}#/settings`);
  await unfold(page, 'Appearance and letters');
  const box = page.getByRole('checkbox', { name: /^Buzz at a verdict/ });
  expect(await box.isChecked()).toBe(false);
  await box.check();
  // So that one knows what it is like.
  expect(await buzzes()).toHaveLength(1);
  await page.goto(`${inject('baseUrl')}#/drill`);
  await press(page, 'Next');
  // The verdict that stood there was told before.
  expect(await buzzes()).toEqual([]);
  while ((await shown(page)) === 'read') await press(page, /ask me/);
  await answer(page, 'Sure');
  const right = (await page.locator('.fate').innerText()).startsWith('Right');
  expect(await buzzes()).toEqual([right ? [30] : [60, 80, 60]]);
  await press(page, 'Next');
  while ((await shown(page)) === 'read') await press(page, /ask me/);
  await answer(page, "Don't know");
  expect(await buzzes()).toEqual([]);
  await page.reload();
  await page.goto(`${inject('baseUrl')}#/settings`);
  await unfold(page, 'Appearance and letters');
  await expect.poll(() => box.isChecked()).toBe(true);
  await browser.close();
});

test('large letters on dark paper: chosen, kept, and no page is wider than the phone', async () => {
  const browser = await visit();
  const { page } = browser;
  await page.goto(inject('baseUrl'));
  await firstMinutes(page, MERROW);
  await press(page, /ask me/);
  await shown(page);
  const letters = () => page.evaluate(() => Number.parseFloat(getComputedStyle(document.documentElement).fontSize));
  const usual = await letters();
  await page.goto(`${inject('baseUrl')}#/settings`);
  await unfold(page, 'Appearance and letters');
  await page.getByRole('radio', { name: 'Dark' }).check();
  /** What is tapped stays under the finger, though all of the page grows or shrinks. */
  const choose = async (name: string): Promise<number> => {
    const radio = page.getByRole('radio', { name });
    const top = () => radio.evaluate((one) => Math.round(one.getBoundingClientRect().top));
    await radio.scrollIntoViewIfNeeded();
    const before = await top();
    await radio.check();
    await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
    expect(Math.abs((await top()) - before), name).toBeLessThanOrEqual(1);
    return letters();
  };
  const larger = await choose('Larger');
  await choose('Largest');
  await page.evaluate(() => scrollTo(0, 0));
  // Smaller again: above it there is less, and nowhere to scroll.
  await choose('Larger');
  const largest = await choose('Largest');
  expect(larger / usual).toBeCloseTo(1.25, 2);
  expect(largest / usual).toBeCloseTo(1.6, 2);
  await page.reload();
  await expect.poll(letters).toBe(largest);
  expect(await page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor)).toBe('rgb(20, 24, 28)');
  for (const place of ['', 'drill', 'decks', 'settings'])
    for (const size of [UPRIGHT, ON_ITS_SIDE, { width: 320, height: 640 }]) {
      await page.setViewportSize(size);
      await page.goto(`${inject('baseUrl')}#/${place}`);
      await page.locator('h1').first().waitFor();
      await shoot(page, `largest-${place}-${size.width}`);
      const wide = await page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      );
      expect(wide, `${place}, ${size.width}`).toBe(0);
      // What answers is seen, or scrolls within the bar.
      const inBar = await page.locator('.foot').evaluate((one) => one.getBoundingClientRect().bottom - innerHeight);
      expect(inBar, `${place}, ${size.width}`).toBeLessThanOrEqual(0.5);
    }
  await browser.close();
});
