import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { firstMinutes, logLines, MERROW, press } from '../helpers/app.ts';
import { type Visit, visit } from '../helpers/browser.ts';
import { sound } from '../helpers/sound.ts';

let browser: Visit;
let page: Page;
beforeAll(async () => {
  browser = await visit();
  page = browser.page;
  await page.goto(inject('baseUrl'));
  await firstMinutes(page, MERROW);
});
afterAll(() => browser.close());

const tool = (name: string): Locator => page.locator('.walk-tools button', { hasText: name });
const lines = (): Locator => page.locator('.walk > li');
/** Upper edges of all lines, from the top of the page. */
const edges = (): Promise<number[]> =>
  page.evaluate(() =>
    [...document.querySelectorAll('.walk > li')].map((one) => one.getBoundingClientRect().top + scrollY),
  );
const read = async (thing: string): Promise<void> => {
  await page.goto(`${inject('baseUrl')}#/read/${encodeURIComponent('recency/merrow-takeoff')}/${thing}`);
  await lines().first().waitFor();
};

test('steps that are hidden are shown by a tap anywhere on their line; nothing moves, nothing is counted', async () => {
  const before = await logLines(page);
  const words = lines().nth(1).locator('.what');
  const said = await words.innerText();
  await tool('Guess').tap();
  await press(page, 'Steps');
  const kept = await edges();
  expect(await words.isVisible()).toBe(false);
  // The cue stays: it is what the step is guessed from.
  expect(await lines().first().getByText('At:').isVisible()).toBe(true);
  await sound(page, 'steps hidden');

  const box = await lines().nth(1).boundingBox();
  if (box === null) throw new Error('a line without a box');
  await lines()
    .nth(1)
    .tap({ position: { x: box.width - 20, y: 10 } });
  expect(await words.isVisible()).toBe(true);
  expect(await page.getByRole('status').first().innerText()).toContain(said.split('\n')[0]);
  expect(await lines().nth(2).locator('.what').isVisible()).toBe(false);
  expect(await edges()).toEqual(kept);

  // With the keyboard alone, and hidden again.
  await lines().nth(2).getByRole('button').focus();
  await page.keyboard.press('Enter');
  expect(await lines().nth(2).locator('.what').isVisible()).toBe(true);
  await page.keyboard.press('Enter');
  expect(await lines().nth(2).locator('.what').isVisible()).toBe(false);

  await press(page, 'Cues, numbers');
  expect(await words.isVisible()).toBe(true);
  expect(await lines().first().getByText('At:').isVisible()).toBe(false);
  expect(await lines().first().locator('.veiled', { hasText: 'PF' }).isVisible()).toBe(false);
  expect(await edges()).toEqual(kept);
  await press(page, 'Nothing');
  expect(await lines().getByRole('button').count()).toBe(0);
  expect(await logLines(page)).toEqual(before);
});

test('the map shows the whole procedure, also where a part of it is read', async () => {
  await tool('Map').tap();
  await page.locator('.map').waitFor();
  const parts = await lines().count();
  expect(await page.locator('.map-step:not(.soft)[data-step]').count()).toBe(parts);
  expect(await page.locator('.map-step[data-step]').count()).toBeGreaterThan(parts);
  // Over the rows beside the line alone: in lanes each step says who acts.
  expect(await page.locator('.map-heads').first().innerText()).toMatch(/PF\s*PM/);
  expect(await page.locator('.map > :nth-child(2)').getAttribute('class')).toBe('map-fork');
  expect(await page.locator('.map-fork + .map-heads').count()).toBe(1);
  const knots = page.locator('.map-step[data-step].soft .map-knot, .map-key .hollow .map-knot');
  expect(new Set(await knots.evaluateAll((all) => all.map((one) => getComputedStyle(one).fill))).size).toBe(1);
  expect(await page.locator('.map-key').innerText()).toMatch(/critical\s+hollow: not in the part below/);
  await sound(page, 'map in a drill');
});

