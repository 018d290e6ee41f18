import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { blankDeck } from '../../src/draft/blank.ts';
import { valueAt } from '../../src/draft/change.ts';
import { canonicalJson, type Json } from '../../src/lib/canonical-json.ts';
import { EVERY_FIELD } from '../fixtures/decks/every-field.ts';
import { press } from '../helpers/app.ts';
import { axe, touchTargets, visit } from '../helpers/browser.ts';
import { formsPage } from '../helpers/forms-page.ts';
import { shoot } from '../helpers/shots.ts';
import { openAsDraft } from '../helpers/workshop.ts';
import { type LineNode, lineHand } from './workshop-forms/driver.ts';
import type { FormName, Shown } from './workshop-forms/main.tsx';

let bench: Awaited<ReturnType<typeof formsPage>>;
let page: Page;

beforeAll(async () => {
  bench = await formsPage();
  page = bench.page;
});
afterAll(() => bench.close());

type Members = { readonly [key: string]: Json | undefined };

const deckNamed = (name: string): Members =>
  JSON.parse(readFileSync(new URL(`../../decks/${name}.deck.json`, import.meta.url), 'utf8')) as Members;

/** One form to be filled. */
interface Job {
  readonly form: FormName;
  readonly path: string;
  readonly value: Json | undefined;
  /** Put into the draft before. */
  readonly add?: readonly ['procedures' | 'limits' | 'scenarios', number];
  readonly node?: readonly [list: string, index: number, node: Json];
}

/** Does one after the other; what names something that comes later is done again at the end. */
const filled = (jobs: readonly Job[]) =>
  page.evaluate(async (text) => {
    const { forms } = window as unknown as { forms: Shown };
    const wanted = JSON.parse(text) as readonly Job[];
    for (const { add, node } of wanted) {
      if (add !== undefined) forms.add(...add);
      if (node !== undefined) forms.addNode(...node);
    }
    let operations = 0;
    let again: readonly Job[] = wanted;
    for (let round = 0; ; round++) {
      const left: string[] = [];
      const later: Job[] = [];
      for (const job of again) {
        await forms.show(job.form, job.path);
        const done = await forms.fill(job.path, job.value as never);
        operations += done.operations;
        if (done.left.length > 0) later.push(job);
        left.push(...done.left);
      }
      if (left.length === 0 || round === 1) return { left, operations };
      again = later;
    }
  }, JSON.stringify(jobs));
const value = (): Promise<Json> => page.evaluate(() => (window as unknown as { forms: Shown }).forms.value());

const list = (value: Json | undefined): readonly Members[] => (Array.isArray(value) ? value : []);

/** Steps and blocks, each with its form; the empty ones are put there without the page of the procedure. */
const nodeJobs = (nodes: Json | undefined, path: string): Job[] =>
  list(nodes).flatMap((node, i) => {
    const here = `${path}/${i}`;
    const { steps, lanes, ...own } = node;
    const at = (form: FormName, made: Json): Job => ({ form, path: here, value: own as Json, node: [path, i, made] });
    if (node.use !== undefined) return [at('use', { use: '' })];
    if (steps !== undefined) return [at('block', { steps: [] }), ...nodeJobs(steps, `${here}/steps`)];
    if (lanes === undefined) return [at('step', { id: `step-${here.replaceAll(/[^0-9]+/g, '-')}` })];
    const each = lanes as readonly Json[];
    return [
      at('block', { lanes: each.map(() => []) }),
      ...each.flatMap((lane, n) => nodeJobs(lane, `${here}/lanes/${n}`)),
    ];
  });

/** A step that does not belong is written as its words alone where there is no reason: it says the same. */
const plainly = (deck: Members): Members => ({
  ...deck,
  procedures: list(deck.procedures).map(({ strangers, ...one }) =>
    strangers === undefined
      ? one
      : {
          ...one,
          strangers: (strangers as readonly (string | Members)[]).map((stranger) =>
            typeof stranger === 'object' && stranger.note === undefined ? (stranger.text ?? '') : stranger,
          ),
        },
  ) as Json,
});

const PARTS = ['sources', 'variants', 'crew', 'day', 'conditions', 'areas', 'paced'] as const;

