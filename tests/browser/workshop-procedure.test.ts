import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, test } from 'vitest';
import { valueAt } from '../../src/draft/change.ts';
import { press } from '../helpers/app.ts';
import { axe, touchTargets, type Visit, visit } from '../helpers/browser.ts';
import { dragStep, openAsDraft, storedDraft } from '../helpers/workshop.ts';

let browser: Visit;
let page: Page;
beforeAll(async () => {
  browser = await visit();
  page = browser.page;
  await page.goto(inject('baseUrl'));
  await press(page, 'I have read this');
});
afterAll(() => browser.close());

type Node = { readonly [key: string]: unknown };
const step = (id: string, by: string, more: object = {}): Node => ({ id, by, do: `Do ${id}`, ...more });

const deck = (steps: readonly Node[], more: object = {}) => ({
  format: 1,
  id: 'test/procedure',
  version: '1.0.0',
  title: 'A deck for trying',
  language: 'en',
  nature: 'fictional',
  sources: [{ id: 's', title: 'Manual', basis: 'invented' }],
  conditions: [{ id: 'fire', label: 'Fire', yes: 'Fire warning', no: 'No fire warning' }],
  variants: [{ id: 'engine', label: 'Engine', options: { a: 'Engine A', b: 'Engine B' } }],
  procedures: [{ id: 'p', title: 'Trying', done: 'memory', source: 's', steps }],
  ...more,
});

/** Opens a deck as a draft, at its first procedure. */
const begin = async (what: object): Promise<void> => {
  await page.goto(`${await openAsDraft(page, what)}/procedures/0`);
  await page.locator('.line-page').waitFor();
};

/** The steps of the draft, as they are stored. */
const stored = async (): Promise<Node[]> =>
  valueAt(await storedDraft(page), '/procedures/0/steps') as unknown as Node[];

/** "a [b c | d] e": lanes in brackets, blocks in braces. */
const written = (nodes: readonly Node[]): string =>
  nodes
    .map((node) => {
      if (Array.isArray(node.lanes)) return `[${node.lanes.map((lane) => written(lane)).join(' | ')}]`;
      if (Array.isArray(node.steps)) {
        const says = node.together === true ? '=' : typeof node.if === 'string' ? `${node.if}? ` : '';
        return `{${says}${written(node.steps)}}`;
      }
      return String(node.id ?? node.use);
    })
    .join(' ');
const line = async (): Promise<string> => written(await stored());
const at = (path: string): Locator => page.locator(`[data-step="/procedures/0/steps/${path}"]`);
const button = (name: string | RegExp): Locator =>
  page.getByRole('button', { name, exact: typeof name === 'string' }).and(page.locator(':visible'));
const said = (): Promise<string> => page.locator('p.hidden-visually[aria-live=polite]').innerText();
const focused = (): Promise<string | undefined> =>
  page.evaluate(() => {
    const { step: path, tool } = (document.activeElement as HTMLElement).dataset;
    return path ?? tool;
  });

const four = () => deck([step('a', 'PF'), step('b', 'PM'), step('c', 'PF'), step('d', 'captain')]);