test('lanes that may interleave stand side by side, and the words say the same', async () => {
  await read('take-off-roll');
  await tool('Map').tap();
  await page.locator('.map').waitFor();
  const lanes = await page
    .locator('.map-lanes')
    .first()
    .locator('> .map-lane')
    .evaluateAll((all) => all.map((one) => one.getBoundingClientRect()));
  expect(lanes.length).toBe(3);
  expect(new Set(lanes.map(({ top }) => top)).size).toBe(1);
  expect(new Set(lanes.map(({ left }) => left)).size).toBe(3);
  await page.getByText('The same in words').tap();
  const words = await page.locator('.map-twin li').allInnerTexts();
  expect(words[0]).toBe('3 lines side by side, each in its own order:');
  expect(words).toContain('7. Captain, cue V1 called: Hand away from the thrust levers (critical)');
  expect(words.filter((one) => /\d\. /.test(one)).length).toBe(await lines().count());
  await sound(page, 'map with three lanes');

  // Letters so large that no lane has room beside another: each says which it is.
  await page.evaluate(() => {
    document.documentElement.style.fontSize = '32px';
  });
  await page.getByText('Line 3 of 3').waitFor();
  await page.evaluate(() => {
    document.documentElement.style.fontSize = '';
  });
});

test('the area in which a step is done is marked on the plan, by hatching and in words', async () => {
  await read('line-up');
  await tool('Panel').tap();
  const plan = page.locator('.panel-plan');
  await plan.waitFor();
  expect(await plan.getAttribute('aria-label')).toBe('Plan of the flight deck: Overhead, lights is hatched');
  // Every area has its number on the plan and its name in the list, and no number lies in another area.
  const names = await page.locator('.panel-names > li').allInnerTexts();
  expect(names).toContain('Overhead, lights');
  expect(await page.locator('.panel-plan text').allTextContents()).toEqual(names.map((_, i) => `${i + 1}`));
  const within = await page.locator('.panel-plan').evaluate((svg) => {
    const areas = [...svg.querySelectorAll<SVGRectElement>('rect:not(.lit)')].map((one) => one.getBBox());
    return [...svg.querySelectorAll('text')].map((text) => {
      const { x, y, width, height } = text.getBBox();
      const [cx, cy] = [x + width / 2, y + height / 2];
      // Of those that hold its middle the innermost is its own.
      const held = areas.filter((a) => a.x < cx && cx < a.x + a.width && a.y < cy && cy < a.y + a.height);
      const [own] = held.sort((a, b) => a.width * a.height - b.width * b.height);
      return own === undefined ? -1 : areas.indexOf(own);
    });
  });
  expect(within).toEqual(names.map((_, i) => i));
  expect(await page.locator('.panel-names strong').allInnerTexts()).toEqual(['Overhead, lights']);
  const next = page.getByRole('button', { name: 'Next step' });
  const onPage = () => next.evaluate((one) => one.getBoundingClientRect().top + scrollY);
  const at = await onPage();
  await next.tap();
  await page.getByText('Compare headings').first().waitFor();
  expect(await plan.getAttribute('aria-label')).toBe('Plan of the flight deck: Main and standby displays is hatched');
  expect(await page.locator('.panel figcaption').innerText()).toContain('Main and standby displays');
  // What was tapped stays under the thumb, whatever the words beneath it take.
  expect(await onPage()).toBe(at);
  await sound(page, 'panel');
  for (let i = 0; i < 20 && (await next.getAttribute('aria-disabled')) === 'false'; i++) await next.tap();
  expect(await next.getAttribute('aria-disabled')).toBe('true');
  expect(await page.locator('.way').count()).toBe(1);
});

test('of limits and scenarios the answers are hidden', async () => {
  for (const thing of ['limits', 'scenarios']) {
    await read(thing);
    const value = page.locator('.answer .value').first();
    expect(await value.isVisible()).toBe(true);
    expect(await page.getByRole('button', { name: 'Show the answers' }).count()).toBe(0);
    await press(page, 'Hide the answers');
    expect(await value.isVisible()).toBe(false);
    await sound(page, `${thing}, answers hidden`);
    await lines().first().getByRole('button').tap();
    expect(await value.isVisible()).toBe(true);
    const hidden = lines().nth(1).locator('.value').first();
    expect(await hidden.isVisible()).toBe(false);
    await press(page, 'Show the answers');
    expect(await hidden.isVisible()).toBe(true);
  }
});

