import { readFileSync } from 'node:fs';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { valueAt } from '../../src/draft/change.ts';
import { press } from '../helpers/app.ts';
import { type Visit, visit } from '../helpers/browser.ts';
import { openAsDraft, storedDraft } from '../helpers/workshop.ts';

let browser: Visit;
let page: Page;
beforeAll(async () => {
  browser = await visit();
  page = browser.page;
  await page.goto(inject('baseUrl'));
  await press(page, 'I have read this');
});
afterAll(() => browser.close());

interface Node {
  readonly id?: string;
  readonly do?: string;
  readonly say?: string;
  readonly if?: string;
  readonly together?: boolean;
  readonly use?: string;
  readonly steps?: readonly Node[];
  readonly lanes?: readonly (readonly Node[])[];
}
interface Deck {
  readonly procedures: readonly { readonly title: string; readonly steps: readonly Node[] }[];
}

const at = (path: string): Locator => page.locator(`[data-step="${path}"]`);
const field = (path: string): Locator => page.locator(`[data-path="${path}"]`).first();
const button = (name: string | RegExp): Locator =>
  page.getByRole('button', { name, exact: typeof name === 'string' }).and(page.locator(':visible'));
/** What the checker says comes and goes under the fields meanwhile, so that a place on the screen is no address. */
const click = (one: Locator): Promise<void> =>
  one.evaluate(async (element) => {
    (element as HTMLElement).click();
    // What comes of it is drawn, and has the cursor.
    for (let i = 0; i < 3; i++) await new Promise((drawn) => requestAnimationFrame(drawn));
  });
const opened = async (path: string): Promise<void> => {
  if ((await at(path).getAttribute('aria-expanded')) === 'false') await click(at(path));
};

/** Makes the empty step at a place into what is wanted, by what the page offers. */
const make = async (path: string, node: Node): Promise<void> => {
  await opened(path);
  if (node.use !== undefined) {
    await page.getByLabel('A block of another procedure').selectOption(node.use);
    await click(button('Take it behind what is open'));
    await click(at(path));
    await click(button('Remove'));
  } else if (node.lanes !== undefined) {
    await click(button('Step after'));
    await opened(path);
    await click(page.getByText('With its neighbours …'));
    await click(button('One more'));
    await click(button('May be done in any order'));
    for (const _ of node.lanes.slice(2)) await click(page.locator(`[data-add="${path}/lanes"]`));
    for (const [i, lane] of node.lanes.entries()) await fill(`${path}/lanes/${i}`, lane, 1);
  } else if (node.steps !== undefined) {
    await click(page.getByText('With its neighbours …'));
    await click(button('A block of it'));
    if (node.if !== undefined) {
      await page.locator('[data-tool="only-if"]').selectOption('As a formula');
      await field(`${path}/if`).fill(node.if);
    }
    if (node.together === true) await field(`${path}/together`).check();
    if (node.id !== undefined) await click(button('Name it for other procedures'));
    await fill(`${path}/steps`, node.steps, 1);
  } else {
    if (node.do !== undefined) await field(`${path}/do`).fill(node.do);
    if (node.say !== undefined) await field(`${path}/say`).fill(node.say);
  }
};

/** @param there so many empty steps stand in the list already */
const fill = async (list: string, nodes: readonly Node[], there = 0): Promise<void> => {
  for (const [i, node] of nodes.entries()) {
    if (i >= there) await click(page.locator(`[data-add="${list}"]`));
    await make(`${list}/${i}`, node);
  }
};

/** What the structure is, with the words of the steps. */
const shape = (nodes: readonly Node[]): unknown[] =>
  nodes.map((node) => {
    if (node.use !== undefined) return { use: node.use };
    if (node.lanes !== undefined) return node.lanes.map(shape);
    const { do: act, say, if: condition, together, steps } = node;
    if (steps !== undefined) return { condition, together, named: node.id !== undefined, steps: shape(steps) };
    return { act, say };
  });

const stored = async (index: number): Promise<readonly Node[]> =>
  valueAt(await storedDraft(page), `/procedures/${index}/steps`) as readonly Node[];

const file = (name: string): Deck => JSON.parse(readFileSync(`decks/${name}.deck.json`, 'utf8'));

/** Between them: lanes, a branch, together within a lane, a named block within a condition, a block used. */
const TRIED = [
  ['merrow-takeoff', 1],
  ['merrow-abnormal', 0],
  ['merrow-abnormal', 1],
  ['merrow-abnormal', 2],
] as const;

test.each(TRIED)('%s, %d: the same structure comes of pressing what the page offers', async (name, index) => {
  const deck = file(name);
  const emptied = { ...deck, procedures: deck.procedures.map((one, i) => (i === index ? { ...one, steps: [] } : one)) };
  const draft = await openAsDraft(page, emptied);
  await page.goto(`${draft}/procedures/${index}`);
  await page.locator('.line-page').waitFor();
  const { steps } = deck.procedures[index] as Deck['procedures'][number];
  await fill(`/procedures/${index}/steps`, steps);
  await expect.poll(async () => shape(await stored(index))).toEqual(shape(steps));
});
