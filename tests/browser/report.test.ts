import { readFile } from 'node:fs/promises';
import { buffer } from 'node:stream/consumers';
import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { openReport } from '../../src/exchange/report.ts';
import { dateWords } from '../../src/lib/date-words.ts';
import type { Deck } from '../../src/model/deck.ts';
import type { Report } from '../../src/model/report.ts';
import { plural } from '../../src/ui/words.ts';
import { firstMinutes, heading, inDatabase, press, unfold, WIND } from '../helpers/app.ts';
import { type Visit, visit } from '../helpers/browser.ts';
import { practisedCopy } from '../helpers/practised.ts';
import { sound } from '../helpers/sound.ts';

const DAY = 86_400_000;
/** Between midnight and four a study day is still that of yesterday. */
const NOON = (Math.floor(Date.now() / DAY) + 1) * DAY + DAY / 2;
const iso = (ms: number) => new Date(ms).toISOString().slice(0, 10);
const FILE = 'merrow-takeoff.deck.json';

let browser: Visit;
/** The last report made. */
let file: Made | undefined;
beforeAll(async () => {
  browser = await visit();
  const { page } = browser;
  await browser.setClock(NOON);
  await page.goto(inject('baseUrl'));
  await press(page, 'I have read this');
  await page.goto(`${inject('baseUrl')}#/settings`);
  const flown = { engine: ['tk11'], operator: ['calder'] };
  const copy = await practisedCopy({
    file: FILE,
    flown,
    course: 'fictional',
    now: NOON,
    checkIn: 6,
    minutes: 5,
    met: 0.3,
  });
  await page
    .locator('input[type=file]')
    .setInputFiles({ name: 'copy.txt', mimeType: 'text/plain', buffer: Buffer.from(copy) });
  await page.getByText(/^Taken in/).waitFor();
});
afterAll(() => browser.close());

const main = () => browser.page.locator('main').innerText();

interface Made {
  readonly name: string;
  readonly text: string;
  readonly report: Report;
  readonly key: string;
}

/** Makes a report, saves it, and opens the file as an instructor's app would. */
const made = async (): Promise<Made> => {
  const { page } = browser;
  await press(page, 'Make the report');
  await page.getByText(/^Report number \d+ is made$/).waitFor();
  const [download] = await Promise.all([page.waitForEvent('download'), press(page, 'Save the file')]);
  const text = (await buffer(await download.createReadStream())).toString();
  const opened = await openReport(text);
  if (!opened.ok) throw new Error(opened.error.message);
  return { name: download.suggestedFilename(), text, report: opened.value.report, key: opened.value.key };
};