test('a printed page has neither buttons nor blanks', async () => {
  await page.goto(`${inject('baseUrl')}#/print/${encodeURIComponent('recency/merrow-takeoff')}`);
  await page.locator('.duty').first().waitFor();
  expect(await page.locator('.walk-tools, .veil, .veiled').count()).toBe(0);
});

/** A step of forty words, words from right to left, lanes in a lane, five lanes, one seat alone, areas on the very edge. */
const ODD = {
  format: 1,
  id: 'test/odd',
  version: '1.0.0',
  title: 'Odd deck',
  language: 'he',
  nature: 'public',
  sources: [{ id: 's', title: 'Source', basis: 'published' }],
  areas: [
    { label: 'לוח עליון', x: 0, y: 0, width: 100, height: 10 },
    { label: 'Low', x: 98, y: 196, width: 2, height: 4 },
  ],
  procedures: [
    {
      id: 'odd',
      title: 'Odd procedure',
      done: 'flow',
      source: 's',
      steps: [
        {
          id: 'long',
          do: Array(40).fill('circuitbreaker').join(' '),
          by: 'PF',
          cue: { text: Array(12).fill('passing').join(' ') },
          where: 'Low',
        },
        { id: 'rtl', do: 'הדלק את המשאבה', by: 'PF', where: 'לוח עליון' },
        {
          lanes: ['a', 'b', 'c', 'd']
            .map((id) => [{ id, do: `Check ${id}`, by: 'PF' }])
            .concat([
              // biome-ignore lint/suspicious/noExplicitAny: one lane holds a fork of its own.
              [{ lanes: [[{ id: 'e', do: 'Check e' }], [{ id: 'f', do: 'Check f', needs: ['a'] }]] }] as any,
            ]),
        },
      ],
    },
    { id: 'short', title: 'One step', done: 'memory', source: 's', steps: [{ id: 'one', do: 'Stop' }] },
  ],
};

test('what is odd in a deck does not break the pictures', async () => {
  await page.goto(`${inject('baseUrl')}#/decks`);
  await page
    .locator('input[type=file]')
    .first()
    .setInputFiles({ name: 'odd.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(ODD)) });
  await press(page, 'Install');
  await page.waitForFunction(() => !location.hash.startsWith('#/install'));
  await page.goto(`${inject('baseUrl')}#/read/${encodeURIComponent('test/odd')}/odd`);
  await tool('Map').tap();
  await page.locator('.map').waitFor();
  expect(await page.locator('.map-lanes-more > .map-lane').count()).toBe(5);
  expect(await page.getByText('Line 5 of 5').isVisible()).toBe(true);
  await sound(page, 'odd map');
  await tool('Panel').tap();
  await page.locator('.panel-plan').waitFor();
  await press(page, 'Next step');
  await page.getByText('2 of 2').waitFor();
  await sound(page, 'odd panel');
  await page.goto(`${inject('baseUrl')}#/read/${encodeURIComponent('test/odd')}/short`);
  await page.getByRole('heading', { name: 'One step' }).waitFor();
  expect(await tool('Map').count()).toBe(0);
  expect(await tool('Panel').count()).toBe(0);
  expect(browser.errors).toEqual([]);
});

test('past its review date a deck says so on the Brief, above all else; the others do not', async () => {
  const late = await visit();
  try {
    await late.setClock('2027-10-02T10:00:00Z');
    await late.page.goto(inject('baseUrl'));
    await firstMinutes(late.page, MERROW);
    await late.page.goto(`${inject('baseUrl')}#/`);
    const told = late.page.getByText('The review date of Merrow 240: take-off and initial climb is past');
    await told.waitFor();
    expect(await late.page.getByText(/^The review date of/).count()).toBe(1);
    await sound(late.page, 'brief, past its review');
    expect(late.errors).toEqual([]);
  } finally {
    await late.close();
  }
  await page.goto(`${inject('baseUrl')}#/`);
  await page.getByText('Today begins with').waitFor();
  expect(await page.getByText(/^The review date of/).count()).toBe(0);
});
