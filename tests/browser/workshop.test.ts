import { text as readAll } from 'node:stream/consumers';
import type { Locator, Page } from 'playwright-core';
import { afterEach, beforeEach, expect, inject, test } from 'vitest';
import { valueAt } from '../../src/draft/change.ts';
import { verifyDeck } from '../../src/exchange/signature.ts';
import type { Json } from '../../src/lib/canonical-json.ts';
import { heading, press } from '../helpers/app.ts';
import { type Visit, visit } from '../helpers/browser.ts';
import { adder, box, dragStep, focusedPlace, storedDraft } from '../helpers/workshop.ts';

let browser: Visit;
let page: Page;
beforeEach(async () => {
  browser = await visit();
  page = browser.page;
  await page.goto(inject('baseUrl'));
  await press(page, 'I have read this');
});
afterEach(async () => {
  const { errors } = browser;
  await browser.close();
  expect(errors).toEqual([]);
});

const main = (): Promise<string> => page.locator('main').innerText();
const at = async (path: string): Promise<Json | undefined> => valueAt(await storedDraft(page), path);
const acts = async (): Promise<unknown> =>
  ((await at('/procedures/0/steps')) as readonly Json[]).map((step) => valueAt(step, '/do') ?? valueAt(step, '/say'));
/** Presses what adds to a list; the cursor goes into what came. */
const add = async (path: string, push = (one: Locator) => one.click()): Promise<void> => {
  await push(adder(page, path));
  await expect.poll(() => focusedPlace(page)).toMatch(new RegExp(`^${path}/`));
};
const step = (path: string): Locator => page.locator(`[data-step="/procedures/0/steps/${path}"]`);
const status = (): Promise<string> =>
  page.getByRole('region', { name: 'What the checker says' }).getByRole('status').first().innerText();
const contents = (name: string): Locator =>
  page.getByRole('navigation', { name: 'Contents of the deck' }).getByRole('link', { name });

