import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Draft } from '../../src/drill/types.ts';
import { axe, touchTargets, type Visit, visit } from '../helpers/browser.ts';
import { shoot } from '../helpers/shots.ts';
import { type GalleryServer, galleryServer } from './gallery/build.ts';
import { everything, longest, named } from './gallery/exhibits.ts';
import type { Exhibit, Gallery } from './gallery/main.tsx';

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

/** Hung up and drawn. */
const hang = (exhibit: Exhibit) =>
  page.evaluate(async (one) => {
    await (window as unknown as { gallery: Gallery }).gallery.show(one);
    await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
  }, exhibit);
const ask = (draft: Draft = {}, disabled = false) => hang({ part: 'question', shown: longest, draft, disabled });
const draft = (): Promise<Draft> => page.evaluate(() => (window as unknown as { gallery: Gallery }).gallery.draft());
const order = async () => ((await draft()).order ?? []).join(' ');
/** Nothing has the focus: the keys of a phone are down. */
const keysDown = () => page.evaluate(() => document.activeElement === document.body);
const row = (id: string): Locator => page.locator(`[data-step=${id}] .run-row`);
const button = (name: string | RegExp): Locator => page.getByRole('button', { name, exact: typeof name === 'string' });
const margins = async () => (await page.locator('.run > li .margin').allInnerTexts()).map((text) => text.trim());
const focused = () => page.evaluate(() => document.activeElement?.getAttribute('aria-label') ?? '');

const moveSteps = async () => {
  await button('Edit').tap();
  await button('Move').tap();
};

/** No page wider than the phone, nothing outside its margin, the picture no taller than it may be: more with the answer. */
const within = async (name: string) => {
  const [wide, broken, asked, told] = await page.evaluate(() => [
    // innerWidth would grow with a page that is too wide: a phone zooms out.
    document.documentElement.scrollWidth - document.documentElement.clientWidth,
    [...document.querySelectorAll('.margin, .who')].filter((one) => {
      const written = document.createRange();
      written.selectNodeContents(one);
      const tops = [...written.getClientRects()].map(({ top }) => top);
      // A number of two digits and its sign stand on one line.
      const line = 0.7 * Number.parseFloat(getComputedStyle(one).fontSize);
      const lines = one.matches('.margin') && Math.max(...tops) - Math.min(...tops) > line;
      return one.scrollWidth > one.clientWidth || lines;
    }).length,
    document.querySelector('.runway-wind:not(.wind-parts)')?.getBoundingClientRect().height ?? 0,
    document.querySelector('.wind-parts')?.getBoundingClientRect().height ?? 0,
  ]);
  expect(wide, `width: ${name}`).toBeLessThanOrEqual(0);
  expect(broken, `margin: ${name}`).toBe(0);
  expect(asked, `picture: ${name}`).toBeLessThanOrEqual(150);
  expect(told, `picture with the answer: ${name}`).toBeLessThanOrEqual(200);
};

/** Axe: WCAG 2.2 A and AA; targets: WCAG 2.2, 2.5.5. */
const sound = async (name: string, dark: boolean) => {
  await shoot(page, `${name}-${dark ? 'dark' : 'light'}`);
  // The two differ in colours alone.
  expect(await axe(page, dark ? 'color-contrast' : undefined), `axe: ${name}`).toEqual([]);
  expect(await touchTargets(page), `targets: ${name}`).toEqual([]);
  await within(name);
};

/** Where each colour of the dark appearance is met. */
const DARK = [
  'run-numbered',
  'run-disabled',
  'run-verdict-wrong',
  'next-chosen',
  'next-verdict-wrong',
  'slip-named',
  'slip-verdict-some',
  'limit-unreadable',
  'limit-verdict-wrong',
  'limit-verdict-right',
  'scenario-number',
  'scenario-verdict-choice',
  'crew-dealt',
  'crew-disabled',
  'crew-verdict-wrong',
];

