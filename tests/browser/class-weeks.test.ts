import { readFile } from 'node:fs/promises';
import { text as readAll } from 'node:stream/consumers';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { resolve } from '../../src/deck/resolve.ts';
import { askedItems } from '../../src/drill/world.ts';
import { contentId } from '../../src/exchange/content-id.ts';
import { openReport } from '../../src/exchange/report.ts';
import { readRows } from '../../src/exchange/rows.ts';
import { dayOfIso } from '../../src/lib/date-words.ts';
import type { Deck } from '../../src/model/deck.ts';
import type { Item } from '../../src/model/item.ts';
import type { ReceivedReport } from '../../src/model/report.ts';
import { answer, firstMinutes, heading, type Line, press, shown, wholeDatabase, wholeLog } from '../helpers/app.ts';
import { type Visit, visit } from '../helpers/browser.ts';
import { answersCopy, recallBy, shortfall } from '../helpers/recalled.ts';

const DAY = 86_400_000;
/** Between midnight and four a study day is still that of yesterday. */
const START = (Math.floor(Date.now() / DAY) + 1) * DAY + DAY / 2;
const iso = (day: number): string => new Date(START + day * DAY).toISOString().slice(0, 10);
const CHECK = 21;
const OPENS = 8;
/** What opens then is checked before the rest. */
const OWN_CHECK = 16;

const DEMO = 'merrow-abnormal.deck.json';
const FLOWN = { engine: ['tk11'], operator: ['calder'] };
/** What B always misses, and what opens in the second week. */
const MISSED = 'engine-failure';
const LATER = 'go-around';
/** Invented, as all numbers of this deck. */
const CHANGED = { id: 'reverse-idle-speed', ask: 'Speed at which reversers go to idle', was: 65, is: 75 };

interface Revision {
  readonly text: string;
  readonly deck: Deck;
  readonly hash: string;
  /** All that is asked of who flies it so, in order. */
  readonly items: readonly Item[];
}
const revisionOf = async (text: string): Promise<Revision> => {
  const deck = JSON.parse(text) as Deck;
  const hash = await contentId(text);
  return { text, deck, hash, items: askedItems([resolve(deck, hash, FLOWN)]) };
};

interface Trainee extends Visit {
  readonly name: string;
  readonly letter: string;
}

let instructor: Visit;
let a: Trainee;
let b: Trainee;
let c: Trainee;
let first: Revision;
let second: Revision;
const assignments: string[] = [];
const reports = new Map<string, { readonly text: string; readonly received: ReceivedReport }>();

beforeAll(async () => {
  first = await revisionOf(await readFile(`decks/${DEMO}`, 'utf8'));
  const changed = JSON.parse(first.text) as {
    version: string;
    effective: string;
    limits: { id: string; value: number }[];
  };
  const limit = changed.limits.find(({ id }) => id === CHANGED.id);
  if (limit?.value !== CHANGED.was) throw new Error('The deck has another number by now.');
  limit.value = CHANGED.is;
  Object.assign(changed, { version: '9.0.0', effective: iso(7) });
  second = await revisionOf(JSON.stringify(changed));
  const device = () => visit({ serviceWorkers: 'block' });
  const [door, ...devices] = await Promise.all([device(), device(), device(), device()]);
  instructor = door;
  [a, b, c] = ['Falcon', 'Heron', 'Kite'].map((name, i) => ({ ...devices[i], name, letter: 'abc'[i] })) as [
    Trainee,
    Trainee,
    Trainee,
  ];
});
afterAll(async () => {
  const all = [instructor, a, b, c];
  const errors = all.flatMap((one) => one.errors);
  await Promise.all(all.map((one) => one.close()));
  expect(errors).toEqual([]);
});

const main = (page: Page): Promise<string> => page.locator('main').innerText();
/** The app is opened anew on that day. */
const wake = async (of: Visit, day: number, at = ''): Promise<void> => {
  await of.setClock(START + day * DAY);
  await of.page.goto(`${inject('baseUrl')}?day=${day}#/${at}`);
};
const give = (page: Page, name: string, text: string): Promise<void> =>
  page
    .locator('input[type=file]')
    .first()
    .setInputFiles({ name, mimeType: 'text/plain', buffer: Buffer.from(text) });
const saved = async (page: Page, button: string): Promise<string> => {
  const [download] = await Promise.all([page.waitForEvent('download'), press(page, button)]);
  return readAll(await download.createReadStream());
};

