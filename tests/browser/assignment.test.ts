import { text as readAll } from 'node:stream/consumers';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { readAssignment } from '../../src/exchange/assignment.ts';
import type { Assignment } from '../../src/model/assignment.ts';
import { heading, logged, press, unfold } from '../helpers/app.ts';
import { type Visit, visit } from '../helpers/browser.ts';
import { qrOn } from '../helpers/qr.ts';
import { sound } from '../helpers/sound.ts';

const step = (id: string) => ({ id, by: 'PF', do: `Do ${id}`, why: 'Invented.', source: 's' });
const DECK = {
  format: 1,
  id: 'test/assigned',
  version: '1.0.0',
  title: 'An assigned deck',
  language: 'en',
  nature: 'fictional',
  sources: [{ id: 's', title: 'Invented manual', basis: 'invented' }],
  variants: [{ id: 'engine', label: 'Engine', options: { early: 'Early engine', late: 'Late engine' } }],
  crew: [{ id: 'PF', label: 'PF' }],
  procedures: [
    { id: 'first', title: 'The first procedure', done: 'memory', source: 's', steps: ['a', 'b', 'c'].map(step) },
    { id: 'second', title: 'The second procedure', done: 'memory', source: 's', steps: ['d', 'e', 'f'].map(step) },
  ],
  limits: [
    {
      id: 'l',
      ask: 'How fast?',
      unit: 'kt',
      sense: 'at most',
      source: 's',
      cases: [
        { id: 'early', when: { engine: 'early' }, value: 250 },
        { id: 'late', when: { engine: 'late' }, value: 240 },
      ],
    },
  ],
};
const FILE = JSON.stringify(DECK);
const ADDRESS = 'https://decks.example/assigned.deck.json';
const DAY = 86_400_000;
/** From the study day of now, which turns at four. */
const onDay = (days: number): string => new Date(Date.now() - DAY / 6 + days * DAY).toISOString().slice(0, 10);
const base = (): string => inject('baseUrl');
const main = (page: Page) => page.locator('main').innerText();
const give = (page: Page, name: string, text: string) =>
  page
    .locator('input[type=file]')
    .first()
    .setInputFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) });
const sets = async (page: Page) =>
  (await logged(page, 'set')).map((line) => line as unknown as { readonly key: string; readonly value: unknown });
const lastSet = async (page: Page, key: string) => (await sets(page)).filter((one) => one.key === key).at(-1)?.value;

let instructor: Visit;
let trainee: Visit;
let fetched: string[] = [];
/** What the address answers with. */
let lies = FILE;

beforeAll(async () => {
  [instructor, trainee] = [await visit(), await visit()];
  await trainee.context.route('https://decks.example/**', async (route) => {
    fetched.push(route.request().url());
    await route.fulfill({ status: 200, headers: { 'Access-Control-Allow-Origin': '*' }, body: lies });
  });
  const { page } = instructor;
  await page.goto(base());
  await press(page, 'I have read this');
  await give(page, 'assigned.deck.json', FILE);
  await press(page, 'Install');
  await page.getByLabel('Late engine').check();
  // Who only hands it out need not answer the questions put to whoever practises it.
  const before = page.url();
  await press(page, 'Assign practice');
  await page.getByRole('button', { name: 'A new assignment' }).waitFor();
  await page.goto(before);
  await page.getByLabel('Late engine').check();
  await press(page, 'Go on');
  await page.getByRole('link', { name: 'Assign practice' }).waitFor();
  await press(page, /^No date yet/);
  await page.getByRole('button', { name: /ask me/ }).waitFor();
});
afterAll(async () => {
  const errors = [...instructor.errors, ...trainee.errors];
  await instructor.close();
  await trainee.close();
  expect(errors).toEqual([]);
});

