import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import validate from 'xapi-validation';
import { makeDeviceKey, signReport } from '../../src/exchange/report-sign.ts';
import type { Report } from '../../src/model/report.ts';
import { firstMinutes, heading, MERROW, press, unfold } from '../helpers/app.ts';
import { type Visit, visit } from '../helpers/browser.ts';
import { bigClass, classOf } from '../helpers/class-reports.ts';
import { fileOf } from '../helpers/plain-report.ts';
import { sound } from '../helpers/sound.ts';
import { focusedPlace } from '../helpers/workshop.ts';
import { openAsFiles } from './class-page/files.ts';
import type { ClassPage } from './class-page/main.tsx';
import { galleryServer } from './gallery/build.ts';

const NOW = Date.parse('2026-11-27T10:00:00Z');
const DAY = 86_400_000;

let server: Awaited<ReturnType<typeof galleryServer>>;
let browser: Visit;
let page: Page;
let merrow: Awaited<ReturnType<typeof classOf>>;
beforeAll(async () => {
  merrow = await classOf('merrow-takeoff.deck.json');
  server = await galleryServer(join(import.meta.dirname, 'class-page'));
  browser = await visit();
  page = browser.page;
});
afterAll(async () => {
  await browser.close();
  await server.close();
});

/** Opens the page, at some time, with the deck installed and a draft of it. */
const open = async (now: number, at = '') => {
  await page.goto(`${server.url}#/class${at}`);
  await page.reload();
  const draft = { id: 'draft1', seq: 1, made: 0, changed: 0, value: merrow.deck, history: null, side: {}, base: null };
  await page.evaluate((given) => (window as unknown as { classPage: ClassPage }).classPage.begin(given as never), {
    decks: [merrow.stored],
    drafts: [draft],
    now,
  });
  await page.getByRole('heading', { level: 1 }).waitFor();
};
const file = (name: string, text: string) => ({ name, mimeType: 'text/plain', buffer: Buffer.from(text) });
const of = (report: Report, key: string) => file(`${report.trainee}.report.txt`, fileOf(report, key));
const take = async (files: readonly ReturnType<typeof file>[]) => {
  await page.getByLabel('Open reports').setInputFiles([...files]);
  await page.getByText(new RegExp(`^${files.length} files?:`)).waitFor();
};
const text = () => page.locator('main').innerText();
const names = () => page.locator('main .deck-link').allInnerTexts();
const saved = () => page.evaluate(() => (window as unknown as { classPage: ClassPage }).classPage.saved);