test('a report is read line by line, then made; what is left out is in neither', async () => {
  const { page } = browser;
  // Of what was sure and wrong the Brief keeps the critical ones, and says so.
  await page.goto(`${inject('baseUrl')}#/`);
  await page.getByText(/^\d+ critical items? not yet right on two days$/).tap();
  await page.getByText('Critical ones alone. What else was sure but wrong comes back as missed.').waitFor();
  await sound(page, 'Brief, sure but wrong');
  await page.goto(`${inject('baseUrl')}#/settings`);
  await unfold(page, 'Invented aeroplane');
  await press(page, 'Progress report');
  await expect.poll(() => heading(page)).toBe('Progress report');
  await page.getByRole('heading', { name: 'About you' }).waitFor();
  await page
    .getByText('Recall on the check date is what is left of it if you practise nothing more until then.')
    .waitFor();
  await page.getByLabel('What you call yourself in it').fill('Cadet 7');
  // The plan of the Brief goes along, once it is there.
  await page.getByText('What your plan expects').waitFor();
  const before = await main();
  for (const line of [
    'Cadet 7',
    '5 minutes a day',
    'number 1',
    'Invented aeroplane',
    'version ',
    'Your queries about questions',
    'Wrong answers, in words',
    'predicts no check result',
    'self-recorded',
    'wrong, or not known',
    'right, but it shows little: not sure, or helped',
    'right after a verdict everything is remembered',
  ])
    expect.soft(before).toContain(line);
  // Names of the file are under a fold.
  expect(before).not.toContain('engine=tk11');
  await page.getByText(/^Names in the file: Merrow/).tap();
  await expect.poll(main).toContain('engine=tk11,operator=calder');
  await page.getByText(/^Names in the file: Merrow/).tap();
  await page
    .getByText(/^Each item of /)
    .first()
    .tap();
  await page
    .getByText(/^Recall now: \d+ %\. On the check date: \d+ %\.$/)
    .first()
    .waitFor();
  await sound(page, 'report');

  const first = await made();
  expect(first.name).toBe(`Cadet-7-${iso(NOON)}.report.txt`);
  const copied = JSON.parse(await readFile(`decks/${FILE}`, 'utf8')) as {
    readonly title: string;
    readonly version: string;
  };
  expect(first.report).toMatchObject({
    trainee: 'Cadet 7',
    n: 1,
    made: iso(NOON),
    checkDate: iso(NOON + 6 * DAY),
    planned: 5,
    plan: { minutes: 5, recall: expect.any(Number) },
    days: [iso(NOON - 3 * DAY), iso(NOON - DAY)],
    leftOut: [],
  });
  const [deck] = first.report.decks;
  expect(deck).toMatchObject({
    title: copied.title,
    version: copied.version,
    variants: ['engine=tk11,operator=calder'],
  });
  // Each item met was answered twice, every seventh wrong, though sure; six seconds each.
  const met = deck?.items.filter(({ verdicts }) => verdicts.some((n) => n > 0)) ?? [];
  expect(met.length).toBeGreaterThan(20);
  expect(met.every(({ verdicts }) => verdicts.reduce((a, b) => a + b, 0) === 2)).toBe(true);
  const wrong = met.filter(({ verdicts }) => verdicts[0] === 2);
  expect(wrong.map(({ sureWrong }) => sureWrong)).toEqual(wrong.map(() => 2));
  expect(wrong.length).toBe(met.filter((_, i) => i % 7 === 3).length);
  expect(first.report.answers).toBe(2 * met.length);
  expect(first.report.minutes).toBe(Math.round(met.length * 0.2));
  // Of what was met alone something is foretold: less than today, since nothing is practised until then.
  for (const { now, day } of deck?.items ?? []) {
    expect(day === null).toBe(now === null);
    expect(day ?? 0).toBeLessThanOrEqual(now ?? 0);
  }
  expect(met.some(({ now, day }) => (day ?? 1) < (now ?? 0))).toBe(true);
  await sound(page, 'report, made');
  const mail = await page.getByRole('link', { name: 'Begin a mail' }).getAttribute('href');
  expect(decodeURIComponent(mail ?? '')).toMatch(/^mailto:\?subject=.*&body=.*attach the file Cadet-7-/s);

  // Where the device shares files the report goes by its own sheet; whoever closes it has shared nothing.
  await page.evaluate(() => {
    const shared: { name: string; text: string }[] = [];
    let closed = 1;
    const share = async ({ files: [one] }: { files: File[] }) => {
      if (closed-- > 0) throw new DOMException('closed', 'AbortError');
      if (one !== undefined) shared.push({ name: one.name, text: await one.text() });
    };
    Object.defineProperty(navigator, 'canShare', { value: () => true, configurable: true });
    Object.defineProperty(navigator, 'share', { value: share, configurable: true });
    Object.assign(window, { shared });
  });
  await page.getByLabel('What you call yourself in it').fill('Cadet 8');
  await page.getByLabel('What you call yourself in it').fill('Cadet 7');
  await press(page, 'Share it');
  expect(await page.evaluate(() => (window as unknown as { shared: unknown[] }).shared)).toEqual([]);
  await press(page, 'Share it');
  await page.getByText('Handed over.').waitFor();
  expect(await page.evaluate(() => (window as unknown as { shared: unknown[] }).shared)).toEqual([
    { name: first.name, text: first.text },
  ]);
  await page.evaluate(() => {
    Object.defineProperty(navigator, 'canShare', { value: undefined, configurable: true });
  });

  // Left out, the report that was made is no longer the one that is shown.
  await page.getByLabel('Your queries about questions, in your words').uncheck();
  await page.getByLabel('The days on which you practised').uncheck();
  await page.getByRole('button', { name: 'Make the report' }).waitFor();
  await expect.poll(main).toMatch(/Days practised\s+left out/);
  expect(await main()).toMatch(/Your queries about questions\s+left out/);
  expect(await main()).not.toMatch(/Last answered: \d/);
  const second = await made();
  expect(second.key).toBe(first.key);
  expect(second.report).toMatchObject({ n: 2, leftOut: ['queries', 'days'] });
  expect(JSON.stringify(second.report)).not.toMatch(/"(queries|days|last)":/);
  // Chosen once, it stays so; no report ever has the number of another.
  await page.reload();
  await page.getByRole('heading', { name: 'About you' }).waitFor();
  await expect.poll(main).toContain('number 3');
  expect(await page.getByLabel('The days on which you practised').isChecked()).toBe(false);
  expect(await page.getByLabel('What you call yourself in it').inputValue()).toBe('Cadet 7');
  const key = (await inDatabase(page, 'device', 'report-key')) as { readonly key: string };
  expect(key.key).toBe(first.key);
  file = second;
  expect(browser.errors).toEqual([]);
});