test.each(['light', 'dark'] as const)(
  'every form in every state is sound, %s',
  async (colorScheme) => {
    const dark = colorScheme === 'dark';
    await page.emulateMedia({ colorScheme });
    for (const [name, exhibit] of Object.entries(everything())) {
      if (dark ? !DARK.includes(name) : name.startsWith('wind-')) continue;
      await hang(exhibit);
      await sound(name, dark);
    }
    await hang(named('run-longest'));
    await button('Edit').tap();
    await sound('run-editing', dark);
    await button('Move').tap();
    await sound('run-moving', dark);
    await page.emulateMedia({ colorScheme: 'light' });
    // The page has no icon.
    expect(browser.errors.filter((text) => !/404/.test(text))).toEqual([]);
  },
  120_000,
);

test('with letters twice as large nothing leaves the page or its margin (WCAG 2.2, 1.4.4)', async () => {
  const letters = (size: string) =>
    page.evaluate((px) => {
      document.documentElement.style.fontSize = px;
    }, size);
  await letters('36px');
  try {
    for (const [name, exhibit] of Object.entries(everything())) {
      await hang(exhibit);
      await shoot(page, `${name}-large`);
      await within(`${name}, large`);
    }
    await hang(named('run-longest'));
    await moveSteps();
    await shoot(page, 'run-moving-large');
    await within('run-moving, large');
  } finally {
    await letters('');
  }
});

test('a tap puts the next number in the margin, a second one takes it back; no row moves', async () => {
  await ask();
  const places = () => page.locator('.run > li').evaluateAll((all) => all.map((one) => (one as HTMLElement).offsetTop));
  const before = await places();
  for (let i = 0; i < 12; i++) await row(`s${i}`).tap();
  expect(await places()).toEqual(before);
  expect((await margins()).slice(2)).toEqual(['1', '2', '3', '4', '5', '6', '7', '8', '9', '10', '11', '12']);
  for (const id of ['s3', 's0', 's11']) await row(id).tap();
  expect(await order()).toBe('s1 s2 s4 s5 s6 s7 s8 s9 s10');
  expect((await margins()).slice(2)).toEqual(['', '1', '2', '', '3', '4', '5', '6', '7', '8', '9', '']);
  expect(await places()).toEqual(before);
  // What comes before is context, and no part of the answer.
  expect((await margins()).slice(0, 2)).toEqual(['✓', '✓']);
});

test('what is tapped is told to a screen reader', async () => {
  await ask();
  await row('s2').tap();
  const live = page.locator('[aria-live=polite]').last();
  expect(await live.innerText()).toBe('1: Start the timer');
  expect(await row('s2').getAttribute('aria-pressed')).toBe('true');
  await row('s8').tap();
  expect(await live.innerText()).toBe('2: Rotate');
  await row('s2').tap();
  expect(await live.innerText()).toBe('Taken back: Start the timer');
  expect(await row('s2').getAttribute('aria-pressed')).toBe('false');
});

test('the last one taken back, all cleared, and all brought back', async () => {
  await ask({ order: ['s3', 's2', 's1'] });
  await button('Edit').tap();
  await button('Take back').tap();
  expect(await order()).toBe('s3 s2');
  await button('Clear').tap();
  expect(await order()).toBe('');
  expect(await button('Take back').isDisabled()).toBe(true);
  await button('Undo').tap();
  expect(await order()).toBe('s3 s2');
  await button('Clear').tap();
  await row('s5').tap();
  // Once something is numbered anew there is nothing to bring back.
  expect(await button('Undo').count()).toBe(0);
  await button('Take back').tap();
  expect(await button('Clear').isDisabled()).toBe(true);
});