test('three files in: the table tells who needs help first', async () => {
  await open(NOW);
  expect(await text()).toContain('who will forget what');
  await sound(page, 'class, empty');

  const step = merrow.items.find(({ groupKind }) => groupKind === 'procedure');
  const slip = { key: step?.key ?? '', asked: 'After the landing gear', given: 'Flaps 1', times: 2 };
  const query = { items: [step?.key ?? ''], on: '2026-11-24', note: 'The manual says otherwise.' };
  const falcon = merrow.report('Falcon', 0.85, {}, { slips: [slip] });
  const whole = merrow.report('Heron', 0.3, { n: 4, planned: 1 }, { slips: [slip], slipsLeftOut: 3, queries: [query] });
  // One procedure is checked before the rest.
  const early = new Set(merrow.items.filter(({ group }) => group === 'line-up').map(({ key }) => key));
  // The model has it high; yet it was never once right.
  const missed = whole.decks[0]?.items.reduce((a, b) => ((b.day ?? 0) > (a.day ?? 0) ? b : a)).key;
  const heron: Report = {
    ...whole,
    decks: whole.decks.map((deck) => ({
      ...deck,
      items: deck.items
        .map((one) => (early.has(one.key) ? { ...one, check: '2026-12-01', sureWrong: one.verdicts[0] } : one))
        .map((one) => (one.key === missed ? { ...one, verdicts: [2, 0, 0, 0] as const } : one)),
    })),
  };
  const plan = { minutes: 10, recall: 0.93, needed: 12 };
  const kite = merrow.report('=Kite', 0.6, { plan }, { version: '0.9.0', contentId: 'b'.repeat(64) });
  await take([
    of(falcon, 'device-aaaa'),
    of(heron, 'device-bbbb'),
    of(kite, 'device-cccc'),
    of(heron, 'device-bbbb'),
    file('photo.txt', 'a photo of a cat'),
    file('half.report.txt', fileOf(falcon).slice(0, 500)),
    file('big.txt', 'x'.repeat(2_000_001)),
  ]);
  // What is below the table is drawn in turns of its own.
  await expect.poll(text).toContain('below its target with');
  const told = await text();
  expect(told).toContain('7 files: 3 taken in, 1 here already, 3 refused.');
  expect(told).toContain('This is no report of Recency.');
  expect(told).toContain('The file ends too early.');
  expect(told).toContain('The file is larger than 2 MB');
  expect(told).toContain('=Kite: Merrow 240: take-off and initial climb 0.9.0, older than');
  expect(told).toMatch(/=Kite: by their own app, 10 a day: about 93\s%; 12 a day would reach 95\s%/);
  expect(told).toMatch(
    /Will not be ready by what they plan[\s\S]*Heron: \d+ of at least \d+ minutes until (Tuesday 1|Monday 7) December; the least would be \d+ a day/,
  );
  expect(await names()).toEqual(['Heron', '=Kite', 'Falcon']);
  // 12 minutes on one day, 60 planned since.
  expect(told).toMatch(
    /Practise far less than they plan\s+=Kite: 12 of 60 min answering; Falcon: 12 of 60 min answering\. /,
  );
  expect(told).toContain('“Answered” is noted here alone');
  expect(told).toMatch(/asked of \d trainees?, below its target with \d/);
  expect(told).toContain('Wrong answers, by how many trainees');
  expect(told).toContain('So 3 wrong answers are counted and not named.');
  await page.getByText('Weakest items as a table').tap();
  await page.getByText('Commonest slips as a table').tap();
  expect(await page.getByRole('row', { name: /After the landing gear: Flaps 1/ }).innerText()).toMatch(/2\s+4$/);
  const link = await page.getByRole('link', { name: 'Open it in your draft' }).getAttribute('href');
  const at = (merrow.deck.procedures ?? []).findIndex(({ id }) => id === step?.group);
  expect(link).toBe(`#/workshop/draft1/procedures/${at}`);
  await sound(page, 'class, phone');
});

test('heads of older versions of the app, which do not say of which decks they are, tell the same', async () => {
  const before = await text();
  await page.evaluate(
    () =>
      new Promise<void>((done, failed) => {
        const opening = indexedDB.open('recency-class');
        opening.onerror = () => failed(opening.error);
        opening.onsuccess = () => {
          const database = opening.result;
          const transaction = database.transaction('heads', 'readwrite');
          const store = transaction.objectStore('heads');
          const reading = store.getAll() as IDBRequest<{ flown?: unknown }[]>;
          reading.onsuccess = () => {
            for (const { flown, ...old } of reading.result) if (flown !== undefined) store.put(old);
          };
          transaction.oncomplete = () => {
            database.close();
            done();
          };
        };
      }),
  );
  await open(NOW);
  const table = (of: string) => of.slice(of.indexOf('3 trainees'), of.indexOf('Weakest items as a table'));
  expect(table(before).length).toBeGreaterThan(1000);
  await expect.poll(async () => table(await text())).toBe(table(before));
});

test('what is installed while the class is open counts at once: who is on an older revision is told', async () => {
  const newer = {
    ...merrow.stored,
    ref: `${merrow.deck.id}@${'9'.repeat(16)}`,
    version: '9.0.0',
    contentId: '9'.repeat(64),
  };
  const install = (decks: readonly (typeof newer)[]) =>
    page.evaluate(
      ([all, now]) => (window as unknown as { classPage: ClassPage }).classPage.begin({ decks: all, drafts: [], now }),
      [decks, NOW] as const,
    );
  const falcon = `Falcon: ${merrow.deck.title} ${merrow.deck.version}, older than 9.0.0 on this device`;
  expect(await text()).not.toContain(`Falcon: ${merrow.deck.title}`);
  await install([merrow.stored, newer]);
  await expect.poll(text).toContain(falcon);
  expect(await text()).toContain('0.9.0, older than 9.0.0 on this device');
  await install([merrow.stored]);
  await expect.poll(text).not.toContain(falcon);
});