/** Answers of a week that are brought in as a copy: on some days about all of them. */
const bring = async (
  { page, letter }: Trainee,
  { deck, hash, items }: Revision,
  days: readonly number[],
  isRight: (item: Item) => boolean = () => true,
): Promise<void> => {
  await page.goto(`${inject('baseUrl')}#/settings`);
  await page.getByRole('heading', { level: 1, name: 'Settings' }).waitFor();
  const lines = { deck: `${deck.id}@${hash.slice(0, 16)}`, writer: `weeks${letter}${days[0]}00000`.slice(0, 12) };
  const times = days.map((day) => START + day * DAY - 3_600_000);
  await give(page, 'copy.txt', answersCopy({ ...lines, items, times, isRight }));
  await page.getByText(/^Taken in/).waitFor();
};

const answersOf = async (page: Page): Promise<Line[]> =>
  (await wholeLog(page)).map((line) => JSON.parse(line) as Line).filter(({ k }) => k === 'answer');

/** A drill by hand. @param most questions @param closed heading that the Brief has @returns things asked about, in order */
const drill = async (
  { page }: Trainee,
  most: number,
  isEnough: (things: readonly string[]) => boolean = () => false,
  closed?: string,
): Promise<string[]> => {
  const before = new Set((await answersOf(page)).map(({ id }) => id));
  const asked = async () => (await answersOf(page)).flatMap(({ id, about }) => (before.has(id) ? [] : about.thing));
  await page.goto(`${inject('baseUrl')}#/`);
  if (closed !== undefined) await page.getByRole('heading', { name: closed }).waitFor();
  await press(page, /^Start/);
  for (let i = 0; i < most; i++) {
    while ((await shown(page)) === 'read') await press(page, /ask me$/);
    if ((await shown(page)) === 'debrief') return asked();
    const isNumber = (await main(page)).includes(CHANGED.ask);
    if (isNumber && (await shown(page)) === 'number') {
      await page.locator('.number-field input').first().fill(String(CHANGED.is));
      await press(page, 'Sure');
      await page.getByRole('button', { name: 'Next', exact: true }).waitFor();
    } else await answer(page, i % 2 === 0 ? 'Sure' : "Don't know");
    if (i + 1 < most && !isEnough(await asked())) await press(page, 'Next');
    else break;
  }
  await press(page, 'Enough for today');
  await expect.poll(() => heading(page)).toBe('Debrief');
  return asked();
};

/** Of the second week: the deck as a file, then what amends the assignment. */
const takeRevision = async ({ page }: Trainee): Promise<void> => {
  await page.goto(`${inject('baseUrl')}#/decks`);
  await page.getByText('Open a deck file').waitFor();
  await give(page, 'second.deck.json', second.text);
  await press(page, 'Replace');
  await expect.poll(() => heading(page)).toBe('What was amended');
  await expect.poll(() => main(page)).toMatch(/Was 65\skt/);
  await press(page, 'I have read this');
  await page.getByText('to your check').waitFor();
  await page.goto(`${inject('baseUrl')}#/decks`);
  await page.getByText('Open a deck file').waitFor();
  await give(page, 'second.assignment.json', assignments[1] ?? '');
  await page.getByText('It amends the assignment that you are set up by.').waitFor();
  await page.getByText('Version 9.0.0: here already.').waitFor();
  await press(page, 'Set up');
  await page.getByText('to your check').waitFor();
};

/** By the screen, with the device's own key. @param as name of it in this test */
const report = async ({ page, name }: Trainee, as: string): Promise<ReceivedReport> => {
  await page.goto(`${inject('baseUrl')}#/report`);
  await page.getByLabel('What you call yourself in it').fill(name);
  await press(page, 'Make the report');
  await page.getByText(/^Report number \d+ is made$/).waitFor();
  const text = await saved(page, 'Save the file');
  const opened = await openReport(text);
  if (!opened.ok) throw new Error(opened.error.message);
  reports.set(as, { text, received: opened.value });
  return opened.value;
};
const file = (as: string, text = reports.get(as)?.text ?? '') => ({
  name: `${as}.report.txt`,
  mimeType: 'text/plain',
  buffer: Buffer.from(text),
});