/** All but the procedures. */
const partJobs = (deck: Members): Job[] => [
  {
    form: 'head',
    path: '',
    value: Object.fromEntries(
      Object.entries(deck).filter(([key, one]) => typeof one !== 'object' && key !== 'format'),
    ) as Json,
  },
  ...PARTS.filter((part) => deck[part] !== undefined).map((part) => ({
    form: part,
    path: `/${part}`,
    value: deck[part],
  })),
  ...list(deck.limits).map(
    (one, i): Job => ({
      form: 'limit',
      path: `/limits/${i}`,
      value: one as Json,
      add: ['limits', i],
    }),
  ),
  ...list(deck.scenarios).map(
    (one, i): Job => ({
      form: 'scenario',
      path: `/scenarios/${i}`,
      value: one as Json,
      add: ['scenarios', i],
    }),
  ),
];

const jobsOf = (deck: Members): Job[] => [
  ...partJobs(deck),
  ...list(deck.procedures).flatMap(({ steps, strangers, ...one }, i): Job[] => [
    { form: 'procedure', path: `/procedures/${i}`, value: one as Json, add: ['procedures', i] },
    ...nodeJobs(steps, `/procedures/${i}/steps`),
    ...(strangers === undefined
      ? []
      : [{ form: 'strangers' as const, path: `/procedures/${i}/strangers`, value: strangers }]),
  ]),
];

const written = async (deck: Members): Promise<void> => {
  await page.evaluate(() => (window as unknown as { forms: Shown }).forms.begin());
  const { left, operations } = await filled(jobsOf(deck));
  expect(left).toEqual([]);
  expect(operations).toBeGreaterThan(250);
  expect(JSON.parse(canonicalJson(await value()))).toEqual(deck);
};

// Its steps and blocks are put there empty: a lane that stands alone is valid in a file, but no control makes one.
test('a deck with every member that a deck may have is written through the forms', () =>
  written(EVERY_FIELD as unknown as Members));

/** Fills what is shown, and expects that nothing of it is left. @returns how many times something was done */
const fillShown = async (path: string, value: unknown): Promise<number> => {
  const { left, operations } = await page.evaluate(
    ([at, text]) => (window as unknown as { forms: Shown }).forms.fill(at, JSON.parse(text)),
    [path, JSON.stringify(value)] as const,
  );
  expect(left).toEqual([]);
  return operations;
};

/** A procedure on its page: its head, its line by what the page offers, and what does not belong. */
const procedureMade = async (i: number, { steps, strangers, ...head }: Members): Promise<number> => {
  const path = `/procedures/${i}`;
  await page.evaluate((index) => (window as unknown as { forms: Shown }).forms.add('procedures', index), i);
  await show('line', path);
  let operations = await fillShown(path, head);
  const hand = lineHand(page, async (at, step) => {
    operations += await fillShown(at, step);
  });
  await hand.fill(`${path}/steps`, steps as unknown as readonly LineNode[]);
  if (strangers === undefined) return operations;
  await hand.click(page.locator('summary', { hasText: 'Steps that do not belong' }));
  return operations + (await fillShown(`${path}/strangers`, strangers));
};

// Only the procedure and the limit themselves are begun by the harness: their buttons stand on the page of the deck. A
// new deck has an empty list of scenarios; else it is the file's, each word of it.
test('the public-rules deck rebuilt through the forms equals its file', async () => {
  const deck: Members = { scenarios: [], ...plainly(deckNamed('public-rules')) };
  await begin();
  const parts = await filled(partJobs(deck));
  expect(parts.left).toEqual([]);
  let { operations } = parts;
  for (const [i, procedure] of list(deck.procedures).entries()) operations += await procedureMade(i, procedure);
  expect(operations).toBeGreaterThan(250);
  expect(canonicalJson(await value())).toBe(canonicalJson(deck as Json));
});

const begin = (deck?: unknown) =>
  page.evaluate(
    (text) => {
      const { forms } = window as unknown as { forms: Shown };
      if (text === null) forms.begin();
      else forms.begin(JSON.parse(text));
    },
    deck === undefined ? null : JSON.stringify(deck),
  );
