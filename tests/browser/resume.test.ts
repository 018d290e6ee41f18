import { rmSync } from 'node:fs';
import { expect, inject, onTestFinished, test } from 'vitest';
import { answer, firstMinutes, logged, MERROW, press, shown, storedDrill, WIND } from '../helpers/app.ts';
import { type Launched, launch, visit } from '../helpers/browser.ts';
import { sound } from '../helpers/sound.ts';

/** A phone whose browser is killed; `again` starts it anew. */
const killable = async (): Promise<{ browser: Launched; again(): Promise<Launched> }> => {
  const browser = await launch();
  const { userDataDir } = browser;
  let now = browser;
  onTestFinished(async () => {
    await now.close();
    rmSync(userDataDir, { recursive: true, force: true });
  });
  const again = async () => {
    now = await launch({ userDataDir });
    await now.page.goto(inject('baseUrl'));
    return now;
  };
  return { browser, again };
};

test('a drill goes on exactly where the browser was killed, and an answer whose verdict was seen is there once', async () => {
  const { browser, again } = await killable();
  const { page } = browser;
  await page.goto(inject('baseUrl'));
  await firstMinutes(page, MERROW);
  await press(page, /ask me/);
  expect(await shown(page)).toBe('run');
  const rows = page.locator('.run-row');
  const steps = await page.locator('[data-step]').evaluateAll((all) => all.map((one) => one.getAttribute('data-step')));
  await rows.nth(2).tap();
  await rows.nth(0).tap();
  const before = await rows.allInnerTexts();
  // The drill's own record follows what is tapped by a moment.
  await expect.poll(() => storedDrill(page)).toContain(JSON.stringify({ order: [steps[2], steps[0]] }));
  await browser.killHard();

  const second = await again();
  const { page: later } = second;
  await press(later, 'Go on with your drill');
  await later.locator('.run-row').first().waitFor();
  expect(await later.locator('.run-row').allInnerTexts()).toEqual(before);
  await press(later, 'Edit');
  await press(later, 'Take back');
  await press(later, 'Done');
  expect(await later.locator('.run-row[aria-pressed=true]').count()).toBe(1);

  await answer(later, 'Sure');
  await expect.poll(async () => (await logged(later, 'answer')).length).toBe(1);
  const [was] = await logged(later, 'answer');
  await second.killHard();

  const { page: last } = await again();
  await press(last, 'Go on with your drill');
  const put = await shown(last);
  expect(await logged(last, 'answer')).toEqual([was]);
  // The verdict again, or, if the drill's own record came a moment late, the same question with the answer known.
  if (put === 'verdict') await press(last, 'Next');
  await shown(last);
});

test('mis-tap and query are new entries, and the answer stays in the log', async () => {
  const { page, close } = await visit();
  onTestFinished(close);
  await page.goto(inject('baseUrl'));
  await firstMinutes(page, WIND);
  await press(page, /ask me/);
  await answer(page, 'Sure');
  await press(page, /^Mis-tap/);
  await expect
    .poll(() => page.getByRole('status').first().innerText())
    .toContain('Taken back: this answer does not count. It is asked again after a few other questions.');
  // What became of it is in sight, and the cursor is there.
  expect(await page.evaluate(() => [scrollY, document.activeElement?.tagName])).toEqual([0, 'H1']);
  await press(page, 'Next');
  if ((await shown(page)) === 'read') await press(page, /ask me/);
  await answer(page, 'Not sure');
  await press(page, 'Query this question');
  // One filled button at a time.
  expect(await page.locator('button.main').allInnerTexts()).toEqual(['Query it']);
  await page.getByLabel('What is wrong with this question?').fill('<b>Two</b> answers are right');
  await press(page, 'Query it');
  await expect.poll(async () => (await logged(page, 'void')).map(({ why }) => why)).toEqual(['mis-tap', 'query']);
  expect(await logged(page, 'answer')).toHaveLength(2);
});

test('a deck taken out in mid-drill ends nothing', async () => {
  const { page, errors, close } = await visit();
  onTestFinished(close);
  await page.goto(inject('baseUrl'));
  await firstMinutes(page, MERROW);
  await press(page, /ask me/);
  await page.locator('.run-row').first().tap();
  await press(page, 'Leave');
  await press(page, 'Decks');
  await press(page, /take-off and initial/);
  await press(page, /^Set this deck aside/);
  await press(page, /^Practise it/);
  await press(page, 'Decks');
  await press(page, 'Brief');
  await press(page, 'Go on with your drill');
  expect(await shown(page)).toBe('run');
  await press(page, 'Leave');
  await press(page, 'Decks');
  await press(page, /take-off and initial/);
  await press(page, /^Set this deck aside/);
  await page.goto(`${inject('baseUrl')}#/drill`);
  await expect.poll(() => page.locator('main').innerText()).not.toBe('');
  await sound(page, 'drill, its deck rests');
  expect(errors).toEqual([]);
});