test('a folder of reports, and files that are dropped, come in as those that are chosen', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'recency-class-'));
  const [wren, owl] = ['Wren', 'Owl'].map((name) => merrow.report(name, 0.7)) as [Report, Report];
  writeFileSync(join(folder, 'wren.report.txt'), fileOf(wren, 'device-wwww'));
  writeFileSync(join(folder, 'notes.txt'), 'not a report');
  await page.getByLabel('Open a folder').setInputFiles(folder);
  await expect.poll(text).toContain('2 files: 1 taken in, 0 here already, 1 refused.');
  const dropped = await page.evaluateHandle(
    (content) => {
      const data = new DataTransfer();
      data.items.add(new File([content], 'owl.report.txt', { type: 'text/plain' }));
      return data;
    },
    fileOf(owl, 'device-oooo'),
  );
  await page.locator('main').dispatchEvent('drop', { dataTransfer: dropped });
  await expect.poll(text).toContain('1 file: 1 taken in, 0 here already, 0 refused.');
  await expect.poll(async () => (await names()).sort()).toEqual(['=Kite', 'Falcon', 'Heron', 'Owl', 'Wren']);
  for (const name of ['Owl', 'Wren']) {
    await press(page, name);
    await press(page, 'Delete this trainee');
    await press(page, 'Delete for good');
    await expect.poll(names).not.toContain(name);
    await expect.poll(names).toContain('Falcon');
  }
  rmSync(folder, { recursive: true });
});

test('on a desktop procedures stand side by side, and the table leaves as CSV', async () => {
  await page.setViewportSize({ width: 1280, height: 800 });
  await page.getByRole('columnheader', { name: 'Line-up' }).waitFor();
  await sound(page, 'class, desktop');
  const scroll = page.locator('.class-scroll');
  const rights = await page
    .locator('.class-table tr:has(th[scope]):not(:has(th[scope="colgroup"]))')
    .evaluateAll((rows) => rows.map((one) => [...one.children].map((cell) => cell.getBoundingClientRect().right)));
  for (const own of rights) expect(own).toEqual(rights[0]);
  // No word of a head is broken, whatever the letters of this machine.
  expect(
    await page
      .locator('.class-table thead th')
      .evaluateAll((heads) =>
        heads.filter((one) => one.scrollWidth > one.clientWidth).map(({ textContent }) => textContent),
      ),
  ).toEqual([]);
  // Whose row it is stays in sight, and an edge stands where the table goes on.
  await scroll.evaluate((one) => {
    one.scrollLeft = one.scrollWidth;
  });
  expect(
    await page
      .locator('.class-table tbody th')
      .first()
      .evaluate((one) => one.getBoundingClientRect().left),
  ).toBe(await scroll.evaluate((one) => one.getBoundingClientRect().left));
  const [end, edge] = await Promise.all(
    [page.locator('.class-table td').last(), scroll].map((one) =>
      one.evaluate((it) => it.getBoundingClientRect().right),
    ),
  );
  expect(Math.abs((end ?? 0) - (edge ?? 0))).toBeLessThan(2);
  const heronCells = page
    .getByRole('row')
    .filter({ hasText: 'Heron' })
    .getByRole('cell', { name: /below target/ });
  expect(await heronCells.count()).toBeGreaterThan(5);
  expect(await page.getByRole('cell', { name: /on Tue 1 Dec$/ }).count()).toBe(1);
  // The words behind the signs.
  expect(await page.getByRole('cell', { name: /critical – not yet asked/ }).count()).toBeGreaterThan(0);
  expect(await page.getByRole('cell', { name: /critical \d+ %$/ }).count()).toBeGreaterThan(0);
  await press(page, 'Save the table as CSV');
  await expect.poll(async () => (await saved()).length).toBe(1);
  const [csv] = await saved();
  expect(csv?.name).toBe('recency-class-2026-11-27.csv');
  expect(csv?.text).toContain(`\r\n"'=Kite",`);
  expect(csv?.text).toContain(',2026-12-01: Line-up,');
  await page.setViewportSize({ width: 360, height: 740 });
});