test('by mouse: a deck is written, mended, taken back and done again, tried, signed, saved and practised', async () => {
  await page.setViewportSize({ width: 1280, height: 800 });
  await page.getByRole('link', { name: /Workshop/ }).click();
  await page.getByRole('button', { name: 'A new deck', exact: true }).click();
  await box(page, '/title').fill('A deck by mouse');
  await box(page, '/id').fill('calder/by-mouse');
  await contents('Sources').click();
  await add('/sources');
  await page.keyboard.type('Invented manual');

  await add('/procedures');
  await box(page, '/procedures/0/title').fill('Going round');
  await box(page, '/procedures/0/source').selectOption({ index: 1 });
  const quick = page.getByLabel('Step after step');
  for (const words of ['PM: Gear UP', 'PF: Thrust levers TOGA', 'PM: "Positive climb"']) {
    await quick.fill(words);
    await quick.press('Enter');
  }
  await expect.poll(acts).toEqual(['Gear UP', 'Thrust levers TOGA', 'Positive climb']);
  await dragStep(page, '/procedures/0/steps/0', step('2'), 'lower');
  await expect.poll(acts).toEqual(['Thrust levers TOGA', 'Positive climb', 'Gear UP']);

  // Typed in one go while its title, which is the page's, is drawn again and again: the cursor must stay.
  await add('/limits');
  await page.keyboard.type('Lowest height for the turn');
  await expect.poll(() => at('/limits/0/ask')).toBe('Lowest height for the turn');
  await box(page, '/limits/0/value').fill('four hundred');
  await box(page, '/limits/0/unit').selectOption('ft');
  await box(page, '/limits/0/source').selectOption({ index: 1 });

  await add('/scenarios');
  await box(page, '/scenarios/0/situation').fill('Wind across: {value} kt.');
  await add('/scenarios/0/draw');
  await box(page, '/scenarios/0/draw/value/from').fill('0');
  await box(page, '/scenarios/0/draw/value/to').fill('40');
  await add('/scenarios/0/asks');
  await page.getByLabel('A choice').check();
  await box(page, '/scenarios/0/asks/0/ask').fill('What now?');
  const choose = '/scenarios/0/asks/0/choose';
  for (const [i, words] of ['Land', 'Go round'].entries()) {
    await add(`${choose}/options`);
    await page.keyboard.type(words);
    await page.keyboard.press('Tab');
    await expect.poll(async () => Object.values((await at(`${choose}/options`)) as object)[i]).toBe(words);
  }
  await add(`${choose}/rules`);
  await box(page, `${choose}/rules/0/if`).fill('wind > 25');
  await box(page, `${choose}/rules/0/then/0`).selectOption('go-round');
  await add(`${choose}/rules`);
  await box(page, `${choose}/rules/1/then/0`).selectOption('land');
  await box(page, '/scenarios/0/source').selectOption({ index: 1 });

  // Two faults, each mended where it leads to.
  await page.getByRole('link', { name: 'The whole deck' }).click();
  await expect.poll(status).toBe('2 to mend.');
  await page.getByRole('link', { name: /A number is needed here/ }).click();
  await expect.poll(() => focusedPlace(page)).toBe('/limits/0/value');
  await page.keyboard.press('Control+A');
  await page.keyboard.type('400');
  await page.getByRole('link', { name: 'The whole deck' }).click();
  await page.getByRole('link', { name: /nothing here is called/ }).click();
  await expect.poll(() => focusedPlace(page)).toBe(`${choose}/rules/0/if`);
  await page.keyboard.press('Control+A');
  await page.keyboard.type('value > 25');
  await page.getByRole('link', { name: 'The whole deck' }).click();
  await expect.poll(status).toBe('2 hints.');

  // Each leads to where something was taken back or done again.
  const rule = () => at(`${choose}/rules/0/if`);
  await page.getByRole('button', { name: /^Undo/ }).click();
  await expect.poll(rule).toBe('wind > 25');
  await expect.poll(() => box(page, `${choose}/rules/0/if`).inputValue()).toBe('wind > 25');
  await page.keyboard.press('Control+z');
  await expect.poll(() => at('/limits/0/value')).toBe('four hundred');
  await expect.poll(() => box(page, '/limits/0/value').inputValue()).toBe('four hundred');
  await page.keyboard.press('Control+Shift+Z');
  await expect.poll(() => at('/limits/0/value')).toBe(400);
  await page.getByRole('button', { name: /^Redo/ }).click();
  await expect.poll(rule).toBe('value > 25');
  await page.getByRole('link', { name: 'The whole deck' }).click();
  await expect.poll(status).toBe('2 hints.');

  await page.getByRole('link', { name: 'Try it as a learner would' }).click();
  await page.getByLabel('What to try').selectOption({ label: 'Lowest height for the turn' });
  await page.locator('.number-field input').fill('400');
  await page.getByRole('button', { name: 'Sure', exact: true }).click();
  await page.getByRole('button', { name: 'Next question' }).waitFor();

  await page.getByRole('link', { name: 'The whole deck' }).click();
  await page.getByRole('link', { name: 'Hand over' }).click();
  await page.getByLabel(/Passphrase/).fill('lined up and waiting');
  await page.getByLabel(/^The same again/).fill('lined up and waiting');
  await page.getByRole('button', { name: 'Make a key and save its file' }).click();
  await page.getByLabel(/^Your name/).fill('A. Author');
  await page.getByRole('button', { name: 'Sign as author' }).click();
  await page.getByText('Author: A. Author').waitFor();
  const save = page.getByRole('button', { name: 'Save the file' });
  await expect.poll(() => save.isEnabled()).toBe(true);
  const [saved] = await Promise.all([page.waitForEvent('download'), save.click()]);
  expect(saved.suggestedFilename()).toBe('by-mouse-0.1.0.deck.json');
  expect(await verifyDeck(await readAll(await saved.createReadStream()))).toMatchObject([
    { name: 'A. Author', role: 'author', valid: true },
  ]);
  await page.getByRole('button', { name: 'Practise it here' }).click();
  await page.getByRole('button', { name: /^(Trust and install|Install)$/ }).click();
  await page.getByRole('button', { name: /^No date yet/ }).click();
  await page.getByRole('button', { name: /ask me/ }).waitFor();
  expect(await main()).toContain('Going round');
});