/** Saved by the button, as it is read from the wire. */
const saved = async (page: Page): Promise<{ readonly text: string; readonly assignment: Assignment }> => {
  const [download] = await Promise.all([page.waitForEvent('download'), press(page, 'Save the file')]);
  const text = await readAll(await download.createReadStream());
  const { assignment, findings } = readAssignment(text);
  expect(findings).toEqual([]);
  expect(download.suggestedFilename()).toBe(`group-3-${assignment?.n}.assignment.json`);
  return { text, assignment: assignment as Assignment };
};

let first: Awaited<ReturnType<typeof saved>>;
let link = '';

test('an instructor makes it, told what is wrong, and has it as file, link and code', async () => {
  const { page } = instructor;
  await page.goto(`${base()}#/settings`);
  await unfold(page, 'For instructors');
  await press(page, 'Assign practice');
  await expect.poll(() => heading(page)).toBe('Assign practice');
  await press(page, 'A new assignment');
  await expect.poll(() => main(page)).toContain('Before it can be handed out');
  await page.getByLabel('Title').fill('Group 3');
  await page.getByLabel(/^An assigned deck/).check();
  await page.getByLabel(/^Address of the deck's file/).fill('http://decks.example/');
  await expect.poll(() => main(page)).toContain('an address that starts with https://');
  await page.getByLabel(/^Address of the deck's file/).fill(ADDRESS);
  await page.getByLabel('Late engine').check();
  await page.getByLabel(/^Check date\s*Of all/).fill(onDay(18));
  await page.getByLabel('Say how many minutes a day').check();
  await press(page, 'More: Minutes a day');
  await press(page, 'A part with days of its own');
  await page.getByLabel('Name of this part').fill('Session 5');
  await page.getByLabel('Opens on').fill(onDay(20));
  await page.getByLabel('The second procedure').check();
  await expect.poll(() => main(page)).toContain('after its check on');
  await sound(page, 'assign, not yet right');
  await page.getByLabel('Opens on').fill(onDay(3));
  await page.getByLabel('A note to the trainees').fill('Read part B first.');
  await page.getByRole('heading', { name: 'Hand it out' }).waitFor();
  first = await saved(page);
  expect(first.assignment).toMatchObject({
    n: 1,
    title: 'Group 3',
    checkDate: onDay(18),
    minutes: 15,
    decks: [{ id: 'test/assigned', address: ADDRESS, variants: { engine: ['late'] } }],
    groups: [{ name: 'Session 5', opens: onDay(3), things: ['test/assigned#second'] }],
  });
  await press(page, 'Show the QR code');
  await page.locator('svg.qr').waitFor();
  link = (await page.locator('a[href*="#assignment="]').getAttribute('href')) ?? '';
  expect(await qrOn(page)).toBe(link);
  // The same once more, since nothing was changed in between.
  expect((await saved(page)).assignment).toEqual(first.assignment);
  await sound(page, 'assign, handed out');
});

test('a trainee opens the link, sees what it sets, and is set up in one step', async () => {
  const { page } = trainee;
  await page.goto(link);
  await page.waitForURL(/#\/install$/);
  await press(page, 'I have read this');
  await expect.poll(() => heading(page)).toBe('Group 3');
  expect(fetched).toEqual([]);
  const told = await main(page);
  for (const words of [
    'Invented aeroplane',
    'Read part B first.',
    'Version 1.0.0: fetched from decks.example.',
    'which then sees your network address',
    'Check date',
    /none → \w+ \d+ \w+/,
    'Opened later',
    '10 → 15',
  ])
    expect(told).toMatch(words);
  await sound(page, 'assigned, to set up');
  await press(page, 'Set up');
  // By way of the page that may fetch, and not asked again.
  await page.getByText('days to your check').waitFor();
  expect(fetched).toEqual([ADDRESS]);
  expect(await main(page)).toContain('18');
  await page.getByRole('heading', { name: 'Not open yet' }).waitFor();
  await unfold(page, 'Not open yet');
  await expect.poll(() => main(page)).toContain('The second procedure');
  await page.getByRole('button', { name: 'Start: 15 minutes' }).waitFor();
  expect(await lastSet(page, 'variants/test/assigned')).toEqual({ engine: ['late'] });
  expect(await lastSet(page, 'opens/fictional')).toEqual({ 'test/assigned#second': onDay(3) });
  expect((await sets(page)).at(-1)).toMatchObject({ key: 'assignment/fictional', value: { n: 1, title: 'Group 3' } });
  await page.goto(`${base()}#/deck/test%2Fassigned`);
  await page.getByRole('link', { name: 'The first procedure' }).waitFor();
  expect(await page.getByRole('link', { name: 'The second procedure' }).count()).toBe(0);
  expect(await main(page)).toContain('opens on');
  await sound(page, 'deck, not open yet');
});

test('the same again changes nothing and says so; an amendment keeps what the trainee changed', async () => {
  const { page } = trainee;
  await page.goto(`${base()}#/decks`);
  await page.getByText('Open a deck file').waitFor();
  const before = (await sets(page)).length;
  await give(page, 'group-3-1.assignment.json', first.text);
  await page.getByText('Nothing of it changes.').waitFor();
  expect(await page.getByRole('button').count()).toBe(0);
  expect((await sets(page)).length).toBe(before);

  await page.goto(`${base()}#/`);
  await press(page, 'More: Each day');
  await page.getByRole('button', { name: 'Start: 20 minutes' }).waitFor();

  const there = instructor.page;
  await there.getByLabel(/^Check date\s*Of all/).fill(onDay(25));
  await press(there, 'Fewer: Minutes a day');
  await there.getByText('it goes out as number 2').waitFor();
  const second = await saved(there);
  expect(second.assignment).toMatchObject({ id: first.assignment.id, n: 2, checkDate: onDay(25), minutes: 10 });

  await page.goto(`${base()}#/decks`);
  await page.getByText('Open a deck file').waitFor();
  await give(page, 'group-3-2.assignment.txt', second.text);
  await page.getByText('It amends the assignment that you are set up by.').waitFor();
  expect(await main(page)).toContain('Version 1.0.0: here already.');
  expect(await main(page)).toContain('You changed this yourself: kept, unless you tick it.');
  expect(await page.getByLabel(/^Minutes a day/).isChecked()).toBe(false);
  expect(await page.getByLabel(/^Check date/).isChecked()).toBe(true);
  await sound(page, 'assigned, amended');
  await press(page, 'Set up');
  await page.getByRole('button', { name: 'Start: 20 minutes' }).waitFor();
  expect(await lastSet(page, 'check-date/fictional')).toBe(onDay(25));
  expect(await lastSet(page, 'minutes/fictional')).toBe(20);

  await page.goto(`${base()}#/decks`);
  await page.getByText('Open a deck file').waitFor();
  await give(page, 'group-3-1.assignment.json', first.text);
  await page.getByText('You are set up by a later one').waitFor();
  expect(await lastSet(page, 'check-date/fictional')).toBe(onDay(25));
});

test('on the day it is there, by itself', async () => {
  const { page } = trainee;
  await trainee.setClock(Date.now() + 4 * DAY);
  await page.goto(`${base()}?day=4#/deck/test%2Fassigned`);
  await page.getByRole('link', { name: 'The second procedure' }).waitFor();
  expect(await main(page)).not.toContain('opens on');
});

test('another revision at the address is said, and taken only by choice', async () => {
  const other = await visit();
  try {
    const { page } = other;
    await other.context.route('https://decks.example/**', (route) =>
      route.fulfill({ status: 200, headers: { 'Access-Control-Allow-Origin': '*' }, body: lies }),
    );
    lies = JSON.stringify({ ...DECK, version: '1.1.0' });
    await page.goto(link);
    await page.waitForURL(/#\/install$/);
    await press(page, 'I have read this');
    await press(page, 'Set up');
    await page.getByText('Another revision than assigned: version 1.1.0 was fetched, 1.0.0 is meant.').waitFor();
    expect(await page.getByLabel(/^An assigned deck/).isChecked()).toBe(false);
    expect(await sets(page)).toEqual([]);
    await sound(page, 'assigned, another revision');
    await page.getByLabel(/^An assigned deck/).check();
    await press(page, 'Set up');
    await page.getByText('days to your check').waitFor();
    expect(other.errors).toEqual([]);
  } finally {
    lies = FILE;
    await other.close();
  }
});

test('a version that nobody brought stands on the Brief and under Decks until its file is opened', async () => {
  const other = await visit();
  try {
    const { page } = other;
    const words = 'Assigned, but not on this device: An assigned deck, version 1.1.0. You practise version 1.0.0.';
    await page.goto(base());
    await press(page, 'I have read this');
    await give(page, 'assigned.deck.json', FILE);
    await press(page, 'Install');
    await page.getByLabel('Late engine').check();
    await press(page, 'Go on');
    await press(page, /^No date yet/);
    await page.getByRole('button', { name: /ask me/ }).waitFor();
    await page.goto(`${base()}#/decks`);
    await page.getByText('Open a deck file').waitFor();
    const [deck] = first.assignment.decks;
    const { address: _, ...lacking } = { ...deck, version: '1.1.0', contentId: '1'.repeat(64) };
    await give(page, 'next.assignment.json', JSON.stringify({ ...first.assignment, decks: [lacking] }));
    await press(page, 'Set up');
    await page.getByText('Set up, but for a deck').waitFor();
    await press(page, 'Go on');
    await page.getByText(words).waitFor();
    await sound(page, 'brief, an assigned version is missing');
    await press(page, 'Decks');
    await page.getByText('Open a deck file').waitFor();
    expect(await main(page)).toContain(words);
    // A newer one than was assigned stands for it.
    await give(page, 'next.deck.json', JSON.stringify({ ...DECK, version: '1.2.0' }));
    await press(page, 'Replace');
    await page.getByText('days to your check').waitFor();
    await page.getByText('Settings').waitFor();
    await press(page, 'Decks');
    await page.getByText('version 1.2.0').waitFor();
    expect(await main(page)).not.toContain('not on this device');
    expect(other.errors).toEqual([]);
  } finally {
    await other.close();
  }
});

test.each([
  ['half a file', (text: string) => text.slice(0, 200), 'The file ends too early: only a part of it arrived.'],
  ['a newer format', (text: string) => text.replace('"v": 1', '"v": 2'), 'made by a newer version of Recency'],
  [
    'a date that is none',
    (text: string) => text.replace(onDay(18), '2026-02-30'),
    'The calendar has no day 2026-02-30.',
  ],
])('%s is not set up, and says what to do', async (_, change, words) => {
  const { page } = instructor;
  await page.goto(`${base()}#/decks`);
  await page.getByText('Open a deck file').waitFor();
  const before = (await sets(page)).length;
  await give(page, 'x.assignment.json', change(first.text));
  await page.getByText(words).waitFor();
  expect(await heading(page)).toBe('Not set up');
  expect((await sets(page)).length).toBe(before);
  await press(page, 'Back to the decks');
});

test('a link that is cut off says so on the page that opens it', async () => {
  const { page } = trainee;
  await page.goto('about:blank');
  await page.goto(link.slice(0, -30));
  await page.getByText('This link is not whole').waitFor();
  expect(await heading(page)).toBe('Open an assignment');
});

test('the page that fetches does nothing of itself', async () => {
  fetched = [];
  const { page } = trainee;
  await page.goto('about:blank');
  await page.goto(`${base()}open.html#assigned`);
  await page.getByText('Nothing is left to fetch.').waitFor();
  // A link to it that another app shared leads to the same.
  await page.goto('about:blank');
  await page.goto(`${base()}open.html#deck=${encodeURIComponent(link)}`);
  await page.getByText('You are set up by a later one').waitFor();
  expect(fetched).toEqual([]);
});