test('steps are moved with the arrows, by finger and by keyboard alone', async () => {
  // Browsers without it take the focus from a row that is put elsewhere in the document.
  await page.evaluate(() => Reflect.deleteProperty(Element.prototype, 'moveBefore'));
  await ask({ order: ['s3', 's2', 's1'] });
  await moveSteps();
  expect(await page.locator('.run > li').count()).toBe(3);
  await button('Later: Release the brakes').tap();
  expect(await order()).toBe('s2 s3 s1');
  expect(await page.locator('.run > li .run-text').allInnerTexts()).toEqual([
    'Start the timer',
    'Release the brakes',
    longest.chips[1]?.text,
  ]);
  // The row went elsewhere, the keyboard stays on its button, also at the end.
  await button('Earlier: Release the brakes').focus();
  await page.keyboard.press('Enter');
  expect(await order()).toBe('s3 s2 s1');
  expect(await focused()).toBe('Earlier: Release the brakes');
  await page.keyboard.press('Enter');
  expect(await order()).toBe('s3 s2 s1');
  expect(await focused()).toBe('Earlier: Release the brakes');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Space');
  await page.keyboard.press('Space');
  expect(await order()).toBe('s2 s1 s3');
  expect(await focused()).toBe('Later: Release the brakes');
  // In one row as before: none has jumped away from under the finger.
  const tops = await page
    .locator('.bar button')
    .evaluateAll((all) => all.map((one) => one.getBoundingClientRect().top));
  expect(new Set(tops).size).toBe(1);
  await button('Done').tap();
  expect((await margins()).slice(2, 6)).toEqual(['', '2', '1', '3']);
});

test('a run is answered with the keyboard alone', async () => {
  await ask();
  await row('s0').focus();
  await page.keyboard.press('Space');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await page.keyboard.press('Shift+Tab');
  await page.keyboard.press('Space');
  expect(await order()).toBe('s1');
});

/** One finger, from the middle of one element to just beyond the middle of another. */
const swipe = async (from: Locator, to: Locator, end: 'touchEnd' | 'touchCancel' = 'touchEnd') => {
  const middle = async (one: Locator) => {
    const box = await one.boundingBox();
    if (box === null) throw new Error('nothing there');
    return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
  };
  const [a, b] = [await middle(from), await middle(to)];
  const client = await browser.context.newCDPSession(page);
  await client.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: [a] });
  for (let i = 1; i <= 8; i++) {
    const at = { x: a.x, y: a.y + ((b.y + Math.sign(b.y - a.y) * 8 - a.y) * i) / 8 };
    await client.send('Input.dispatchTouchEvent', { type: 'touchMove', touchPoints: [at] });
    await page.waitForTimeout(16);
  }
  await client.send('Input.dispatchTouchEvent', { type: end, touchPoints: [] });
  await client.detach();
  await page.waitForTimeout(50);
};
const handle = (id: string) => page.locator(`[data-step=${id}] .margin`);

test('a step is dragged by its number; elsewhere a finger scrolls', async () => {
  await ask({ order: ['s3', 's2', 's1', 's0', 's4', 's5', 's6', 's7', 's8', 's9'] });
  await moveSteps();
  await page.evaluate(() => scrollTo(0, 0));
  await swipe(handle('s3'), handle('s0'));
  expect(await order()).toBe('s2 s1 s0 s3 s4 s5 s6 s7 s8 s9');
  await swipe(handle('s3'), handle('s2'));
  expect(await order()).toBe('s3 s2 s1 s0 s4 s5 s6 s7 s8 s9');
  // The system took the finger away: nothing was moved.
  await swipe(handle('s3'), handle('s0'), 'touchCancel');
  expect(await order()).toBe('s3 s2 s1 s0 s4 s5 s6 s7 s8 s9');
  expect(await page.locator('.run-held').count()).toBe(0);
  // What fits the screen does not scroll: a lower one.
  await page.setViewportSize({ width: 360, height: 560 });
  const scrolled = await page.evaluate(() => scrollY);
  await swipe(page.locator('[data-step=s0] .run-text'), page.locator('[data-step=s3] .run-text'));
  expect(await page.evaluate(() => scrollY)).toBeGreaterThan(scrolled + 40);
  expect(await order()).toBe('s3 s2 s1 s0 s4 s5 s6 s7 s8 s9');
  await page.setViewportSize({ width: 360, height: 740 });
});

test('a finger that scrolls over the rows numbers none of them', async () => {
  await ask();
  await page.evaluate(() => scrollTo(0, 0));
  await swipe(row('s2'), row('s0'));
  expect(await page.evaluate(() => scrollY)).toBeGreaterThan(20);
  expect(await order()).toBe('');
});