test('on paper, from a phone too, each procedure is there, with dates, and no word is broken', async () => {
  const device = await visit();
  const sheet = device.page;
  await sheet.goto(`${server.url}#/class`);
  await sheet.evaluate((given) => (window as unknown as { classPage: ClassPage }).classPage.begin(given), {
    decks: [merrow.stored],
    drafts: [],
    now: NOW,
  });
  await sheet.getByRole('heading', { level: 1 }).waitFor();
  await openAsFiles(
    sheet,
    ['Heron', 'Kite'].map((name, i) => fileOf(merrow.report(name, 0.3 + 0.4 * i), name)),
  );
  const tell = (name: string) => sheet.evaluate((one) => void dispatchEvent(new Event(one)), name);
  // What comes in while it is printed is on paper too. The table may still be on its way: nobody prints so soon.
  await expect
    .poll(async () => {
      await tell('beforeprint');
      return sheet.locator('.class-paper table').count();
    })
    .toBeGreaterThan(0);
  await openAsFiles(
    sheet,
    ['Late', 'Later'].map((name) => fileOf(merrow.report(name, 0.5), name)),
  );
  await sheet.locator('.class-paper').getByText('Late').first().waitFor({ state: 'attached' });
  await tell('afterprint');
  for (const width of [360, 1280]) {
    await sheet.setViewportSize({ width, height: 740 });
    expect(await sheet.locator('.class-paper table').count()).toBe(0);
    await tell('beforeprint');
    await sheet.emulateMedia({ media: 'print' });
    // A4 upright and on its side, without its margins.
    for (const paper of [703, 1032]) {
      await sheet.setViewportSize({ width: paper, height: 740 });
      const told = await sheet.locator('main').innerText();
      expect(told).toContain('printed on Friday 27 November 2026');
      expect(told).toMatch(/Heron\s+check on Mon 7 Dec; report made on Wed 25 Nov/);
      expect(told).not.toContain('days ago');
      const heads = await sheet.locator('.class-paper thead th').allInnerTexts();
      for (const { title } of merrow.deck.procedures ?? [])
        expect(heads.filter((one) => one === title)).toHaveLength(1);
      const tooWide = await sheet.evaluate(
        () =>
          [document.documentElement, ...document.querySelectorAll('.class-paper :is(th, td)')].filter(
            (one) => one.scrollWidth > one.clientWidth,
          ).length,
      );
      expect(tooWide).toBe(0);
    }
    await tell('afterprint');
    await sheet.emulateMedia({ media: 'screen' });
  }
  expect(await sheet.locator('.class-paper table').count()).toBe(0);
  await device.close();
});

test('in a large class readers are told of each cell, those far below too', async () => {
  const { stored, files } = await bigClass(30);
  const desktop = await visit();
  await desktop.page.setViewportSize({ width: 1280, height: 800 });
  await desktop.page.goto(`${server.url}#/class`);
  await desktop.page.evaluate((given) => (window as unknown as { classPage: ClassPage }).classPage.begin(given), {
    decks: [stored],
    drafts: [],
    now: NOW,
  });
  await desktop.page.getByRole('heading', { level: 1 }).waitFor();
  await openAsFiles(desktop.page, files);
  const devtools = await desktop.page.context().newCDPSession(desktop.page);
  const told = async (role: string) => {
    const { nodes } = await devtools.send('Accessibility.getFullAXTree');
    return nodes.filter((node) => node.role?.value === role).length;
  };
  // All, minutes, sure but wrong, and thirty procedures.
  await expect.poll(() => told('cell')).toBe(30 * 33);
  expect([await told('table'), await told('rowheader'), await told('columnheader')]).toEqual([1, 30, 34]);
  await desktop.page.emulateMedia({ media: 'print' });
  const last = desktop.page.locator('.class-table tbody tr').last();
  expect(await last.evaluate((row) => getComputedStyle(row).display)).toBe('table-row');
  const widths = await last.evaluate((row) => [...row.children].map((cell) => (cell as HTMLElement).offsetWidth));
  expect(widths[0]).toBeGreaterThan(1.5 * (widths[1] ?? 0));
  // Those of procedures of a like name; rounded to whole pixels.
  const alike = widths.slice(-10);
  expect(Math.max(...alike) - Math.min(...alike)).toBeLessThanOrEqual(1);
  await desktop.close();
});