/** What an author does, by keyboard alone or by touch. */
interface Hand {
  readonly press: (one: Locator) => Promise<void>;
  /** Takes the place of what is in a box. */
  readonly write: (one: Locator, words: string) => Promise<void>;
  /** Of a list that the system unfolds. @param label its first letters are no other's */
  readonly pick: (one: Locator, label: string) => Promise<void>;
  readonly tick: (one: Locator) => Promise<void>;
  /** A step one place further down. */
  readonly lower: (one: Locator) => Promise<void>;
}

/** Tab after Tab, towards it, until it has the focus. */
const reach = async (one: Locator): Promise<void> => {
  await expect.poll(() => one.isEnabled()).toBe(true);
  for (let i = 0; i < 120; i++) {
    const key = await one.evaluate((wanted) => {
      const here = document.activeElement;
      if (here === wanted) return null;
      const isBehind = here?.compareDocumentPosition(wanted) === Node.DOCUMENT_POSITION_PRECEDING;
      return isBehind ? 'Shift+Tab' : 'Tab';
    });
    if (key === null) return;
    await page.keyboard.press(key);
  }
  throw new Error(`never reached: ${one}`);
};
const KEYBOARD: Hand = {
  press: async (one) => {
    await reach(one);
    await page.keyboard.press('Enter');
  },
  write: async (one, words) => {
    await reach(one);
    await page.keyboard.press('Control+A');
    // What has lines is pasted; all else is typed letter by letter.
    await (words.includes('\n') ? page.keyboard.insertText(words) : page.keyboard.type(words));
  },
  pick: async (one, label) => {
    await reach(one);
    await page.keyboard.type(label);
  },
  tick: async (one) => {
    await reach(one);
    await page.keyboard.press('Space');
  },
  lower: async (one) => {
    await reach(one);
    await page.keyboard.press('Alt+ArrowDown');
    // The cursor goes with it.
    await expect.poll(() => focusedPlace(page)).toBe('/procedures/0/steps/1');
  },
};
const TOUCH: Hand = {
  press: (one) => one.tap(),
  write: async (one, words) => {
    await one.tap();
    await one.fill(words);
  },
  pick: async (one, label) => {
    await one.selectOption({ label });
  },
  tick: (one) => one.tap(),
  lower: async (one) => {
    await one.tap();
    await page.locator('[data-tool=down]').tap();
  },
};

const button = (name: string | RegExp): Locator =>
  page.getByRole('button', { name, exact: typeof name === 'string' }).first();
const link = (name: string | RegExp): Locator =>
  page.getByRole('link', { name, exact: typeof name === 'string' }).first();
const titled = (title: string) => expect.poll(() => heading(page)).toBe(title);

/** From a page of the draft to another. @param name of a part of the deck, as the contents have it */
const toPart = async ({ press: push }: Hand, name: string): Promise<void> => {
  await push(link('The whole deck'));
  await push(contents(name));
  await titled(name);
};
const toWhole = async ({ press: push }: Hand, title: string): Promise<void> => {
  await push(link('The whole deck'));
  await titled(title);
};
const addNamed = async (hand: Hand, path: string, all: readonly string[]): Promise<void> => {
  for (const [i, words] of all.entries()) {
    await add(path, hand.press);
    await page.keyboard.insertText(words);
    await expect.poll(async () => Object.values((await at(path)) as object)[i]).toBe(words);
  }
};