test('while an answer is being kept nothing can be changed', async () => {
  await ask({ order: ['s3', 's2', 's1'] }, true);
  for (const one of await page.locator('main button').all()) expect(await one.isDisabled()).toBe(true);
  expect(await order()).toBe('s3 s2 s1');
});

test('a number: the reading is echoed, the minus keeps the keys up, what cannot be read is said', async () => {
  await hang(named('limit-empty'));
  const field = page.locator('.number-field input');
  const echo = page.locator('.echo');
  expect(await field.getAttribute('inputmode')).toBe('decimal');
  await field.tap();
  await page.keyboard.type('1.500');
  expect(await echo.innerText()).toBe('= 1500\u00a0ft');
  await button('Minus').tap();
  expect(await field.inputValue()).toBe('\u22121.500');
  expect(await echo.innerText()).toBe('= \u22121500\u00a0ft');
  expect(await field.evaluate((one) => one === document.activeElement)).toBe(true);
  await button('Minus').tap();
  expect((await draft()).typed).toEqual(['1.500']);
  await field.fill('1.5.00,0');
  expect(await echo.innerText()).toMatch(/decimal mark/);
  expect(await field.getAttribute('aria-invalid')).toBe('true');
  await page.keyboard.press('Enter');
  expect(await keysDown()).toBe(false);
  await field.fill('550');
  expect(await field.getAttribute('aria-invalid')).toBe('false');
  // All that was typed is seen.
  await field.fill('10 500,5');
  expect(await field.evaluate((one) => one.scrollWidth - one.clientWidth)).toBeLessThanOrEqual(0);
  await page.keyboard.press('Enter');
  expect(await keysDown()).toBe(true);
});

test('of two numbers, Enter goes to the one that is not done yet', async () => {
  await hang(named('limit-band'));
  const field = (i: number) => page.locator('.number-field input').nth(i);
  await field(0).fill('9');
  await field(0).press('Enter');
  expect(await field(1).evaluate((one) => one === document.activeElement)).toBe(true);
  await page.keyboard.type('17');
  await page.keyboard.press('Enter');
  expect(await keysDown()).toBe(true);
  expect((await draft()).typed).toEqual(['9', '17']);
});

test('a choice is one of a group, by finger and by keyboard', async () => {
  await hang(named('scenario-choice'));
  const radios = page.getByRole('radio');
  expect(await page.getByRole('group').count()).toBe(1);
  await radios.nth(1).tap();
  const second = (await draft()).choice;
  await page.keyboard.press('ArrowDown');
  const third = (await draft()).choice;
  expect(third).not.toBe(second);
  expect(await page.locator('input:checked').count()).toBe(1);
});

/** Does the arrow of the wind cover neither a text nor north? */
const apart = () =>
  page.locator('.rw-wind').evaluate((wind) => {
    const arrow = wind as SVGPathElement;
    const there = arrow.getScreenCTM()?.inverse();
    const steps = [0, 0.25, 0.5, 0.75, 1];
    return [...document.querySelectorAll('.rw-number, .rw-said text, .rw-north')].every((one) => {
      const { x, y, width, height } = one.getBoundingClientRect();
      const spots = steps.flatMap((a) => steps.map((b) => new DOMPoint(x + a * width, y + b * height)));
      return spots.every((spot) => !arrow.isPointInStroke(spot.matrixTransform(there)));
    });
  });

test('however the wind blows, with its parts its arrow covers no text and not north', async () => {
  const verdict = named('scenario-verdict');
  if (verdict.shown.form !== 'scenario' || verdict.part !== 'verdict') throw new Error('no scenario');
  for (let windDir = 0; windDir < 360; windDir += 10) {
    await hang({ ...verdict, shown: { ...verdict.shown, picture: { runway: 30, windDir, windSpeed: 27 } } });
    expect(await apart(), `${windDir}°`).toBe(true);
  }
});