test('a trainee: statements that leave are sound, notes stay, and one who is deleted is gone', async () => {
  await press(page, 'Heron');
  await page.getByText('From the second report on it stands here').waitFor();
  const table = page.getByRole('table', { name: /^Recall of each procedure/ });
  expect(await table.getByRole('rowheader').first().innerText()).toBe('All');
  const aligned = await table
    .locator('tr > :not(:first-child)')
    .evaluateAll((cells) => cells.map((one) => getComputedStyle(one).textAlign));
  expect(new Set(aligned)).toEqual(new Set(['right']));
  expect(await text()).toMatch(
    /Checked before\s+Line-up: Tuesday 1 December, 4 days to the check; minutes until then: /,
  );
  await press(page, 'Save as xAPI statements');
  await expect.poll(async () => (await saved()).length).toBe(2);
  const statements = JSON.parse((await saved())[1]?.text ?? '') as unknown[];
  expect(statements.length).toBeGreaterThan(20);
  for (const statement of statements) expect(validate(statement)).toEqual([]);
  await page.getByLabel('Your notes on this trainee').fill('Mornings only');
  await press(page, 'Keep the notes');
  await page.getByText('Kept on this device.').waitFor();
  expect(await text()).toMatch(/\d+ items are asked of this trainee\. \d+ have not come up yet\./);
  expect(await text()).not.toContain('“Who is expected”');
  // What they were sure of and wrong, item by item, of all times it was answered.
  await page.getByRole('heading', { name: 'Sure, but wrong' }).waitFor();
  expect(
    await page
      .getByRole('listitem')
      .filter({ hasText: /1 of 5$/ })
      .count(),
  ).toBeGreaterThan(3);
  // What they took for right, and how much more was wrong.
  expect(await text()).toMatch(/Wrong answers\s+How often each was given\. 3 more are counted and not named/);
  expect(await text()).toMatch(/After the landing gear: Flaps 1[^\n]*\s+2 times\n/);
  const weakest = page
    .locator('section')
    .filter({ has: page.getByRole('heading', { name: 'Weakest of what was asked' }) });
  expect(await weakest.last().getByRole('listitem').first().innerText()).toMatch(/· never yet right\s+\d+\s%$/);
  await sound(page, 'class, trainee');
  await press(page, 'Delete this trainee');
  await expect.poll(text).toContain('Delete Heron: 1 report and your notes go from this device for good.');
  expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Keep');
  await sound(page, 'class, delete');
  await press(page, 'Keep');
  await press(page, 'Delete this trainee');
  await press(page, 'Delete for good');
  await expect.poll(names).toEqual(['=Kite', 'Falcon']);
  await open(NOW);
  expect(await names()).toEqual(['=Kite', 'Falcon']);
});