describe('by touch', () => {
  test('a procedure is written step after step, and opened to its form', async () => {
    await begin(deck([]));
    const quick = page.getByLabel('Step after step');
    for (const words of ['PF: Gear lever UP', 'PM: "Positive climb"', 'At 400 ft: Flaps up']) {
      await quick.fill(words);
      await quick.press('Enter');
    }
    await expect.poll(stored).toMatchObject([
      { id: 'gear-lever-up', by: 'PF', do: 'Gear lever UP' },
      { by: 'PM', say: 'Positive climb' },
      { do: 'Flaps up', cue: { text: 'At 400 ft' } },
    ]);
    await at('1').tap();
    await page.locator('[data-path="/procedures/0/steps/1/say"]').fill('Climbing');
    await expect.poll(async () => (await stored())[1]?.say).toBe('Climbing');
    await page.locator('[data-add="/procedures/0/steps"]').tap();
    await expect.poll(stored).toHaveLength(4);
    // The cursor is in the form of the new step.
    await expect
      .poll(() => page.evaluate(() => (document.activeElement as HTMLElement).dataset.path))
      .toBe('/procedures/0/steps/3/do');
    await page.keyboard.type('Lights off');
    // Leaving the words makes an id of them; the button is pressed all the same.
    await page.locator('[data-add="/procedures/0/steps"]').tap();
    await expect.poll(stored).toHaveLength(5);
    expect((await stored())[3]).toEqual({ id: 'lights-off', do: 'Lights off' });
  });

  test('buttons move a step, put neighbours side by side, open lanes up, and every change is taken back', async () => {
    await begin(four());
    await at('0').tap();
    await button('▼ Later').tap();
    await expect.poll(line).toBe('b a c d');
    expect(await said()).toBe('Do a. Step 2 of 4');
    await at('0').tap();
    await page.getByText('With its neighbours …').tap();
    await button('One more').tap();
    await button('One more').tap();
    await button('Side by side, each pilot’s own').tap();
    await expect.poll(line).toBe('[a c | b] d');
    // The lanes are open: one more, then all of it in one list.
    await page.locator('[data-add="/procedures/0/steps/0/lanes"]').tap();
    await expect.poll(line).toBe('[a c | b | step] d');
    await at('0/lanes/0/1').tap();
    await button('From here a lane of its own').tap();
    await expect.poll(line).toBe('[a | c | b | step] d');
    await at('0').tap();
    await button('Open the block up').tap();
    await expect.poll(line).toBe('a c b step d');
    for (const before of ['[a | c | b | step] d', '[a c | b | step] d', '[a c | b] d', 'b a c d', 'a b c d']) {
      await button(/^Undo/).tap();
      await expect.poll(line).toBe(before);
    }
  });

  test('a branch, a block together, a step out of a block and into it, and a removal', async () => {
    await begin(four());
    await at('1').tap();
    await page.locator('[data-tool="only-if"]').selectOption('When: Fire warning');
    await button('A branch: otherwise …').tap();
    await expect.poll(line).toBe('a {fire? b} {!fire? step} c d');
    await at('3').tap();
    await button('Into the block above').tap();
    await expect.poll(line).toBe('a {fire? b} {!fire? step c} d');
    await button('Out, before the block').tap();
    await expect.poll(line).toBe('a {fire? b} c {!fire? step} d');
    await at('3').tap();
    await button('Remove with its steps').tap();
    await expect.poll(line).toBe('a {fire? b} c d');
    await at('2').tap();
    await page.getByText('With its neighbours …').tap();
    await button('One more').tap();
    await button('Together, at once').tap();
    await expect.poll(line).toBe('a {fire? b} {=c d}');
  });

  test('a block of another procedure is taken, shown and not copied', async () => {
    const one = four();
    await begin({
      ...one,
      procedures: [
        ...one.procedures,
        {
          id: 'q',
          title: 'The drill',
          done: 'memory',
          source: 's',
          steps: [{ id: 'drill', steps: [step('x', 'PM')] }],
        },
      ],
    });
    await button('Take it at the end').tap();
    await expect.poll(line).toBe('a b c d drill');
    expect(await page.locator('.used').innerText()).toContain('PM Do x');
  });
});

describe('by keyboard alone', () => {
  test('a step goes earlier and later, the focus with it, into and out of lanes', async () => {
    await begin(
      deck([step('a', 'PF'), { lanes: [[step('b', 'PM'), step('m', 'PM')], [step('c', 'PF')]] }, step('d', 'PM')]),
    );
    await page.locator('h1').focus();
    for (let i = 0; i < 40 && (await focused()) !== '/procedures/0/steps/0'; i++) await page.keyboard.press('Tab');
    await page.keyboard.press('Alt+ArrowDown');
    await expect.poll(line).toBe('[b m | c] a d');
    expect(await focused()).toBe('/procedures/0/steps/1');
    await page.keyboard.press('Alt+ArrowDown');
    await expect.poll(line).toBe('[b m | c] d a');
    await page.keyboard.press('Alt+ArrowDown');
    expect(await said()).toBe('It stays where it is. Step 5 of 5');
    await page.keyboard.press('Control+z');
    await expect.poll(line).toBe('[b m | c] a d');
    // The tools are reached from the step.
    await at('1').focus();
    await page.keyboard.press('Enter');
    for (let i = 0; i < 10 && (await focused()) !== 'in-up'; i++) await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    await expect.poll(line).toBe('[b m | c a] d');
    expect(await said()).toBe('Do a. Step 4 of 5, lane PF');
    for (let i = 0; i < 10 && (await focused()) !== 'lane-up'; i++) await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    await expect.poll(line).toBe('[b a m | c] d');
    expect(await said()).toBe('Do a. Step 2 of 5, lane 1');
  });
});