test('the runway and the wind are said in words, and the drawing agrees with them', async () => {
  const middle = (selector: string) =>
    page.locator(selector).evaluate((one) => {
      const { x, y, width, height } = one.getBoundingClientRect();
      return { x: x + width / 2, y: y + height / 2 };
    });
  const seen: unknown[] = [];
  for (const name of ['wind-0', 'wind-1', 'wind-2']) {
    await hang(named(name));
    const [strip, wind] = [await middle('.rw-strip'), await middle('.rw-wind')];
    // From the middle of the runway to the arrow: where the wind comes from, degrees from north.
    const from = (Math.atan2(wind.x - strip.x, strip.y - wind.y) * 180) / Math.PI;
    expect(await apart(), `${name}: the arrow covers no text`).toBe(true);
    seen.push([await page.getByRole('img').getAttribute('aria-label'), (Math.round(from / 5) * 5 + 360) % 360]);
  }
  expect(seen).toEqual([
    ['Runway 03, wind from 040° at 27\u00a0kt. North is up.', 40],
    ['Runway 36, wind from 360° at 9\u00a0kt. North is up.', 0],
    ['Runway 09, wind from 275° at 31\u00a0kt. North is up.', 275],
  ]);
  await hang(named('wind-3'));
  expect(await page.getByRole('img').getAttribute('aria-label')).toBe('Runway 27, calm. North is up.');
  expect(await page.locator('.rw-wind').count()).toBe(0);
});

test('a line is named by a tap, and taken back by another; how many there are is said', async () => {
  await hang(named('slip-empty'));
  const lines = page.locator('.slip .run-row');
  const live = page.locator('[aria-live=polite]').last();
  const ring = (i: number) =>
    lines
      .nth(i)
      .locator('.ring')
      .evaluate((one) => getComputedStyle(one).borderTopColor);
  const none = await ring(1);
  await lines.nth(1).tap();
  expect(await live.innerText()).toBe('Line 2 named: 1 line named.');
  expect(await ring(1)).not.toBe(none);
  await lines.nth(4).tap();
  expect(await live.innerText()).toBe('Line 5 named: 2 lines named.');
  expect((await draft()).lines).toEqual(['line-2', 'line-5']);
  await lines.nth(1).tap();
  expect(await live.innerText()).toBe('Line 2 taken back: 1 line named.');
  expect(await lines.evaluateAll((all) => all.map((one) => one.getAttribute('aria-pressed')).indexOf('true'))).toBe(4);
  expect(await ring(1)).toBe(none);
  // How many slips there are is not told.
  expect(await page.locator('main').innerText()).toContain('One or two slips are in it');
});

test('the verdict on slips: each line signed and worded, then the run as it should be', async () => {
  await hang(named('slip-verdict-some'));
  const text = await page.locator('main').innerText();
  for (const words of ['found', 'overlooked', 'nothing is wrong here', 'As it should be'])
    expect(text).toContain(words);
  for (const one of await page.locator('.run-told.wrong').all()) expect(await one.innerText()).toContain('✗');
  expect(await page.locator('.run-told', { hasText: 'found' }).first().innerText()).toContain('✓');
  expect(await page.locator('.walk-told > li').count()).toBeGreaterThan(5);
  await hang(named('slip-verdict-all'));
  expect(await page.locator('.note.bad').innerText()).toContain('does not count');
  await hang(named('slip-verdict-right'));
  expect(await page.locator('.run-told.wrong, .note.bad').count()).toBe(0);
  await hang(named('slip-verdict-told'));
  expect(await page.locator('main').innerText()).not.toMatch(/overlooked|found/);
});

test('steps that are not sure are ticked', async () => {
  await hang(named('run-unsure'));
  const unsure = () => page.evaluate(() => (window as unknown as { gallery: Gallery }).gallery.unsure().length);
  await page.getByRole('checkbox').nth(2).tap();
  await page.getByRole('checkbox').nth(0).tap();
  expect(await unsure()).toBe(2);
  await page.getByRole('checkbox').nth(2).tap();
  expect(await unsure()).toBe(1);
});