test('a history, one trainee with two devices, and two of one name', async () => {
  await open(NOW);
  const later = merrow.report('Falcon', 0.95, { n: 2, made: '2026-11-26' });
  await take([of(later, 'device-aaaa'), of(merrow.report('falcon', 0.5), 'device-dddd')]);
  await expect.poll(text).toContain('2 trainees chose a pseudonym that another one has');
  expect((await names()).sort()).toEqual(['=Kite', 'Falcon (AAAA EFGH)', 'falcon (DDDD EFGH)']);
  await press(page, 'Falcon (AAAA EFGH)');
  await page.getByRole('img', { name: /^Recall of all items over 2 reports/ }).waitFor();
  await page.getByText('The same as a table').tap();
  await page.getByRole('row', { name: /^2, Thursday 26 November/ }).waitFor();
  await page.getByLabel('The same person as').selectOption({ label: 'falcon (DDDD EFGH)' });
  await sound(page, 'class, joining');
  expect(await text()).toContain('will be one trainee with two devices, called falcon.');
  await press(page, 'Join them');
  await expect.poll(async () => (await names()).sort()).toEqual(['=Kite', 'falcon']);
  await press(page, 'falcon');
  await press(page, /^Not this trainee's/);
  await page.getByRole('heading', { name: /^1 device/ }).waitFor();
});

test('what is kept, who is expected, and what is too old is named before it goes', async () => {
  await open(NOW, '/kept');
  await expect.poll(() => heading(page)).toBe('What is kept, and for how long');
  await page.getByLabel('Title').fill('Group 3');
  await page.getByLabel(/^Who is expected/).fill('Falcon\nOsprey');
  await page.getByLabel('Days for which reports are kept').fill('a year');
  await press(page, 'Keep these settings');
  expect(await text()).toContain('Reports are kept for 1 to 3650 days: enter a whole number.');
  await sound(page, 'class, kept');
  await page.getByLabel('Days for which reports are kept').fill('30');
  await page.getByLabel(merrow.deck.title).check();
  await press(page, 'Keep these settings');
  await expect.poll(() => page.getByRole('status').innerText()).toBe('Kept on this device.');
  expect(await text()).toContain('For 30 days from the day');
  await page.getByLabel(merrow.deck.title).uncheck();
  await expect.poll(() => page.getByRole('status').innerText()).toBe('');
  await page.getByLabel(merrow.deck.title).check();
  await press(page, 'Class table');
  await expect.poll(() => heading(page)).toBe('Group 3');
  await expect.poll(text).toMatch(/No report yet\s+Osprey/);
  expect(await text()).toContain('Not on your list of who is expected: =Kite.');
  await press(page, /^Falcon \(/);
  await press(page, 'Delete this trainee');
  expect(await text()).toContain('Falcon is taken off “Who is expected” too');
  await press(page, 'Keep');
  await press(page, 'Class table');
  await expect.poll(() => heading(page)).toBe('Group 3');
  const other = merrow.report('Wren', 0.5, {}, { id: 'else/where', title: 'Another deck' });
  await take([of(other, 'device-eeee')]);
  await expect.poll(text).toContain('on another deck: Another deck');

  await open(NOW + 20 * DAY);
  expect(await text()).toContain('will be deleted soon, the first after Sunday 27 December');
  await open(NOW + 31 * DAY);
  expect(await text()).toContain('4 reports came here more than 30 days ago');
  expect(await names()).toEqual([]);
  await sound(page, 'class, too old');
  await press(page, 'Delete them and open the table');
  await expect.poll(text).toContain('who will forget what');
  await open(NOW);
  expect(await names()).toEqual([]);
  // The page of tests has no icon.
  expect(browser.errors.filter((error) => !error.includes('404'))).toEqual([]);
});

test('in the app it is reached from the settings and the Workshop, without a deck; nothing of it is loaded before', async () => {
  const device = await visit();
  await device.page.goto(inject('baseUrl'));
  const build = (await (await fetch(`${inject('baseUrl')}build.json`)).json()) as { readonly workshop: string[] };
  expect(build.workshop.length).toBeGreaterThan(5);
  /** Of what instructors alone open. */
  const loaded = () =>
    device.page.evaluate((names) => {
      const paths = performance.getEntriesByType('resource').map((one) => new URL(one.name).pathname);
      return names.filter((name) => paths.some((path) => path.endsWith(`/${name}`)));
    }, build.workshop);
  await press(device.page, 'I have read this');
  for (const at of ['decks', 'settings']) {
    await device.page.goto(`${inject('baseUrl')}#/${at}`);
    await device.page.getByRole('heading', { level: 1 }).waitFor();
  }
  expect(await loaded()).toEqual([]);
  await unfold(device.page, 'For instructors');
  await press(device.page, 'Class table');
  await device.page.getByText('who will forget what').waitFor();
  expect((await loaded()).length).toBeGreaterThan(0);
  await device.page.goto(`${inject('baseUrl')}#/workshop`);
  await press(device.page, 'Class table');
  await device.page.getByText('who will forget what').waitFor();
  // The three places name each other; without a deck there is a way to one.
  await press(device.page, 'Assign practice');
  await expect.poll(() => heading(device.page)).toBe('Assign practice');
  await press(device.page, 'Workshop');
  await expect.poll(() => heading(device.page)).toBe('Workshop');
  await press(device.page, 'Assign practice');
  await press(device.page, 'Bring a deck');
  await expect.poll(() => heading(device.page)).toBe('What will you practise?');
  await press(device.page, 'Class table');
  await device.page.getByText('who will forget what').waitFor();
  await press(device.page, /^What is kept/);
  await expect.poll(() => heading(device.page)).toBe('What is kept, and for how long');
  await device.page.goto(`${inject('baseUrl')}#/class/nobody`);
  await expect.poll(() => heading(device.page)).toBe('No such trainee');
  expect(device.errors).toEqual([]);
  await device.close();
});

test('a query leads into the Workshop, to the very step, with the trainee’s words; answered, it is folded away', async () => {
  const device = await visit();
  const at = device.page;
  await at.goto(inject('baseUrl'));
  await firstMinutes(at, MERROW);
  const procedures = merrow.deck.procedures ?? [];
  const procedure = procedures.findIndex(({ steps }) => steps.filter((one) => 'id' in one).length > 2);
  const steps = procedures[procedure]?.steps ?? [];
  const step = steps.findLastIndex((one) => 'id' in one);
  const { id } = steps[step] as { readonly id: string };
  const item = merrow.items.find(({ thing }) => thing === id);
  if (item === undefined) throw new Error(`Nothing is asked of ${id}.`);
  const query = { items: [item.key], on: '2026-11-24', note: 'The manual says otherwise.' };
  const file = await signReport(merrow.report('Heron', 0.5, {}, { queries: [query] }), await makeDeviceKey());
  await at.goto(`${inject('baseUrl')}#/class`);
  await at
    .getByLabel('Open reports')
    .setInputFiles({ name: 'heron.report.txt', mimeType: 'text/plain', buffer: Buffer.from(file) });
  await at.getByText('The manual says otherwise.').waitFor();
  const place = `/procedures/${procedure}/steps/${step}`;
  const isThere = () => focusedPlace(at).then((path) => path === place || path?.startsWith(`${place}/`));
  // No draft yet: one is begun of the version that is here.
  await press(at, `Open it in a new draft of version ${merrow.deck.version}`);
  await at.waitForURL(new RegExp(`#/workshop/\\w+/procedures/${procedure}$`));
  await expect.poll(isThere).toBe(true);
  const said = at.getByRole('region', { name: 'Query of a trainee' });
  await expect
    .poll(() => said.innerText())
    .toMatch(/Heron queried this, .*24 November.*:\s+The manual says otherwise\./);
  await sound(at, 'workshop, query at its step');
  const draft = new URL(at.url()).hash.split('/')[2];
  // Then that draft, also where the Workshop is still to be loaded.
  await at.goto(`${inject('baseUrl')}?again#/class`);
  await press(at, 'Open it in your draft');
  await at.waitForURL(new RegExp(`#/workshop/${draft}/procedures/${procedure}$`));
  await expect.poll(isThere).toBe(true);
  await said.getByRole('button', { name: 'Put this away' }).tap();
  await expect.poll(() => said.count()).toBe(0);

  await at.goto(`${inject('baseUrl')}#/class`);
  await press(at, '1 query to answer');
  await expect.poll(() => at.evaluate(() => document.activeElement?.textContent)).toBe('Queries');
  await at.getByRole('button', { name: /^Answered/ }).tap();
  await at.getByText('All are answered.').waitFor();
  expect(await at.getByText(/to answer$/).count()).toBe(0);
  // The same report once more does not bring it back.
  await at
    .getByLabel('Open reports')
    .setInputFiles({ name: 'heron.report.txt', mimeType: 'text/plain', buffer: Buffer.from(file) });
  await at.getByText(/1 here already/).waitFor();
  await at.getByText('All are answered.').waitFor();
  await at.getByText('Answered (1)').tap();
  await sound(at, 'class, query answered');
  await at.getByRole('button', { name: /^Open it again/ }).tap();
  await at.getByRole('button', { name: '1 query to answer' }).waitFor();
  expect(await at.getByText('Answered (1)').count()).toBe(0);
  expect(device.errors).toEqual([]);
  await device.close();
});