type By = ReturnType<typeof recallBy>;
interface Told {
  readonly all: number;
  readonly critical: number;
  readonly unmet: number;
  readonly need: number;
  /** Column → mean recall. */
  readonly columns: ReadonlyMap<string, number>;
}
/**
 * What is left on the check day of what a trainee knows, folded from the log on the trainee's own device.
 * @param own day on which what opens later is checked
 */
const truthOf = async ({ page }: Trainee, at: Revision, revisions: readonly Revision[], own = CHECK): Promise<Told> => {
  const lines = await wholeLog(page);
  const [onCheck, onOwn] = [CHECK, own].map((day) => recallBy(lines, revisions, dayOfIso(iso(day)) ?? 0)) as [By, By];
  const found = at.items.map((item) => {
    const chance = (item.group === LATER ? onOwn : onCheck)(item.key);
    return { ...item, met: chance !== null, recall: chance ?? 0 };
  });
  const mean = (list: typeof found) => list.reduce((sum, { recall }) => sum + recall, 0) / list.length;
  const columnOf = ({ groupKind, group }: Item) =>
    groupKind === 'limit'
      ? 'Limits'
      : groupKind === 'scenario'
        ? 'Scenarios'
        : (at.deck.procedures?.find(({ id }) => id === group)?.title ?? '');
  const names = [...new Set(found.map(columnOf))];
  return {
    all: mean(found),
    critical: Math.min(...found.filter(({ critical }) => critical).map(({ recall }) => recall)),
    unmet: found.filter(({ met }) => !met).length,
    need: shortfall(found),
    columns: new Map(names.map((name) => [name, mean(found.filter((item) => columnOf(item) === name))])),
  };
};

