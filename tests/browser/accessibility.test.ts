import { readFile } from 'node:fs/promises';
import { buffer } from 'node:stream/consumers';
import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import {
  answer,
  dayAhead,
  firstMinutes,
  heading,
  type Put,
  planKept,
  press,
  shown,
  unfold,
  WIND,
} from '../helpers/app.ts';
import { type Visit, visit } from '../helpers/browser.ts';
import { practisedCopy } from '../helpers/practised.ts';
import { sound } from '../helpers/sound.ts';

const DAY = 86_400_000;

let browser: Visit;
beforeAll(async () => {
  browser = await visit();
});
afterAll(() => browser.close());

test('every screen, light and dark', async () => {
  const { page } = browser;
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
  await page.getByLabel('Check date').fill(await dayAhead(page, 46));
  await sound(page, 'date');
  await press(page, /^Begin/);
  await page.getByRole('button', { name: /ask me/ }).waitFor();
  await sound(page, 'reading');

  const seen = new Set<Put>();
  for (let i = 0; i < 24 && !(seen.has('run') && seen.has('number') && seen.has('choice')); i++) {
    const put = await shown(page);
    if (put === 'read') {
      await press(page, /ask me/);
      continue;
    }
    const fresh = !seen.has(put);
    seen.add(put);
    if (fresh) {
      await sound(page, `question ${put}`);
      if (put === 'run') {
        for (let row = 0; row < 3; row++) await page.locator('.run-row').nth(row).tap();
        await press(page, 'Edit');
        await press(page, 'Move');
        await page.getByRole('button', { name: 'Done' }).waitFor();
        await sound(page, 'moving steps');
        await press(page, 'Done');
        await press(page, 'Not sure');
        await page.getByRole('button', { name: 'All of them' }).waitFor();
        await sound(page, 'which steps');
        await press(page, 'Back');
        for (let row = 0; row < 3; row++) await page.locator('.run-row').nth(row).tap();
      }
    }
    await answer(page, 'Sure');
    if (fresh) await sound(page, `verdict ${put}`);
    if (fresh && put === 'run') {
      await press(page, 'Query this question');
      await page.getByRole('button', { name: 'Never mind' }).waitFor();
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
  await page.evaluate(() => {
    for (const one of document.querySelectorAll<HTMLDetailsElement>('details.fold')) one.open = true;
  });
  await page.getByRole('heading', { name: 'In this drill' }).waitFor();
  await sound(page, 'debrief, open');
  await press(page, 'To the Brief');
  await page.getByRole('button', { name: /^Start/ }).waitFor();
  await sound(page, 'brief');
  await press(page, 'Rehearse a procedure');
  await page
    .getByRole('button', { name: /^Read it first/ })
    .first()
    .tap();
  await sound(page, 'rehearsal, read first');
  await press(page, 'I have read this');
  await page.getByRole('button', { name: 'Begin', exact: true }).waitFor();
  await sound(page, 'rehearsal, choice');
  await press(page, 'Begin');
  await sound(page, 'rehearsal, question');
  const asks = () =>
    page.waitForFunction(() => {
      if (document.querySelector('h1')?.textContent === 'Verdicts') return 'no';
      const open = [...document.querySelectorAll('button:not(:disabled)')].map(({ textContent }) => textContent);
      return open.includes("Don't know") ? 'yes' : null;
    });
  while ((await (await asks()).jsonValue()) === 'yes') await press(page, "Don't know");
  await page.getByRole('button', { name: 'Query this question' }).first().waitFor();
  await sound(page, 'rehearsal, verdicts');
  await press(page, 'Query this question');
  await page.getByLabel('What is wrong with this question?').fill('Two are right');
  expect(await page.locator('button.main').allInnerTexts()).toEqual(['Query it']);
  await sound(page, 'rehearsal, query');
  await press(page, 'Never mind');
  expect(await page.locator('button.main').allInnerTexts()).toEqual(['Done']);
  // What was typed is there again.
  await press(page, 'Query this question');
  expect(await page.getByLabel('What is wrong with this question?').inputValue()).toBe('Two are right');
  await press(page, 'Query it');
  await page.getByText('Taken back: this answer does not count.').waitFor();
  expect(await page.locator('button.main').allInnerTexts()).toEqual(['Done']);
  for (const [place, title] of [
    ['last-look', 'Last look'],
    ['decks', 'Decks'],
    ['settings', 'Settings'],
    ['missed', 'What was missed there'],
    ['deck/recency%2Fmerrow-takeoff', 'Merrow 240: take-off and initial climb'],
    ['read/recency%2Fmerrow-takeoff/limits', 'Limits'],
    ['read/recency%2Fmerrow-takeoff/scenarios', 'Scenarios'],
    ['read/recency%2Fmerrow-takeoff/clean-up', 'Acceleration and clean-up'],
  ] as const) {
    await page.goto(`${inject('baseUrl')}#/${place}`);
    await expect.poll(() => heading(page)).toBe(title);
    await sound(page, place);
    if (place !== 'settings') continue;
    for (const title of SETTINGS) await unfold(page, title);
    await page.getByRole('heading', { name: 'What it rests on' }).waitFor();
    await sound(page, 'settings, unfolded');
  }
  expect(browser.errors).toEqual([]);
});

const SETTINGS = [
  'Appearance and letters',
  'Invented aeroplane',
  'What is kept, and where',
  'Second device',
  'Your own memory',
  'For instructors',
  'About',
];

test('the Brief with a plan, its drawing, its tables and its calendar', async () => {
  const learner = await visit();
  const { page } = learner;
  // Between midnight and four a study day is still that of yesterday: days to a date would be one more.
  const noon = (Math.floor(Date.now() / DAY) + 1) * DAY + DAY / 2;
  await learner.setClock(noon);
  await page.goto(inject('baseUrl'));
  await press(page, 'I have read this');
  await page.goto(`${inject('baseUrl')}#/settings`);
  const flown = { engine: ['tk11'], operator: ['calder'] };
  const copy = await practisedCopy({
    file: 'merrow-takeoff.deck.json',
    flown,
    course: 'fictional',
    now: noon,
    checkIn: 6,
    minutes: 5,
    met: 0.3,
  });
  await page
    .locator('input[type=file]')
    .setInputFiles({ name: 'copy.txt', mimeType: 'text/plain', buffer: Buffer.from(copy) });
  await page.getByText(/^Taken in/).waitFor();
  await press(page, 'Brief');
  await page.getByText('Other minutes', { exact: true }).waitFor();
  // Whatever the plan says: a band, a drawing that says in words what it shows, and its table.
  expect(await page.locator('.outlook').innerText()).toMatch(/Everything\s+\d+ to \d+ %\s+\d+ to \d+ %/);
  await unfold(page, 'How it grows');
  expect(await page.getByRole('img').getAttribute('aria-label')).toMatch(/\d+ % today; on the day \d+ % if you keep/);
  await page.getByText('The same as a table').tap();
  for (const title of ['Part by part', 'Left out for want of time', 'Other minutes', 'The days in your calendar'])
    await unfold(page, title);
  // Drawn when it is unfolded.
  await page.getByRole('row', { name: /^5, as now/ }).waitFor();
  await sound(page, 'brief, plan');
  const [download] = await Promise.all([page.waitForEvent('download'), press(page, 'Put the days in a calendar')]);
  expect(download.suggestedFilename()).toMatch(/\.ics$/);
  expect((await buffer(await download.createReadStream())).toString().match(/BEGIN:VEVENT/g)).toHaveLength(6);
  await page.goto(`${inject('baseUrl')}#/date`);
  await page.getByText('Another date for some procedures').tap();
  await page.getByRole('checkbox', { name: 'Line-up' }).waitFor();
  await sound(page, 'date of some procedures');
  await press(page, 'Keep this date');
  await page.getByText('Other minutes', { exact: true }).waitFor();
  // As stored: nothing is worked out again.
  await expect.poll(() => planKept(page)).toBe(true);
  const workers: string[] = [];
  page.on('worker', (worker) => workers.push(worker.url()));
  await page.reload();
  await page.getByText('Other minutes', { exact: true }).waitFor();
  expect(workers.filter((url) => /plan/.test(url))).toEqual([]);
  expect(learner.errors).toEqual([]);
  await learner.close();
});

test('an amendment: before it is taken, its brief, and the versions on the deck page', async () => {
  const learner = await visit();
  const { page } = learner;
  await page.goto(inject('baseUrl'));
  await firstMinutes(page, WIND);
  const deck = JSON.parse(await readFile('decks/wind-altimetry.deck.json', 'utf8'));
  Object.assign(deck, { version: '99.0.0', amendment: 'Another way to work it out.', effective: '2099-12-01' });
  delete deck.reviewBy;
  deck.scenarios.pop();
  await page.goto(`${inject('baseUrl')}#/decks`);
  await page
    .locator('input[type=file]')
    .first()
    .setInputFiles({ name: 'b.deck.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(deck)) });
  await page.getByText(/See what changes$/).tap();
  await page.getByRole('heading', { name: /^No longer asked/ }).waitFor();
  await sound(page, 'install, amended');
  await press(page, 'Replace');
  // The page before has a heading "No longer asked", too.
  await page.getByRole('heading', { level: 1, name: 'What was amended' }).waitFor();
  await page.getByRole('heading', { name: /^No longer asked/ }).waitFor();
  await sound(page, 'amendment');
  await page.goto(`${inject('baseUrl')}#/`);
  await page.getByText(/^Amended: /).waitFor();
  await sound(page, 'brief, amended');
  await press(page, 'Read what changed');
  await press(page, 'I have read this');
  await page.getByRole('link', { name: /In force from 1 December 2099/ }).waitFor();
  await sound(page, 'brief, amendment to come');
  await page.goto(`${inject('baseUrl')}#/deck/${encodeURIComponent(deck.id)}`);
  await page.getByText('Versions on this device').waitFor();
  await sound(page, 'deck, versions');
  await page.goto(`${inject('baseUrl')}#/amendment/no%2Fsuch`);
  await expect.poll(() => heading(page)).toBe('Nothing was amended');
  await sound(page, 'amendment, none');
  await page.goto(`${inject('baseUrl')}#/missed`);
  await page.getByRole('checkbox').first().check();
  await page.locator('.things input[type=checkbox]').first().check();
  await sound(page, 'missed, tapped');
  await press(page, /^Keep: 1 missed/);
  await page.getByText('Noted before').waitFor();
  await sound(page, 'missed, noted');
  // Before this app was made.
  await learner.setClock('2020-01-01T12:00:00Z');
  await page.goto(`${inject('baseUrl')}#/`);
  await page.reload();
  await press(page, 'It is wrong');
  await sound(page, 'brief, wrong date');
  expect(learner.errors).toEqual([]);
  await learner.close();
});