const fromList = async ({ press: push, write, lower }: Hand): Promise<void> => {
  await push(link(/Workshop/));
  await push(button('A new deck from a list or table'));
  await write(page.getByLabel(/^Paste a list/), 'GOING ROUND\nPM: Gear UP\nPF: Thrust levers TOGA');
  await push(button('Read it'));
  await write(page.getByLabel('Title of the new procedure'), 'Going round');
  await push(button('Take these steps'));
  await write(page.getByLabel('Step after step'), 'PM: "Positive climb"');
  await page.keyboard.press('Enter');
  await expect.poll(acts).toEqual(['Gear UP', 'Thrust levers TOGA', 'Positive climb']);
  await lower(step('0'));
  await expect.poll(acts).toEqual(['Thrust levers TOGA', 'Gear UP', 'Positive climb']);
  await push(step('2'));
  await write(box(page, '/procedures/0/steps/2/why'), 'Before the flaps.');
  await expect.poll(() => at('/procedures/0/steps/2/why')).toBe('Before the flaps.');
};

const deckItself = async (hand: Hand, title: string): Promise<void> => {
  const { write } = hand;
  await toPart(hand, 'The deck itself');
  await write(box(page, '/title'), title);
  await write(box(page, '/id'), 'calder/by-hand');
  await toPart(hand, 'Sources');
  await add('/sources', hand.press);
  await write(box(page, '/sources/0/title'), 'Invented manual');
  await toPart(hand, 'Variants');
  await add('/variants', hand.press);
  await write(box(page, '/variants/0/label'), 'Engine');
  await addNamed(hand, '/variants/0/options', ['Small', 'Large']);
  await toWhole(hand, title);
};

const limitAndScenario = async (hand: Hand, title: string): Promise<void> => {
  const { write, pick } = hand;
  await add('/limits', hand.press);
  await write(box(page, '/limits/0/ask'), 'Lowest height for the turn');
  await write(box(page, '/limits/0/value'), '400');
  await pick(box(page, '/limits/0/unit'), 'ft');
  await pick(box(page, '/limits/0/source'), 'Invented manual');
  await expect.poll(() => at('/limits/0')).toMatchObject({ value: 400, unit: 'ft', source: 'invented-manual' });
  await toWhole(hand, title);

  await add('/scenarios', hand.press);
  await write(box(page, '/scenarios/0/situation'), 'Wind across: {value} kt.');
  await add('/scenarios/0/draw', hand.press);
  await write(box(page, '/scenarios/0/draw/value/from'), '10');
  await write(box(page, '/scenarios/0/draw/value/to'), '20');
  await add('/scenarios/0/asks', hand.press);
  await write(box(page, '/scenarios/0/asks/0/ask'), 'Twice the wind?');
  await write(box(page, '/scenarios/0/asks/0/number'), '2 * value');
  await pick(box(page, '/scenarios/0/asks/0/unit'), 'kt');
  await pick(box(page, '/scenarios/0/source'), 'Invented manual');
  await toWhole(hand, title);
};

const mended = async (hand: Hand, title: string): Promise<void> => {
  const { press: push, pick, write } = hand;
  await push(link(/^Should be looked at: No source/));
  await expect.poll(() => focusedPlace(page)).toBe('/procedures/0/source');
  await pick(box(page, '/procedures/0/source'), 'Invented manual');
  await write(page.locator('input[data-path="/procedures/0/source"]'), '2.1');
  await expect.poll(() => at('/procedures/0/source')).toBe('invented-manual#2.1');
  await toWhole(hand, title);
  await expect.poll(status).not.toMatch(/to mend|to look at|checked/);
};