test('the verdict on a run: in words, what went wrong opened, the rest behind a tap', async () => {
  await hang(named('run-verdict-wrong'));
  const text = await page.locator('main').innerText();
  for (const words of ['does not belong', 'left out', 'out of place', 'must come before', 'As it is done'])
    expect(text).toContain(words);
  // Struck, signed and worded: never by colour alone.
  const wrong = page.locator('.run-told.wrong');
  expect(await wrong.count()).toBe(4);
  for (const one of await wrong.all()) expect(await one.innerText()).toMatch(/[✗~]/);
  expect(await page.locator('.run-told.right').first().innerText()).toContain('✓');
  expect(await page.locator('.run-told.wrong s').count()).toBe(3);
  const open = await page.locator('.walk-told details[open]').count();
  const shut = await page.locator('.walk-told details:not([open])').count();
  expect(open).toBe(3);
  expect(shut).toBeGreaterThan(4);
  // The source is said once where all steps share it.
  expect(text.match(/Revision 7, 4\.12/g)).toHaveLength(1);
  await page.locator('.walk-told details:not([open]) summary').first().tap();
  expect(await page.locator('.walk-told details[open]').count()).toBe(open + 1);
});

test('rows are dealt by the keyboard: arrows within a row, Tab from row to row, and what is left is said', async () => {
  await hang(named('crew-few-seats'));
  const deal = async () => (await draft()).deal ?? {};
  const live = () => page.locator('main [aria-live=polite]').innerText();
  const at = () =>
    page.evaluate(
      () => document.activeElement?.closest('[data-row]')?.getAttribute('data-row') ?? document.activeElement?.tagName,
    );
  expect(await live()).toBe('');
  await page.getByRole('radiogroup', { name: 'Start the timer' }).getByRole('radio').first().focus();
  await page.keyboard.press('Space');
  expect(await deal()).toEqual({ s2: 'seat0' });
  expect(await live()).toBe('6 left.');
  await page.keyboard.press('ArrowRight');
  expect(await deal()).toEqual({ s2: 'seat1' });
  expect(await live()).toBe('6 left.');
  for (const row of ['s3', 's4', 's5', 's6', 's7', 's8']) {
    await page.keyboard.press('Tab');
    expect(await at()).toBe(row);
    await page.keyboard.press('ArrowRight');
  }
  expect(await live()).toBe('None left.');
  expect(Object.keys(await deal())).toHaveLength(7);
  expect(await page.locator('input:checked').count()).toBe(7);
  // Beside one another: the right arrow goes to the seat on the right, also from the last to the first.
  expect(await deal()).toMatchObject({ s3: 'seat1', s8: 'seat1' });
  expect(await button('Sure').isDisabled()).toBe(false);
});

test('not sure who does what: of which rows is asked, with what was given to each', async () => {
  await hang(named('crew-unsure'));
  const rows = page.locator('main label.pick');
  expect(await rows.count()).toBe(7);
  expect(await rows.first().innerText()).toMatch(/^Thrust levers to the climb setting: PF$/);
  await rows.nth(2).tap();
  expect(await page.evaluate(() => (window as unknown as { gallery: Gallery }).gallery.unsure())).toEqual([
    'cu-accelerate',
  ]);
});

test('the verdict on a deal: each row with what was given, and of the wrong ones what is right and why', async () => {
  await hang(named('crew-verdict-wrong'));
  const wrong = page.locator('.run-told.wrong');
  expect(await wrong.count()).toBe(2);
  expect(await wrong.first().innerText()).toMatch(/✗\s+“Climb thrust set”\s+wrong: you gave Both\s+It is PM/);
  expect(await wrong.first().locator('s').innerText()).toBe('Both');
  expect(await wrong.last().innerText()).toMatch(/you gave PM\s+It is PF\s+Less flap needs more speed/);
  expect(await page.locator('.run-told.right').count()).toBe(5);
  expect(await page.locator('.run-told.right').first().innerText()).toMatch(/✓\s+Thrust levers.*\s+right: PF/);
  await hang(named('crew-verdict-told'));
  expect(await page.locator('main').innerText()).not.toMatch(/[✓✗]|you gave/);
});