describe('by mouse', () => {
  const drag = (from: string, to: Locator, part: 'upper' | 'lower'): Promise<void> =>
    dragStep(page, `/procedures/0/steps/${from}`, to, part);

  test('a step is dragged by its number: in its list, into a lane, to the end', async () => {
    await page.setViewportSize({ width: 1280, height: 900 });
    await begin(
      deck([step('a', 'PF'), step('b', 'PM'), { lanes: [[step('c', 'PF')], [step('d', 'PM')]] }, step('e', 'PF')]),
    );
    await page.locator('summary', { hasText: /^\d hints?$/ }).waitFor();
    await drag('0', at('1'), 'lower');
    await expect.poll(line).toBe('b a [c | d] e');
    await drag('1', at('2/lanes/1/0'), 'upper');
    await expect.poll(line).toBe('b [c | a d] e');
    await drag('0', page.locator('[data-end="/procedures/0/steps"]'), 'upper');
    await expect.poll(line).toBe('[c | a d] e b');
    await drag('0/lanes/0/0', at('1'), 'upper');
    await expect.poll(line).toBe('a d c e b');
    for (let i = 0; i < 4; i++) await button(/^Undo/).click();
    await expect.poll(line).toBe('a b [c | d] e');
    await at('1').click();
    // The form stands beside the line.
    const [form, words] = [await page.locator('.beside').boundingBox(), await at('1').boundingBox()];
    expect(form?.x).toBeGreaterThan((words?.x ?? 0) + (words?.width ?? 0));
    await page.setViewportSize({ width: 360, height: 740 });
  });
});

test('what the order must be is asked one by one, answered three ways, passed over and taken back', async () => {
  await begin(deck(['a', 'b', 'c', 'd', 'e'].map((id) => step(id, 'PF'))));
  await page.getByText('Must the order hold?').tap();
  const left = () => page.locator('[data-questions]').getAttribute('data-questions');
  await expect.poll(left).toBe('4');
  await button('Yes, in this order').tap();
  await expect.poll(left).toBe('3');
  expect((await stored())[1]).toMatchObject({ id: 'b', needs: ['a'] });
  await button('Pass over').tap();
  await expect.poll(left).toBe('2');
  await button('Either order').tap();
  await expect.poll(line).toBe('a b [c | d] e');
  await expect.poll(() => page.locator('.asked-order').innerText()).toMatch(/Do d\s+Do e/);
  await button('Together').tap();
  await expect.poll(line).toBe('a b [c | {=d e}]');
  expect((await stored())[2]).toMatchObject({ lanes: [[{}], [{ steps: [{}, { id: 'e', needs: ['c'] }] }]] });
  for (let i = 0; i < 3; i++) await button(/^Undo/).tap();
  await expect.poll(line).toBe('a b c d e');
  await button('Ask those passed over').tap();
  await expect.poll(left).toBe('4');
});

test('a finding leads to the step that it is about, folded away as it is', async () => {
  await begin(deck([step('a', 'PF'), { lanes: [[step('b', 'nobody')], [step('c', 'PM')]] }]));
  await page.locator('main .folded > summary').first().tap();
  await page
    .getByRole('link', { name: /Must be mended.*nobody/ })
    .first()
    .tap();
  const there = () => page.evaluate(() => (document.activeElement as HTMLElement).dataset.path);
  await expect.poll(there).toBe('/procedures/0/steps/1/lanes/0/0/by');
});

test('only what differs between variants is in the table, and leads to the form', async () => {
  await begin(deck([step('a', 'PF'), step('b', 'PM', { when: { engine: 'b' } }), step('c', 'PM')]));
  await page.getByText('What differs between variants').tap();
  const table = page.locator('.matrix');
  await expect.poll(() => table.innerText()).toMatch(/Engine A\s+Engine B\s+PM: Do b\s+left out\s+done/);
  expect(await page.locator('.folded', { has: table }).innerText()).toContain('2 steps are the same everywhere.');
  await table.getByRole('button', { name: 'done' }).tap();
  await expect.poll(() => at('1').getAttribute('aria-expanded')).toBe('true');
});

test.each([
  ['light', 360],
  ['dark', 820],
  ['light', 1280],
] as const)(
  'no accessibility findings, nothing small, nothing beside the page: %s at %d',
  async (colorScheme, width) => {
    await page.emulateMedia({ colorScheme });
    await page.setViewportSize({ width, height: 900 });
    await begin(
      deck([
        step('a', 'PF', { cue: { text: 'Now' }, critical: true }),
        { lanes: [[step('b', 'PM')], [step('c', 'captain', { if: 'fire' })]] },
        { if: '!fire', steps: [step('d', 'PF', { when: { engine: 'a' } })] },
        { use: 'nowhere' },
      ]),
    );
    for (const one of await page.locator('.folded > summary').all()) if (await one.isVisible()) await one.click();
    await page.locator('.matrix').waitFor();
    await at('1/lanes/0/0').click();
    await page.getByText('With its neighbours …').click();
    expect(await axe(page)).toEqual([]);
    expect(await touchTargets(page)).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
    await page.emulateMedia({ colorScheme: 'light' });
    await page.setViewportSize({ width: 360, height: 740 });
  },
);

test('nothing threw', () => {
  expect(browser.errors).toEqual([]);
});