const show = (form: FormName, path: string) =>
  page.evaluate(([name, at]) => (window as unknown as { forms: Shown }).forms.show(name, at), [form, path] as const);
const at = async (path: string): Promise<Json | undefined> => valueAt(await value(), path);
const box = (path: string) => page.locator(`:is(input, textarea, select)[data-path="${path}"]`);
const focused = () => page.evaluate(() => (document.activeElement as HTMLElement | null)?.dataset.path ?? '');

test('what is no number stays as it was typed, and says so; a decimal comma is read; the cursor stays', async () => {
  await begin({ limits: [{ id: 'a', ask: 'A', unit: 'kt', sense: 'at least', value: 12 }] });
  await show('limit', '/limits/0');
  const number = box('/limits/0/value');
  await number.fill('');
  expect(await at('/limits/0/value')).toBeUndefined();
  await number.pressSequentially('12,5');
  expect(await at('/limits/0/value')).toBe(12.5);
  expect(await number.inputValue()).toBe('12,5');
  await number.press('ArrowLeft');
  await number.press('ArrowLeft');
  await number.pressSequentially('3x');
  expect(await number.inputValue()).toBe('123x,5');
  expect(await at('/limits/0/value')).toBe('123x,5');
  expect(await page.getByText('is no number').isVisible()).toBe(true);
  await number.fill('10,000');
  expect(await at('/limits/0/value')).toBe('10,000');
  expect(await page.getByText('could be thousands').isVisible()).toBe(true);
  const ask = box('/limits/0/ask');
  await ask.focus();
  await ask.press('Home');
  await ask.pressSequentially('Lowest ');
  expect(await at('/limits/0/ask')).toBe('Lowest A');
  await ask.fill('');
  expect(await at('/limits/0/ask')).toBe('');
});

test('a new thing is called after its first words, later words leave its name; another name is followed', async () => {
  await begin({
    limits: [{ id: 'limit', ask: '', unit: 'kt', sense: 'at least' }],
    procedures: [{ id: 'p', steps: [{ id: 's', limit: 'limit', do: 'It' }] }],
  });
  await show('limit', '/limits/0');
  await box('/limits/0/ask').pressSequentially('Lowest height for the turn');
  await box('/limits/0/reference').focus();
  expect(await at('/limits/0/id')).toBe('lowest-height-turn');
  expect(await at('/procedures/0/steps/0/limit')).toBe('lowest-height-turn');
  await box('/limits/0/ask').fill('Other words');
  await box('/limits/0/reference').focus();
  expect(await at('/limits/0/id')).toBe('lowest-height-turn');
  await page.getByText('Name in the file').click();
  const id = box('/limits/0/id');
  await id.fill('Not So');
  await id.press('Tab');
  expect(await at('/limits/0/id')).toBe('lowest-height-turn');
  expect(await page.getByText('The old name stays').isVisible()).toBe(true);
  await id.fill('s');
  await id.press('Tab');
  expect(await page.getByText('is taken').isVisible()).toBe(true);
  await id.fill('turn');
  await id.press('Tab');
  expect(await at('/limits/0/id')).toBe('turn');
  expect(await at('/procedures/0/steps/0/limit')).toBe('turn');
});

test('a limit of another kind keeps what both know and can be taken back; the first case takes the value', async () => {
  const limit = {
    id: 'a',
    ask: 'A',
    unit: 'ft',
    sense: 'at least',
    value: 12,
    source: 'som#1',
    slips: [{ value: 3, note: 'No.' }],
  };
  await begin({ limits: [limit] });
  await show('limit', '/limits/0');
  await page.getByLabel('One of some answers').check();
  expect(await at('/limits/0')).toEqual({
    id: 'a',
    ask: 'A',
    source: 'som#1',
    options: {},
    slips: [{ is: '', note: 'No.' }],
  });
  await page.evaluate(() => (window as unknown as { forms: Shown }).forms.undo());
  expect(await at('/limits/0')).toEqual(limit);
  await page.getByRole('button', { name: 'Add a case' }).click();
  const { value: _moved, ...rest } = limit;
  expect(await at('/limits/0')).toEqual({ ...rest, cases: [{ id: 'standard', value: 12 }] });
  expect(await box('/limits/0/value').count()).toBe(0);
  await expect.poll(focused).toBe('/limits/0/cases/0/value');
  await page.getByRole('button', { name: 'Add a case' }).click();
  await expect.poll(focused).toBe('/limits/0/cases/1/value');
  await page.keyboard.type('7');
  await page.getByRole('button', { name: 'Case 2: up' }).click();
  expect(await at('/limits/0/cases')).toEqual([
    { id: 'case-1', value: 7 },
    { id: 'standard', value: 12 },
  ]);
  await page.locator('[data-remove="/limits/0/cases/1"]').click();
  await page.locator('[data-remove="/limits/0/cases/0"]').click();
  expect(await at('/limits/0')).toEqual(rest);
});

