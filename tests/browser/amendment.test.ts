import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { afterEach, beforeEach, expect, inject, test } from 'vitest';
import { heading, logged, press, shown } from '../helpers/app.ts';
import { type Visit, visit } from '../helpers/browser.ts';
import { practisedCopy } from '../helpers/practised.ts';
import { shoot } from '../helpers/shots.ts';

const DAY = 86_400_000;
/** Between midnight and four a study day is still that of yesterday. */
const NOON = (Math.floor(Date.now() / DAY) + 1) * DAY + DAY / 2;
const isoDay = (days: number): string => new Date(NOON + days * DAY).toISOString().slice(0, 10);
const FILE = 'merrow-takeoff.deck.json';
const { version: BEFORE } = JSON.parse(await readFile(`decks/${FILE}`, 'utf8')) as { version: string };
const ID = 'recency%2Fmerrow-takeoff';
/** Invented, as all numbers of this deck. */
const OLD = '55';
const NEW = '65';

// biome-ignore lint/suspicious/noExplicitAny: a deck that is being changed
type Loose = any;

/** The take-off deck with another number, a step put in and a step taken out. */
const revision = async (version: string, more: object): Promise<string> => {
  const deck = JSON.parse(await readFile(`decks/${FILE}`, 'utf8')) as Loose;
  Object.assign(deck, { version, amendment: 'The manual was revised: see its letter of changes.' }, more);
  const limit = deck.limits.find((one: Loose) => one.id === 'thrust-set-by');
  expect(String(limit.value)).toBe(OLD);
  limit.value = Number(NEW);
  const steps = (id: string): Loose[] => deck.procedures.find((one: Loose) => one.id === id).steps;
  steps('set-thrust').splice(1, 0, {
    id: 'st-wipers',
    by: 'PM',
    do: 'Wipers as the rain demands',
    cue: { text: 'Rain on the windscreen' },
    why: 'Invented.',
  });
  expect(steps('short-level-off').pop()?.id).toBe('sl-rate');
  return JSON.stringify(deck);
};

let browser: Visit;
beforeEach(async () => {
  browser = await visit();
  await browser.setClock(NOON);
});
afterEach(() => browser.close());

/** A learner who has met everything, yesterday last. */
const practised = async (page: Page, checkIn: number): Promise<void> => {
  await page.goto(inject('baseUrl'));
  await press(page, 'I have read this');
  await page.goto(`${inject('baseUrl')}#/settings`);
  const flown = { engine: ['tk11'], operator: ['calder'] };
  const of = { file: FILE, flown, course: 'fictional', now: NOON, checkIn, minutes: 30, met: 1 } as const;
  const buffer = Buffer.from(await practisedCopy(of));
  await page.locator('input[type=file]').setInputFiles({ name: 'copy.txt', mimeType: 'text/plain', buffer });
  await page.getByText(/^Taken in/).waitFor();
};
const give = async (page: Page, text: string): Promise<void> => {
  await page.goto(`${inject('baseUrl')}#/decks`);
  await page
    .locator('input[type=file]')
    .first()
    .setInputFiles({ name: 'new.deck.json', mimeType: 'application/json', buffer: Buffer.from(text) });
  await page.getByRole('button', { name: 'Replace' }).waitFor();
};
const main = (page: Page): Promise<string> => page.locator('main').innerText();
const shootBoth = async (page: Page, name: string): Promise<void> => {
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    await shoot(page, `${name} ${colorScheme}`);
  }
  await page.emulateMedia({ colorScheme: 'light' });
};
/** Goes on until the number is asked: what is met on the way. */
const untilTheNumber = async (page: Page): Promise<string[]> => {
  const met: string[] = [];
  for (let i = 0; i < 20; i++) {
    const put = await shown(page);
    if (put === 'read') {
      met.push(`read: ${await main(page)}`);
      await press(page, /ask me$/);
    } else if (put === 'verdict') await press(page, 'Next');
    else {
      const text = await main(page);
      met.push(`${put}: ${text}`);
      if (text.includes('Speed by which take-off thrust must be set')) return met;
      await press(page, "Don't know");
    }
  }
  throw new Error(`Never asked: ${met.join('\n---\n')}`);
};

