import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { firstMinutes, MERROW, press } from '../helpers/app.ts';
import { type Visit, visit } from '../helpers/browser.ts';
import { sound } from '../helpers/sound.ts';
import { changeBehind, openAsDraft } from '../helpers/workshop.ts';

let browser: Visit;
let page: Page;
/** Address of a draft of the take-off deck, which is installed too. */
let draft: string;

const home = async (): Promise<void> => {
  await page.goto(`${inject('baseUrl')}#/workshop`);
  await page.getByRole('heading', { name: 'Workshop' }).waitFor();
};
/** Opens a page of the draft; everything on it is unfolded. */
const turnTo = async (which: string, of = draft): Promise<void> => {
  await page.goto(`${of}/${which}`);
  await page.locator('main h1').waitFor();
  await unfold();
};
/** What is drawn when it is unfolded may hold more to unfold. */
const unfold = async (): Promise<void> => {
  for (let round = 0; round < 3; round++)
    await page.evaluate(async () => {
      for (const one of document.querySelectorAll('details')) one.open = true;
      await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
    });
};
const file = async (): Promise<Record<string, never>> =>
  JSON.parse(await readFile('decks/merrow-takeoff.deck.json', 'utf8'));

beforeAll(async () => {
  browser = await visit();
  page = browser.page;
  await page.goto(inject('baseUrl'));
  await firstMinutes(page, MERROW);
  await home();
  await press(page, /take-off and initial climb, version/);
  await page.waitForURL(/#\/workshop\/\w+$/);
  draft = page.url();
});
afterAll(async () => {
  await browser.close();
  expect(browser.errors).toEqual([]);
});

test('the drafts, one of them with faults, and what is said of these', async () => {
  const deck = await file();
  const broken = await openAsDraft(page, { ...deck, title: '', nature: 'other', about: '<b>About</b>', colour: 'red' });
  await page
    .getByText(/\d to mend/)
    .first()
    .waitFor();
  await sound(page, 'workshop draft with faults');
  await turnTo('head', broken);
  await page.locator('[aria-invalid]').first().waitFor();
  await sound(page, 'workshop head with faults');
  await home();
  await page
    .getByRole('button', { name: /^Remove the draft/ })
    .first()
    .tap();
  await sound(page, 'workshop drafts');
  await page.goto(`${inject('baseUrl')}#/workshop/none`);
  await page.getByText('could not be read').waitFor();
  await sound(page, 'workshop no such draft');
});

test.each([
  'head',
  'sources',
  'variants',
  'crew',
  'day',
  'conditions',
  'areas',
  'paced',
  // A number, one with cases, one of some answers, a table.
  'limits/0',
  'limits/20',
  'limits/14',
  'limits/42',
])('the form of %s', async (which) => {
  await turnTo(which);
  await page.locator('main [data-path]').first().waitFor();
  await sound(page, `workshop ${which}`);
});

test('a procedure: a step open, what order must hold, what differs between variants', async () => {
  await turnTo('procedures/1');
  await page.locator('[data-questions]').waitFor();
  await page.locator('.matrix').first().waitFor();
  await page.locator('[data-step]').first().tap();
  await page.locator('.node-form').waitFor();
  await unfold();
  await sound(page, 'workshop procedure');
});

test('a scenario with what it draws', async () => {
  await turnTo('scenarios/0');
  const bench = page.getByRole('region', { name: 'What is drawn' });
  await bench.getByRole('region', { name: 'Table of examples' }).waitFor();
  await bench.getByRole('combobox', { name: 'Question' }).selectOption({ index: 1 });
  await bench.locator('svg.cover').waitFor();
  await unfold();
  await sound(page, 'workshop scenario');
});

test('a list that is pasted, before and after it is read', async () => {
  await turnTo('paste');
  await sound(page, 'workshop paste');
  await page
    .getByLabel(/^Paste a list/)
    .fill('TAKE-OFF ROLL\nPF: Thrust levers: set take-off thrust\nPM calls "One hundred"\nPage 3 of 4');
  await press(page, 'Read it');
  await page.getByRole('list', { name: 'Rows' }).waitFor();
  await press(page, 'Change row 3');
  await sound(page, 'workshop paste, read');
});

test('versions compared, and a revision sheet', async () => {
  await turnTo('limits/0');
  await page.locator('[data-path="/limits/0/value"]').fill('53');
  await turnTo('compare');
  await page.getByRole('heading', { name: /^Answers changed/ }).waitFor();
  await sound(page, 'workshop compare');
  await turnTo('revision');
  await page.getByRole('combobox', { name: /^Source/ }).selectOption({ index: 1 });
  await page.getByLabel('Changed paragraphs').fill('2, 3.1, 3.2');
  await page.getByLabel('New edition').fill('Revision 99');
  await page.getByText('Still right').first().waitFor();
  await sound(page, 'workshop revision');
});

test('on a wide screen the bar stands below all that can be done with the draft', async () => {
  const size = page.viewportSize() ?? { width: 360, height: 740 };
  await page.setViewportSize({ width: 1280, height: 800 });
  await page.goto(draft);
  const [bar, doors] = [page.locator('.work > .foot'), page.locator('.doors')];
  await doors.waitFor();
  const [below, above] = [await bar.boundingBox(), await doors.boundingBox()];
  expect(below?.y).toBeGreaterThanOrEqual((above?.y ?? 0) + (above?.height ?? 0) - 1);
  expect((below?.y ?? 0) + (below?.height ?? 0)).toBe(800);
  await page.setViewportSize(size);
});

test('a folded case of a limit says when it holds, and its value', async () => {
  const deck = await file();
  const limits = deck.limits as unknown as { readonly id: string }[];
  await page.goto(`${draft}/limits/${limits.findIndex(({ id }) => id === 'egt-take-off')}`);
  await page.getByText('TK-11, set by % N1: 917\u00a0°C').waitFor();
  await page.getByText('TK-14, set by EPR: 953\u00a0°C').waitFor();
});

test('what would be taken back breaks no word of the bar, and makes no button taller than the other', async () => {
  await turnTo('limits/0');
  await page.locator('[data-path="/limits/0/slip"], [data-path="/limits/0/ask"]').first().fill('Which speed is it?');
  const size = page.viewportSize() ?? { width: 360, height: 740 };
  const bar = () =>
    page.locator('.undo-bar').evaluate((row) => {
      const [undo, redo] = [...row.querySelectorAll('button')].map((one) => one.getBoundingClientRect());
      const lines = [...row.querySelectorAll('button')].map(({ firstChild }) => {
        const range = document.createRange();
        range.selectNodeContents(firstChild as Node);
        return range.getClientRects().length;
      });
      const cut = [...row.querySelectorAll('button')].some((one) => one.scrollWidth > one.clientWidth);
      return { heights: [undo?.height, redo?.height], lines, cut };
    });
  for (const [width, letters] of [
    [360, ''],
    [360, '200%'],
    [1280, ''],
  ] as const) {
    await page.setViewportSize({ ...size, width });
    await page.evaluate((to) => {
      document.documentElement.style.fontSize = to;
    }, letters);
    const { heights, lines, cut } = await bar();
    expect(heights[0], `${width} ${letters}`).toBe(heights[1]);
    expect(lines, `${width} ${letters}`).toEqual([1, 1]);
    expect(cut, `${width} ${letters}`).toBe(false);
  }
  await page.evaluate(() => {
    document.documentElement.style.fontSize = '';
  });
  await page.setViewportSize(size);
});

test('handing over: without a key, with one, with a link and its code', async () => {
  await turnTo('hand-over');
  await page.getByText('Make a key and save its file').waitFor();
  await sound(page, 'workshop hand over, no key');
  await page.getByLabel(/Passphrase/).fill('lined up and waiting');
  await page.getByLabel(/^The same again/).fill('lined up and waiting');
  await press(page, 'Make a key and save its file');
  await page.getByText('Your public key').waitFor();
  await press(page, /^Set version /);
  await page.getByLabel('Address of the file').fill('https://decks.example/merrow.deck.json');
  await page.locator('svg.qr').waitFor();
  await page.getByLabel(/^Your name/).fill('A. Author');
  await page.getByRole('button', { name: 'Sign as author' }).and(page.locator(':enabled')).tap();
  await page.getByText('Author: ').waitFor();
  await sound(page, 'workshop hand over');
});

test('the draft on paper, and as a learner would meet it', async () => {
  await turnTo('print');
  await page.getByLabel('Limits and scenarios').check();
  await sound(page, 'workshop print');
  await turnTo('try');
  await page.getByLabel('What to try').selectOption({ index: 1 });
  await press(page, 'Two variants side by side');
  await expect.poll(() => page.getByRole('button', { name: "Don't know" }).count()).toBe(2);
  await sound(page, 'workshop try, two variants');
  await page.getByRole('button', { name: "Don't know" }).first().tap();
  await page.getByRole('button', { name: 'Next question' }).waitFor();
  await sound(page, 'workshop try, question and verdict');
});

test('a draft that was changed in another tab, and a newer version that came meanwhile', async () => {
  // Nothing to be told of: what was amended would be shown first.
  const { amendment: _, ...deck } = await file();
  const buffer = Buffer.from(JSON.stringify({ ...deck, version: '7.0.0', about: 'Another.' }));
  await page.goto(`${inject('baseUrl')}#/decks`);
  await page
    .locator('input[type=file]')
    .first()
    .setInputFiles({ name: 'b.deck.json', mimeType: 'application/json', buffer });
  await press(page, 'Replace');
  await page.getByRole('button', { name: /your drill$/ }).waitFor();
  await page.goto(draft);
  await page.getByText('Version 7.0.0 was installed since this draft began').waitFor();
  await changeBehind(page);
  await page.goto(`${draft}/head`);
  await page.locator('[data-path="/title"]').fill('A better title');
  await page.getByText('This draft was changed in another tab').waitFor();
  await sound(page, 'workshop draft changed elsewhere');
});