test('what is not known in a thing is shown and can be removed', async () => {
  await begin({ limits: [{ id: 'a', ask: 'A', unit: 'ft', sense: 'at least', colour: ['red'] }] });
  await show('limit', '/limits/0');
  expect(await page.getByText('is not known here').innerText()).toContain('["red"]');
  await page.locator('[data-remove="/limits/0/colour"]').click();
  expect(await at('/limits/0')).toEqual({ id: 'a', ask: 'A', unit: 'ft', sense: 'at least' });
});

test('the name of a value is put into a text where the cursor is', async () => {
  await begin({ scenarios: [{ id: 's', situation: 'At  kt.', draw: { speed: { from: 1, to: 2 } }, asks: [] }] });
  await show('scenario', '/scenarios/0');
  await box('/scenarios/0/situation').evaluate((one: HTMLTextAreaElement) => one.setSelectionRange(3, 3));
  await page.getByText('Put in a value').click();
  await page.getByRole('button', { name: '{speed}' }).click();
  expect(await at('/scenarios/0/situation')).toBe('At {speed} kt.');
});

const EXAMINED: readonly [FormName, string][] = [
  ['head', ''],
  ['variants', '/variants'],
  ['conditions', '/conditions'],
  ['areas', '/areas'],
  ['paced', '/paced'],
  ['step', '/procedures/0/steps/0'],
  ['strangers', '/procedures/0/strangers'],
  ['limit', '/limits/0'],
  ['limit', '/limits/6'],
  ['scenario', '/scenarios/0'],
];

test.each(EXAMINED)(
  '%s %s: named for all, large enough, no wider than the phone, in both appearances',
  async (form, path) => {
    await begin(EVERY_FIELD);
    await show(form, path);
    await page.evaluate(() => {
      for (const one of document.querySelectorAll('details')) one.open = true;
    });
    await shoot(page, `form-${form}${path}-light`);
    expect(await axe(page)).toEqual([]);
    expect(await touchTargets(page)).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth)).toBe(
      0,
    );
    await page.emulateMedia({ colorScheme: 'dark' });
    await shoot(page, `form-${form}${path}-dark`);
    expect(await axe(page, 'color-contrast')).toEqual([]);
    await page.emulateMedia({ colorScheme: 'light' });
  },
);

test('what is written otherwise than a box can write it is shown as it is, and goes only when it is removed', async () => {
  const limit = { id: 'a', ask: ['A'], unit: 'ft', sense: 'at least', cases: 'none', when: 3, slips: [7, null] };
  await begin({ limits: [limit, 'no limit'] });
  await show('limit', '/limits/0');
  for (const text of ['["A"]', '"none"', '3', '7', 'null'])
    expect(await page.locator('code', { hasText: text }).first().textContent()).toBe(text);
  expect(await at('/limits/0')).toEqual(limit);
  await page.locator('.note [data-remove="/limits/0/cases"]').click();
  expect(await at('/limits/0/cases')).toBeUndefined();
  await page.getByRole('button', { name: 'Add a case' }).click();
  expect(await at('/limits/0/cases')).toEqual([{ id: 'case-1' }]);
  await show('limit', '/limits/1');
  expect(await page.getByText('not written as it must be').innerText()).toContain('"no limit"');
  await show('limit', '/limits/2');
  expect(await page.getByText('not in the draft any more').isVisible()).toBe(true);
});