test('an amended deck: shown before and after it is taken, asked first, the old number told; then taken back', async () => {
  const { page } = browser;
  await practised(page, 30);
  await give(page, await revision('3.0.0', { effective: isoDay(0) }));
  await page.getByText(/^Other answers: 6, 1 critical\. New: 1, 1 critical\. No longer asked: 1\./).tap();
  await page.getByRole('heading', { name: /^Other answers/ }).waitFor();
  const first = page.locator('section', { has: page.getByRole('heading', { name: /^Other answers/ }) }).locator('li');
  expect(await first.nth(0).innerText()).toMatch(/^critical Step: “Thrust set”/);
  expect(await first.nth(1).innerText()).toMatch(/^Limit: Speed by which take-off thrust/);
  expect(await first.last().innerText()).toContain('Because of:');
  expect(await main(page)).toContain('The manual was revised');
  expect(await main(page)).toMatch(/55\skt/);
  await shootBoth(page, 'amendment install');
  await press(page, 'Replace');

  await expect.poll(() => heading(page)).toBe('What was amended');
  await page.getByRole('heading', { name: /^Other answers/ }).waitFor();
  const said = await main(page);
  expect(said).toContain(`version ${BEFORE} → 3.0.0`);
  expect(said).toContain('The manual was revised: see its letter of changes.');
  expect(said).toMatch(/Was at most 55\skt/);
  expect(said).toMatch(/Now at most 65\skt/);
  expect(said).toContain('Wipers as the rain demands');
  expect(said).toContain('Reduce the rate of climb');
  await shootBoth(page, 'amendment brief');

  // Not read yet: the Brief says so until it is.
  await page.goto(`${inject('baseUrl')}#/`);
  await page.getByText(/^Amended: /).waitFor();
  await shootBoth(page, 'amendment on the Brief');
  await page.reload();
  await press(page, 'Read what changed');
  await press(page, 'I have read this');
  await expect.poll(() => main(page)).toContain('amended: the new answer');
  expect(await page.getByText(/^Amended: /).count()).toBe(0);
  const seen = (await logged(page, 'deck')).at(-1) as unknown as { readonly state: string; readonly deck: string };
  expect(seen).toMatchObject({ state: 'seen' });

  await press(page, /^Start/);
  expect(await shown(page)).toBe('read');
  const met = await untilTheNumber(page);
  // Everything met on the way was amended too: nothing else came before it.
  expect(met.filter((text) => !/Wipers|take-off thrust must be set|Level ahead/.test(text))).toEqual([]);
  await page.locator('.number-field input').fill(OLD);
  await press(page, 'Sure');
  await page.getByRole('button', { name: 'Next', exact: true }).waitFor();
  const before = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'long', year: 'numeric' }).format(
    NOON - DAY,
  );
  expect(await main(page)).toContain(`That was right until ${before}.`);
  await shootBoth(page, 'amendment old number');
  const answers = await logged(page, 'answer');
  expect(Object.values(answers.at(-1)?.marks ?? {})).toEqual(['wrong']);
  await press(page, 'Enough for today');
  // It leads there once all is stored.
  await expect.poll(() => heading(page)).toBe('Debrief');

  // The old one back, and with it what was known.
  await page.goto(`${inject('baseUrl')}#/deck/${ID}`);
  await page.getByText('Versions on this device').scrollIntoViewIfNeeded();
  await shootBoth(page, 'amendment versions');
  await press(page, /^Take this version back/);
  await page.getByText(`Version ${BEFORE} is taken`).waitFor();
  expect(await main(page)).toContain(`Version ${BEFORE} · taken, asked now`);
  await page.goto(`${inject('baseUrl')}#/`);
  await page.getByRole('button', { name: /^Start/ }).waitFor();
  expect(await main(page)).not.toContain('amended: the new answer');
  expect(await main(page)).not.toContain('new, in between');
  expect((await logged(page, 'answer')).length).toBe(answers.length);
  expect(browser.errors).toEqual([]);
});

test('with a date to come the old number is asked until then, and both are told', async () => {
  const { page } = browser;
  await practised(page, 40);
  await give(page, await revision('3.0.0', { effective: isoDay(5) }));
  await press(page, 'Replace');
  await expect.poll(() => heading(page)).toBe('What was amended');
  const day = (days: number) =>
    new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'long', year: 'numeric' }).format(NOON + days * DAY);
  expect(await main(page)).toContain(`In force from ${day(5)}: until then the answers of before are right.`);
  await shootBoth(page, 'amendment to come');
  await press(page, 'I have read this');
  await page.getByRole('link', { name: new RegExp(`In force from ${day(5)}`) }).waitFor();
  await shootBoth(page, 'amendment to come on the Brief');
  await page.goto(`${inject('baseUrl')}#/deck/${ID}`);
  await page.getByText(`Version ${BEFORE} · asked now`).waitFor();
  expect(await main(page)).toContain(`Version 3.0.0 · taken, in force from ${day(5)}`);

  // On its day, with the page open: as when the phone wakes.
  await browser.setClock(NOON + 5 * DAY);
  await page.evaluate(() => dispatchEvent(new Event('focus')));
  await page.getByText(/Version 3\.0\.0 · taken, asked now/).waitFor();
  await page.goto(`${inject('baseUrl')}#/`);
  await expect.poll(() => main(page)).toContain('amended: the new answer');
  expect(browser.errors).toEqual([]);
});