test('opened where decks are it says what it is, and leads to the class table', async () => {
  const { page } = browser;
  await page.goto(`${inject('baseUrl')}#/decks`);
  await page.getByText('Open a deck file').waitFor();
  const buffer = Buffer.from(file?.text ?? '');
  await page
    .locator('input[type=file]')
    .first()
    .setInputFiles({ name: file?.name ?? '', mimeType: 'text/plain', buffer });
  await expect.poll(() => heading(page)).toBe('A progress report');
  await sound(page, 'a report opened as a deck');
  await press(page, 'Open it in the class table');
  await page.getByText('1 file: 1 taken in, 0 here already, 0 refused.').waitFor();
  // What the trainee left out is visible as left out to the instructor.
  await press(page, 'Cadet 7');
  await page.getByText('Left out by the trainee: queries about questions, the days on which they practised.').waitFor();
  await page.goto(`${inject('baseUrl')}#/report`);
  await page.getByRole('heading', { name: 'About you' }).waitFor();
});

test('without a name that shows nothing is made', async () => {
  const { page } = browser;
  await page.getByLabel('What you call yourself in it').fill('  ');
  await page.getByText(/^Write 1 to 40 characters/).waitFor();
  expect(await page.getByRole('button', { name: 'Make the report' }).isDisabled()).toBe(true);
  await sound(page, 'report, no name');
});

test('the practice record: on paper, with a blank for the name, and who decides', async () => {
  const { page } = browser;
  await press(page, 'A practice record for your training file, to print');
  await expect.poll(() => heading(page)).toBe('Practice record');
  await page.getByRole('heading', { name: /^Practice record of/ }).waitFor();
  const deck = JSON.parse(await readFile(`decks/${FILE}`, 'utf8')) as Deck;
  const [source] = deck.sources;
  if (file === undefined || source?.edition === undefined) throw new Error('Nothing to compare it with.');
  const { report } = file;
  // The same answers as in the report that left just before.
  const total = [0, 1, 2, 3].map((i) =>
    report.decks.flatMap(({ items }) => items).reduce((sum, { verdicts }) => sum + (verdicts[i] ?? 0), 0),
  );
  const rows = await page.locator('.record-table tbody tr').all();
  const told = await Promise.all(rows.map(async (row) => (await row.locator('td').allInnerTexts()).map(Number)));
  expect([0, 1, 2, 3].map((i) => told.reduce((sum, row) => sum + (row.slice(-4)[i] ?? 0), 0))).toEqual(total);
  for (const part of [
    deck.title,
    `version ${deck.version}`,
    report.decks[0]?.contentId ?? 'none',
    `edition ${source.edition}`,
    `${dateWords(NOON / DAY - 3.5)} to ${dateWords(NOON / DAY - 1.5)}`,
    plural(report.minutes ?? -1, 'minute'),
    `${plural(report.answers, 'question')} answered`,
    'Invented: not a real aeroplane',
    'Self-recorded.',
    'decides whether it counts',
    '2 days',
    'missed',
    'Limits',
  ])
    expect.soft(await main()).toContain(part);
  // Questions and items are both counted, and each by its name; of other operators nothing is said.
  expect(await main()).toContain('The first column of a table counts items, the others answers to them.');
  expect(await main()).toContain('Calder Coast Air operations manual');
  expect(await main()).not.toContain('Fellwater');
  await sound(page, 'practice record');
  await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
  expect(await page.getByRole('button', { name: 'Print' }).isVisible()).toBe(false);
  expect(await page.locator('.by-hand').isVisible()).toBe(true);
  expect(await page.locator('.print-foot').isVisible()).toBe(true);
  const pdf = await page.pdf({ format: 'A4' });
  expect(pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)?.length).toBe(1);
  await page.emulateMedia({ media: 'screen', colorScheme: 'light' });
  expect(browser.errors).toEqual([]);
});

test('each leads back to where one came from', async () => {
  const { page } = browser;
  await page.goto(`${inject('baseUrl')}#/settings`);
  await expect.poll(() => heading(page)).toBe('Settings');
  await unfold(page, 'Invented aeroplane');
  await press(page, 'Progress report');
  await expect.poll(() => heading(page)).toBe('Progress report');
  await page.getByRole('heading', { name: 'About you' }).waitFor();
  await press(page, 'Settings');
  await expect.poll(() => heading(page)).toBe('Settings');
  await unfold(page, 'Invented aeroplane');
  await press(page, 'Practice record');
  await expect.poll(() => heading(page)).toBe('Practice record');
  await page.reload();
  await press(page, 'Settings');
  await expect.poll(() => heading(page)).toBe('Settings');
});

test('where the browser has no Ed25519 it says so, and offers no report', async () => {
  const other = await visit();
  const { page } = other;
  await page.addInitScript(() => {
    const value = () => Promise.reject(new DOMException('Unrecognized name.', 'NotSupportedError'));
    Object.defineProperty(crypto.subtle, 'generateKey', { value });
  });
  await page.goto(inject('baseUrl'));
  await firstMinutes(page, WIND);
  await page.goto(`${inject('baseUrl')}#/report`);
  await page.getByText(/^No report can be made here\. This browser cannot work with signatures/).waitFor();
  expect(await page.getByRole('button', { name: 'Make the report' }).count()).toBe(0);
  await sound(page, 'report, no key');
  await other.close();
});