test('a drawn value stays unfolded while it is named and written; others are told apart by their names', async () => {
  await begin({
    scenarios: [
      {
        id: 's',
        situation: 'S',
        draw: { speed: { from: 1, to: 2 }, height: { from: 1, to: 2 } },
        let: { a: 'speed' },
        asks: [],
      },
    ],
  });
  await show('scenario', '/scenarios/0');
  expect(await box('/scenarios/0/draw/speed/from').isVisible()).toBe(false);
  await page.getByRole('button', { name: 'Add a drawn value' }).click();
  const name = page.locator('[data-key="/scenarios/0/draw/value"]');
  // The name is written first.
  await expect.poll(() => name.evaluate((one) => one === document.activeElement)).toBe(true);
  await box('/scenarios/0/draw/value/from').fill('3');
  await name.fill('speed');
  await name.press('Tab');
  expect(await page.getByText('is taken').isVisible()).toBe(true);
  await name.fill('gust');
  await name.press('Tab');
  expect(await box('/scenarios/0/draw/gust/from').isVisible()).toBe(true);
  await box('/scenarios/0/draw/gust/to').fill('9');
  await page.getByText('speed', { exact: true }).click();
  const speed = page.locator('[data-key="/scenarios/0/draw/speed"]');
  await speed.fill('wind');
  await speed.press('Tab');
  expect(await at('/scenarios/0/draw')).toEqual({
    wind: { from: 1, to: 2 },
    height: { from: 1, to: 2 },
    gust: { from: 3, to: 9 },
  });
  expect(await at('/scenarios/0/let')).toEqual({ a: 'wind' });
});

test('after a drawn value was named the next tap counts and the next box has the cursor', async () => {
  await begin({ scenarios: [{ id: 's', situation: 'S', draw: {}, asks: [] }] });
  await show('scenario', '/scenarios/0');
  await page.getByRole('button', { name: 'Add a drawn value' }).click();
  const name = page.locator('[data-key="/scenarios/0/draw/value"]');
  await name.fill('runway');
  await name.press('Tab');
  expect(await page.evaluate(() => document.activeElement?.getAttribute('type'))).toBe('radio');
  const renamed = page.locator('[data-key="/scenarios/0/draw/runway"]');
  await renamed.fill('wind');
  await page.getByLabel('One of some numbers').click();
  // It is named behind the tap.
  await expect.poll(() => at('/scenarios/0/draw')).toEqual({ wind: { oneOf: [''] } });
  expect(await box('/scenarios/0/draw/wind/oneOf/0').isVisible()).toBe(true);
  await page.locator('[data-key="/scenarios/0/draw/wind"]').fill('gust');
  await page.getByRole('button', { name: 'Add a drawn value' }).click();
  await expect.poll(async () => Object.keys((await at('/scenarios/0/draw')) as Members)).toEqual(['gust', 'value']);
});

test('a box that says that nothing is wrong with it has no red border', async () => {
  await begin({ limits: [{ id: 'a', ask: 'A', unit: 'kt', sense: 'at least', value: 1 }] });
  await show('limit', '/limits/0');
  const border = (invalid: string | null) =>
    box('/limits/0/value').evaluate((one, value) => {
      if (value === null) one.removeAttribute('aria-invalid');
      else one.setAttribute('aria-invalid', value);
      return getComputedStyle(one).borderColor;
    }, invalid);
  const plain = await border(null);
  expect(await border('false')).toBe(plain);
  expect(await border('true')).not.toBe(plain);
});

