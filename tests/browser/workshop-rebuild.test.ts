import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { valueAt } from '../../src/draft/change.ts';
import { press } from '../helpers/app.ts';
import { type Visit, visit } from '../helpers/browser.ts';
import { openAsDraft, storedDraft } from '../helpers/workshop.ts';
import { type LineNode, lineHand } from './workshop-forms/driver.ts';

let browser: Visit;
let page: Page;
beforeAll(async () => {
  browser = await visit();
  page = browser.page;
  await page.goto(inject('baseUrl'));
  await press(page, 'I have read this');
});
afterAll(() => browser.close());

interface Deck {
  readonly procedures: readonly { readonly title: string; readonly steps: readonly LineNode[] }[];
}

const fill = (list: string, nodes: readonly LineNode[]): Promise<void> =>
  lineHand(page, async (path, { do: act, say }) => {
    if (act !== undefined) await page.locator(`[data-path="${path}/do"]`).first().fill(act);
    if (say !== undefined) await page.locator(`[data-path="${path}/say"]`).first().fill(say);
  }).fill(list, nodes);

/** What the structure is, with the words of the steps. */
const shape = (nodes: readonly LineNode[]): unknown[] =>
  nodes.map((node) => {
    if (node.use !== undefined) return { use: node.use };
    if (node.lanes !== undefined) return node.lanes.map(shape);
    const { do: act, say, if: condition, together, steps } = node;
    if (steps !== undefined) return { condition, together, named: node.id !== undefined, steps: shape(steps) };
    return { act, say };
  });

const stored = async (index: number): Promise<readonly LineNode[]> =>
  valueAt(await storedDraft(page), `/procedures/${index}/steps`) as readonly LineNode[];

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