const tried = async (hand: Hand, title: string): Promise<void> => {
  const { press: push, tick, pick, write } = hand;
  await push(link('Try it as a learner would'));
  await titled('Try it');
  await push(button('Two variants side by side'));
  const sides = page.locator('.side-by-side > section');
  expect(await sides.count()).toBe(2);
  expect(
    await sides.getByLabel('Engine').evaluateAll((all) => all.map((one) => (one as HTMLSelectElement).value)),
  ).toEqual(['small', 'large']);
  for (const side of await sides.all()) {
    await side.locator('.run-row').first().waitFor();
    for (const row of await side.locator('.run-row').all()) await tick(row);
    await push(side.getByRole('button', { name: 'Sure', exact: true }));
    await side.getByRole('button', { name: 'Next question' }).waitFor();
  }
  await push(button('One variant only'));
  await pick(page.getByLabel('What to try'), 'Wind across: {value} kt.');
  await write(page.locator('.number-field input'), '30');
  await push(button('Sure'));
  await button('Next question').waitFor();
  await toWhole(hand, title);
};

const handedOver = async ({ press: push, write }: Hand): Promise<void> => {
  await push(link('Hand over'));
  await write(page.getByLabel(/^Passphrase/), 'lined up and waiting');
  await write(page.getByLabel(/^The same again/), 'lined up and waiting');
  await push(button('Make a key and save its file'));
  await write(page.getByLabel(/^Your name/), 'A. Author');
  await push(button('Sign as author'));
  await page.getByText('Author: A. Author').waitFor();
  await push(button('Practise it here'));
  await push(button(/^(Trust and install|Install)$/));
};

/** After the manual was revised: the number is mended, held against what is installed, and the sheet is filled. */
const revised = async (hand: Hand, title: string): Promise<void> => {
  const { press: push, write, pick, tick } = hand;
  await push(link('Decks'));
  await push(link(/Workshop/));
  await push(link(title));
  await titled(title);
  await push(contents('Lowest height for the turn'));
  await write(box(page, '/limits/0/value'), '500');
  await toWhole(hand, title);
  await push(link('Compare versions'));
  const changed = page.locator('section').filter({ has: page.getByRole('heading', { name: /^Answers changed/ }) });
  await changed.first().waitFor();
  expect(await page.getByLabel('Before').locator('option:checked').innerText()).toMatch(/^Version 0\.1\.0, here since/);
  expect(await changed.locator('del').first().innerText()).toContain('400');
  expect(await changed.locator('ins').first().innerText()).toContain('500');
  await push(button(/^Set version /));
  await expect.poll(() => at('/version')).toBe('1.0.0');
  await toWhole(hand, title);
  await push(link(/^Revision sheet/));
  await pick(page.getByLabel(/^Source/), 'Invented manual');
  await write(page.getByLabel('Changed paragraphs'), '2');
  await write(page.getByLabel('New edition'), 'Issue 2');
  await tick(page.getByLabel('Still right').first());
  await expect.poll(() => page.getByLabel('Still right').first().isChecked()).toBe(true);
  await push(button('Put the new edition into the deck'));
  await expect.poll(() => at('/sources/0/edition')).toBe('Issue 2');
  expect(await main()).toMatch(/Done\. \d+ things say the edition before/);
};

test.each([
  ['by keyboard alone', KEYBOARD, { width: 1280, height: 800 }],
  ['by touch, on a phone', TOUCH, { width: 360, height: 740 }],
] as const)('%s: a deck from a list, written on, tried, signed, practised and revised', async (how, hand, size) => {
  await page.setViewportSize(size);
  const title = `A deck ${how}`;
  await fromList(hand);
  await deckItself(hand, title);
  await limitAndScenario(hand, title);
  await mended(hand, title);
  await tried(hand, title);
  await handedOver(hand);
  await hand.tick(page.getByLabel('Small'));
  await hand.press(button('Go on'));
  await hand.press(button(/^No date yet/));
  await button(/ask me/).waitFor();
  expect(await main()).toContain('Going round');
  await hand.press(link('Leave'));
  await revised(hand, title);
});