test('events: the next is added by a tap right after one was typed; they are moved and removed, also on a phone', async () => {
  await begin({ scenarios: [{ id: 's', situation: 'S', draw: { what: { oneOf: { event: '' } } }, asks: [] }] });
  await show('head', '');
  await show('scenario', '/scenarios/0');
  const add = page.getByRole('button', { name: 'Add an event' });
  const place = '/scenarios/0/draw/what/oneOf';
  await box(`${place}/event`).pressSequentially('Engine failure: torque zero, propeller not feathered');
  await add.scrollIntoViewIfNeeded();
  const before = await add.boundingBox();
  await page.mouse.move((before?.x ?? 0) + 20, (before?.y ?? 0) + 20);
  await page.mouse.down();
  // What follows from leaving the box waits for the finger.
  expect(Object.keys((await at(place)) as Members)).toEqual(['event']);
  // A button gives way by a pixel.
  expect(Math.abs(((await add.boundingBox())?.y ?? 0) - (before?.y ?? 0))).toBeLessThan(2);
  await page.mouse.up();
  const first = 'engine-failure-torque-zero';
  await expect.poll(async () => Object.keys((await at(place)) as Members)).toEqual([first, 'event-2']);
  await expect.poll(focused).toBe(`${place}/event-2`);
  await page.keyboard.type('Bang');
  await page.getByRole('button', { name: 'Event 2: up' }).click();
  // It is named behind the tap.
  await expect
    .poll(() => at(place))
    .toEqual({
      bang: 'Bang',
      [first]: 'Engine failure: torque zero, propeller not feathered',
    });
  await page.locator(`[data-remove="${place}/${first}"]`).click();
  expect(await at(place)).toEqual({ bang: 'Bang' });
});

test('what stands alone is unfolded when its page comes up; of several all are folded', async () => {
  const source = (id: string) => ({ id, title: id, basis: 'operator' });
  await begin({ sources: [source('a')] });
  await show('head', '');
  await show('sources', '/sources');
  expect(await box('/sources/0/title').isVisible()).toBe(true);
  await begin({ sources: [source('a'), source('b')] });
  await show('head', '');
  await show('sources', '/sources');
  expect(await box('/sources/0/title').isVisible()).toBe(false);
});

test('in the app: an empty box is told once it was left, with its name above; a row says itself that it does not rise', async () => {
  const app = await visit();
  const { page: there } = app;
  try {
    await there.goto(inject('baseUrl'));
    await press(there, 'I have read this');
    await there.getByRole('button', { name: 'I have read this' }).waitFor({ state: 'detached' });
    const rows = [
      [0, 1],
      [30, 2],
      [20, 3],
    ];
    const table = { input: { label: 'Width', unit: 'ft' }, method: 'step', rows };
    await openAsDraft(there, {
      ...(blankDeck('2026-09-01') as object),
      id: 'calder/forms',
      title: 'Forms',
      sources: [{ id: 'som', title: 'Manual', basis: 'invented' }],
      limits: [{ id: 'wide', ask: 'Crosswind by width', unit: 'kt', source: 'som', asked: true, table }],
    });
    const url = there.url();
    await there.goto(`${url}/limits/0`);
    const row = there.locator('[data-group="/limits/0/table/rows/2"]');
    await row.getByText('The rows must rise: 20 stands behind 30.').waitFor();
    await there.locator('main .folded > summary').first().click();
    await there.getByRole('link', { name: 'Must be mended: Row 3: The rows must rise' }).waitFor();

    await there.goto(url);
    await there.getByRole('button', { name: 'Add a limit' }).click();
    const ask = there.locator('[data-path="/limits/1/ask"]');
    await expect.poll(() => ask.evaluate((one) => one === document.activeElement)).toBe(true);
    // The contents count what the page does not tell yet.
    const counted = there.locator('.outline li', { has: there.locator('a[href$="limits/1"]') });
    await counted.getByText('1 to mend').waitFor({ state: 'attached' });
    expect(await there.getByText('must not stay empty').count()).toBe(0);
    await ask.press('Tab');
    await there.locator('main .folded > summary').first().click();
    await there.getByRole('link', { name: 'Must be mended: Question: must not stay empty.' }).waitFor();
    expect(await there.getByText('This must not stay empty.').count()).toBe(1);
    await there.goto(url);
    await there.getByText('Question: must not stay empty.').waitFor();
  } finally {
    await app.close();
  }
});

test('a limit that becomes a table is asked row by row until the author says otherwise', async () => {
  await begin({ limits: [{ id: 'a', ask: 'A', unit: 'kt', sense: 'at least' }] });
  await show('head', '');
  await show('limit', '/limits/0');
  await page.getByLabel('A table').check();
  expect(await at('/limits/0/asked')).toBe(true);
  await page.getByLabel('Asked row by row').uncheck();
  expect(await at('/limits/0/asked')).toBeUndefined();
});