test('two variants told apart: both fields are named, and what is exchanged is said before each row', async () => {
  await hang(named('difference-numbers'));
  expect(await page.getByLabel('Calder Coast Air at least').inputValue()).toBe('550');
  await page.getByLabel('Fellwater Regional at least').fill('850');
  expect((await draft()).typed).toEqual(['550', '850']);
  await hang(named('difference-verdict-exchanged'));
  const text = await page.locator('main').innerText();
  expect(text).toMatch(/The two are exchanged\.[\s\S]*Calder Coast Air\s+wrong: you gave 850\sft\sAAL, 300\sft above/);
  expect(text).toMatch(
    /Fellwater Regional\s+wrong: you gave 550\sft\sAAL, 300\sft below the limit, on the unsafe side/,
  );
  await hang(named('difference-verdict-right'));
  expect(await page.locator('main').innerText()).not.toMatch(/✗|exchanged/);
});

test('the verdict on a number says what was given and on which side it lies; a tick only for the right one', async () => {
  await hang(named('limit-verdict-wrong'));
  const wrong = await page.locator('main').innerText();
  expect(wrong).toMatch(/You gave 100\sft\sAAL: 450\sft below the limit, on the unsafe side/);
  expect(wrong).toMatch(/The answer is\s+at least 550\sft\sAAL/);
  expect(wrong).not.toContain('✓');
  await hang(named('limit-verdict-right'));
  const right = await page.locator('main').innerText();
  expect(right).toMatch(/Right\s+✓ at least 550\sft\sAAL/);
  expect(right).not.toContain('✗');
  await hang(named('limit-verdict-told'));
  expect(await page.locator('main').innerText()).not.toMatch(/[✓✗]|You gave/);
});

test('words: typed, Enter never answers; the verdict says whose they are, what is missing, and who', async () => {
  await hang(named('words-typed'));
  const field = page.locator('input.said');
  expect(await field.inputValue()).toBe('flaps');
  expect(await field.evaluate((one) => Number.parseFloat(getComputedStyle(one).fontSize))).toBeGreaterThanOrEqual(16);
  for (const [name, value] of [
    ['autocapitalize', 'none'],
    ['autocorrect', 'off'],
    ['spellcheck', 'false'],
    ['enterkeyhint', 'done'],
    ['dir', 'auto'],
  ] as const)
    expect(await field.getAttribute(name), name).toBe(value);
  await field.fill('Flaps 1');
  await field.press('Enter');
  expect(await keysDown()).toBe(true);
  await page.getByRole('radio', { name: 'PM' }).check();
  expect(await draft()).toEqual({ said: 'Flaps 1', by: 'PM' });
  await hang(named('words-verdict-other'));
  const other = await page.locator('main').innerText();
  expect(other).toContain('You said flaps zero. That is said in Acceleration and clean-up by PF');
  expect(other).toContain('You named PM: it is PF');
  expect(other).toContain('“Flaps one”');
  await hang(named('words-verdict-missing'));
  expect(await page.locator('main').innerText()).toContain('You said positive. Missing: “climb”');
  await hang(named('words-verdict-misspelt'));
  const right = await page.locator('main').innerText();
  expect(right).toContain('Spelled otherwise: “posative”');
  expect(right).not.toContain('✗');
  await hang(named('words-verdict-chosen'));
  expect(await page.locator('main').innerText()).toMatch(/✗ You chose/);
});

test('what a stranger wrote is text, never markup', async () => {
  await ask();
  expect(await row('s1').innerText()).toContain('<b>Set</b> take-off & go-around');
  expect(await page.locator('main b').count()).toBe(0);
  expect(await row('s4').locator('em').innerText()).toBe('both');
  const scene = ['**TK-11** and *soft*', '2 * 3 * 4 kt', '**** and * * *', '<img src=x onerror=alert(1)>'];
  await hang({ part: 'question', shown: { ...longest, scene } });
  expect(await page.locator('.scene > li').evaluateAll((all) => all.map((one) => one.innerHTML))).toEqual([
    '<strong>TK-11</strong> and <em>soft</em>',
    '2 * 3 * 4 kt',
    '**** and * * *',
    '&lt;img src=x onerror=alert(1)&gt;',
  ]);
});