test('week 1: an assignment sets three trainees up; what opens later is not asked', async () => {
  const handOut = async ({ page }: Visit) => {
    await wake(instructor, 0);
    await firstMinutes(page, { deck: /rejected take-off/, flies: [/TK-11/, /Calder/] });
    await page.goto(`${inject('baseUrl')}#/assign`);
    await press(page, 'A new assignment');
    await page.getByLabel('Title').fill('Group 3');
    await page.getByLabel(/^Merrow 240: rejected/).check();
    await page.getByText('It comes with the app: trainees need no file.').waitFor();
    for (const option of [/TK-11/, /Calder/]) await page.getByLabel(option).check();
    await page.getByLabel(/^Check date\s*Of all/).fill(iso(CHECK));
    await page.getByLabel('Say how many minutes a day').check();
    await press(page, 'A part with days of its own');
    await page.getByLabel('Name of this part').fill('Session 2');
    await page.getByLabel(/^Check date of this part/).fill(iso(OWN_CHECK));
    await page.getByLabel('Opens on').fill(iso(OPENS));
    await page.getByLabel('Go-around', { exact: true }).check();
    return saved(page, 'Save the file');
  };
  const begin = async (trainee: Trainee) => {
    await wake(trainee, 0);
    await press(trainee.page, 'I have read this');
    await trainee.page.getByText('Open a deck file').waitFor();
  };
  const [assignment] = await Promise.all([handOut(instructor), ...[a, b, c].map(begin)]);
  assignments.push(assignment);

  await Promise.all(
    [a, b, c].map(async ({ page }) => {
      await give(page, 'group-3-1.assignment.json', assignment);
      await press(page, 'Set up');
      await page.getByText('days to your check').waitFor();
      await expect.poll(() => main(page)).toContain(`${CHECK}`);
    }),
  );
  const open = { ...first, items: first.items.filter(({ group }) => group !== LATER) };
  const practise = async (trainee: Trainee, isRight?: (item: Item) => boolean) => {
    await wake(trainee, 6, 'settings');
    await bring(trainee, open, [2, 5], isRight);
  };
  // C practises once, and stops. Of A nothing else is left to be met for the first time: what is closed would come now.
  const [asked] = await Promise.all([
    practise(a).then(() => drill(a, 3, () => false, 'Not open yet')),
    practise(b, ({ group }) => group !== MISSED),
    bring(c, open, [0]),
  ]);
  expect(asked.length).toBeGreaterThan(0);
  const later = new Set(first.items.filter(({ group }) => group === LATER).map(({ thing }) => thing));
  const met = (await answersOf(a.page)).flatMap(({ marks }) => Object.keys(marks));
  expect(met.length).toBeGreaterThan(50);
  expect(met.filter((key) => later.has(key.split(/[#.]/)[1] ?? ''))).toEqual([]);
});

test('week 2: a revision is handed out, and taken by two; what opened is asked, the new answer first', async () => {
  const handOut = async ({ page }: Visit) => {
    await wake(instructor, 7, 'decks');
    await page.getByText('Open a deck file').waitFor();
    await give(page, 'second.deck.json', second.text);
    await press(page, 'Replace');
    await expect.poll(() => heading(page)).toBe('What was amended');
    await page.goto(`${inject('baseUrl')}#/assign`);
    await press(page, 'Group 3');
    await page.getByText(`Assigned is version ${first.deck.version}; on this device is version 9.0.0.`).waitFor();
    await press(page, 'Assign version 9.0.0');
    await page.getByText('it goes out as number 2').waitFor();
    assignments.push(await saved(page, 'Save the file'));
  };
  const handedOut = handOut(instructor);
  const opened = new Set(second.items.filter(({ group }) => group === LATER).map(({ thing }) => thing));
  const isOpened = (thing: string) => thing === LATER || opened.has(thing);
  const ofA = async () => {
    await wake(a, OPENS, 'decks');
    await handedOut;
    await takeRevision(a);
    const asked = await drill(a, 15, (things) => things.some(isOpened));
    expect(asked[0]).toBe(CHANGED.id);
    expect(asked.some(isOpened)).toBe(true);
    await wake(a, 13, 'settings');
    await bring(a, second, [10, 12]);
    return report(a, 'a1');
  };
  const ofB = async () => {
    await wake(b, 13, 'settings');
    await bring(b, first, [10, 12], ({ group }) => group !== MISSED);
    await drill(b, 1);
    await handedOut;
    await takeRevision(b);
    return report(b, 'b1');
  };
  const [one, two] = await Promise.all([ofA(), ofB(), handedOut]);

  // Both were asked the old number twice and more; the new one only A.
  const items = (of: ReceivedReport) => of.report.decks[0]?.items.filter(({ key }) => key.includes(`#${CHANGED.id}.`));
  const dated = new Set(second.items.filter(({ group }) => group === LATER).map(({ key }) => key));
  expect(dated.size).toBeGreaterThan(5);
  for (const { report: made } of [one, two]) {
    const [deck] = made.decks;
    expect(deck).toMatchObject({ version: '9.0.0', contentId: second.hash, notAsked: 0 });
    expect(made.assignment?.n).toBe(2);
    expect(made.checkDate).toBe(iso(CHECK));
    expect(deck?.items.map(({ key, check }) => [key, check])).toEqual(
      deck?.items.map(({ key }) => [key, dated.has(key) ? iso(OWN_CHECK) : undefined]),
    );
  }
  expect(items(one)).toMatchObject([{ verdicts: [0, 0, expect.any(Number), expect.any(Number)] }]);
  expect(items(one)?.[0]?.verdicts.reduce((sum, n) => sum + n, 0)).toBe(3);
  expect(items(two)).toMatchObject([{ now: null, day: null, verdicts: [0, 0, 0, 0] }]);
});

/** "64 %", or "89.7 %" where it is short of a target by less than half of one; "not yet asked" has no chance at all. */
const figures = (cell: string): number[] =>
  [...cell.matchAll(/(\d+(?:\.\d)?)\s%|not yet asked/g)].map(([, share]) => Number(share ?? 0));
/** Each item has three decimals in a report. */
const NEAR = 0.0011;
/** Rounded, halves up, from what is that near. */
const isShare = (said: number | undefined, share: number, of: string): void =>
  expect(Math.abs((said ?? -1) / 100 - share), of).toBeLessThan(0.005 + NEAR);

const row = (page: Page, name: string) => page.getByRole('row').filter({ has: page.getByRole('link', { name }) });

test('after week 2: two have reported, of two nothing came; a changed answer counts anew', async () => {
  const { page } = instructor;
  await wake(instructor, 13, 'class/kept');
  await page.getByLabel(/^Who is expected/).fill('Falcon\nHeron\nKite\nDove');
  await page.getByLabel(first.deck.title).check();
  await press(page, 'Keep these settings');
  await page.getByText('Kept on this device.').waitFor();
  await page.goto(`${inject('baseUrl')}#/class`);
  await page.getByLabel('Open reports').setInputFiles([file('a1'), file('b1')]);
  await page.getByText('2 files: 2 taken in, 0 here already, 0 refused.').waitFor();
  await expect.poll(() => main(page)).toMatch(/No report yet\s+Kite, Dove/);
  expect(await main(page)).not.toContain('Another revision');
  for (const of of [a, b]) {
    const truth = await truthOf(of, second, [first, second], OWN_CHECK);
    await press(page, of.name);
    const met = truth.unmet === 0 ? 'Each has come up at least once.' : `${truth.unmet} have not come up yet.`;
    await expect.poll(() => main(page)).toContain(`${second.items.length} items are asked of this trainee. ${met} `);
    // What is checked before the rest stands under that day: 3 of the 8 days are left.
    expect(await main(page)).toMatch(/Checked before\s+Go-around: \w+ \d+ \w+, 3 days to the check/);
    for (const [title, share] of truth.columns) {
      const [, said = ''] = await page.getByRole('row', { name: title }).first().getByRole('cell').allTextContents();
      isShare(figures(said)[0], share, `${of.name}, ${title}`);
      expect(/on \w{3} \d+ \w{3}$/.test(said)).toBe(title === 'Go-around');
    }
    await press(page, 'Class table');
  }
  // Of B what has another answer by now, and nothing else: the old one is no answer to it.
  const old = new Set(first.items.map(({ key }) => key));
  const anew = second.items.filter(({ key }) => !old.has(key));
  expect(anew.map(({ thing }) => thing)).toContain(CHANGED.id);
  expect((await truthOf(b, second, [first, second])).unmet).toBe(anew.length);
});

let shownAt: { readonly names: readonly string[]; readonly cells: ReadonlyMap<string, readonly string[]> };
let columns: readonly string[] = [];
const truths = new Map<string, Told>();

test('week 3: reports are opened; once counts, an edited one is refused, an old revision is named', async () => {
  const practise = async (trainee: Trainee, isRight?: (item: Item) => boolean) => {
    await wake(trainee, 20, 'settings');
    await bring(trainee, second, [17], isRight);
    return report(trainee, `${trainee.letter}2`);
  };
  const [old] = await Promise.all([
    wake(c, 20, 'report').then(() => report(c, 'c1')),
    practise(a),
    practise(b, ({ group }) => group !== MISSED),
  ]);
  expect(old.report.decks[0]).toMatchObject({ version: first.deck.version, contentId: first.hash });
  expect(old.report.assignment?.n).toBe(1);
  expect(reports.get('a2')?.received.report.n).toBe(2);

  const [head = '', payload = '', signature = ''] = (reports.get('a2')?.text ?? '').split('.');
  const said = Buffer.from(payload, 'base64url').toString();
  expect(said).toContain('"trainee":"Falcon"');
  const edited = [head, Buffer.from(said.replace('"Falcon"', '"Dove"')).toString('base64url'), signature].join('.');

  const { page } = instructor;
  await wake(instructor, 20, 'decks');
  // Opened where decks are, a report finds its place.
  await page.getByText('Open a deck file').waitFor();
  await give(page, 'c1.report.txt', reports.get('c1')?.text ?? '');
  await expect.poll(() => heading(page)).toBe('A progress report');
  await press(page, 'Open it in the class table');
  await page.getByText('1 file: 1 taken in, 0 here already, 0 refused.').waitFor();
  await page
    .getByLabel('Open reports')
    .setInputFiles([
      file('a1'),
      file('a2'),
      file('again', reports.get('a2')?.text),
      file('b2'),
      file('edited', edited),
    ]);
  await page.getByText('5 files: 2 taken in, 2 here already, 1 refused.').waitFor();
  await expect.poll(() => main(page)).toContain(`Kite: ${first.deck.title} ${first.deck.version}, older than 9.0.0`);
  const told = await main(page);
  expect(told).toContain('The report was changed after it was made');
  expect(told).toMatch(/No report yet\s+Dove/);
  expect(told).not.toMatch(/(Falcon|Heron): .*than/);

  await page.setViewportSize({ width: 1280, height: 800 });
  await page.getByRole('columnheader', { name: 'Go-around' }).waitFor();
  columns = (await page.getByRole('columnheader').allTextContents()).slice(4);
  const names = await page.locator('main table .deck-link').allTextContents();
  const cells = await Promise.all(
    names.map(async (name) => [name, await row(page, name).getByRole('cell').allTextContents()] as const),
  );
  shownAt = { names, cells: new Map(cells) };
  truths.set(a.name, await truthOf(a, second, [first, second]));
  truths.set(b.name, await truthOf(b, second, [first, second]));
  truths.set(c.name, await truthOf(c, first, [first]));
});

test('the table says who needs help first, as the logs have it', () => {
  const byNeed = [...truths].sort(([, x], [, y]) => y.need - x.need).map(([name]) => name);
  expect(shownAt.names).toEqual(byNeed);
  expect(byNeed.at(-1)).toBe('Falcon');
  for (const [name, truth] of truths) {
    const [all = '', , , ...rest] = shownAt.cells.get(name) ?? [];
    const [mean, lowest] = figures(all);
    isShare(mean, truth.all, name);
    isShare(lowest, truth.critical, `${name}, critical`);
    expect([...truth.columns.keys()].sort()).toEqual([...columns].sort());
    for (const [i, column] of columns.entries()) {
      const expected = truth.columns.get(column) ?? -1;
      isShare(figures(rest[i] ?? '')[0], expected, `${name}, ${column}`);
    }
  }
  // Unlike a plan, which expects every target to be met by whoever keeps to it.
  expect(truths.get('Kite')?.all).toBeLessThan(0.9);
  const ofB = (shownAt.cells.get('Heron') ?? []).slice(3).map((cell) => figures(cell)[0] ?? 1);
  const weakest = columns[ofB.indexOf(Math.min(...ofB))];
  expect(weakest).toBe(first.deck.procedures?.find(({ id }) => id === MISSED)?.title);
  expect(ofB.filter((share) => share === Math.min(...ofB))).toHaveLength(1);
});

test('what leaves as CSV has the figures of the table', async () => {
  const { page } = instructor;
  const { rows } = readRows(await saved(page, 'Save the table as CSV'), 'table');
  const [head = [], ...lines] = rows.filter(([name]) => name !== '');
  // Whoever never reported has a row of their own.
  expect(lines.map(([name]) => name)).toEqual([...shownAt.names, 'Dove']);
  expect(lines.at(-1)).toContain('no report yet');
  for (const line of lines.slice(0, -1)) {
    const of = (title: string) => Number(line[head.indexOf(title)]);
    const [name = ''] = line;
    const truth = truths.get(name);
    const cells = shownAt.cells.get(name) ?? [];
    expect(of('Never asked')).toBe(truth?.unmet);
    expect(Math.abs(of('Recall, all') - (truth?.all ?? 2))).toBeLessThan(NEAR);
    for (const [title, cell] of [
      ['Recall, all', cells[0]] as const,
      ...columns.map((one, i) => [`${one}, recall`, cells[i + 3]] as const),
    ]) {
      isShare(figures(cell ?? '')[0], of(title), `${name}, ${title}`);
    }
    expect(line[head.indexOf('Another revision')]).toBe(
      name === 'Kite' ? `${first.deck.title} ${first.deck.version} (older)` : '',
    );
  }
});

test('a trainee has a history; who is deleted is nowhere in the database', async () => {
  const { page } = instructor;
  await press(page, 'Falcon');
  await page.getByRole('img', { name: /^Recall of all items over 2 reports/ }).waitFor();
  await page.getByLabel('Your notes on this trainee').fill('Falcon flies on Mondays');
  await press(page, 'Keep the notes');
  await page.getByText('Kept on this device.').waitFor();
  const key = reports.get('a2')?.received.key ?? '';
  expect(reports.get('a1')?.received.key).toBe(key);
  const hashes = ['a1', 'a2'].map((as) => reports.get(as)?.received.hash ?? '');
  const whole = () => wholeDatabase(page, 'recency-class');
  for (const one of ['Falcon', 'Heron', key, ...hashes]) expect(await whole()).toContain(one);
  await press(page, 'Delete this trainee');
  expect(await main(page)).toContain('Delete Falcon: 2 reports and your notes');
  expect(await main(page)).toContain('Falcon is taken off “Who is expected” too');
  await press(page, 'Delete for good');
  await expect.poll(() => page.locator('main .deck-link').allTextContents()).toEqual(shownAt.names.slice(0, -1));
  const left = await whole();
  expect(left).toContain('Heron');
  for (const one of ['Falcon', key, ...hashes]) expect(left).not.toContain(one);
  expect(await main(page)).not.toContain('Falcon');
});
