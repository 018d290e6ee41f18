import type { CDPSession, Page } from 'playwright-core';
import { serve } from '../scripts/serve.mjs';
import { press } from '../tests/helpers/app.ts';
import { launch } from '../tests/helpers/browser.ts';
import { practisedCopy } from '../tests/helpers/practised.ts';
import { type Trace, traceOf } from './trace.ts';

/** So many times slower than this machine: about a cheap phone beside a desktop. */
const SLOWER = 4;

const BEGUN = 'bench-begun';
const SEEN = 'bench-seen';

/** The longest task of the page's own thread, ms: on the thread, and by the clock (what the Long Tasks API measures). */
interface Longest {
  readonly thread: number;
  readonly clock: number;
}

/**
 * While `work` is under way.
 * @param loads a page is loaded: from then on that its document is there. What the browser does before is not the page's.
 */
const longestIn = async (page: Page, devtools: CDPSession, work: () => Promise<unknown>, loads = false) => {
  const seen = async () => {
    await work();
    await page.evaluate((name) => void performance.mark(name), SEEN);
  };
  const trace = await traceOf(devtools, seen, SEEN);
  const begun = loads ? trace.at(BEGUN) : 0;
  const tasks = trace.tasks.filter(({ ts }) => ts > begun);
  const longest = (of: (task: Trace['tasks'][number]) => number | undefined) =>
    Math.max(...tasks.map((task) => (of(task) ?? 0) / 1000));
  return { thread: longest(({ tdur }) => tdur), clock: longest(({ dur }) => dur) };
};

const worst = (all: readonly Longest[]): Longest => ({
  thread: Math.max(...all.map(({ thread }) => thread)),
  clock: Math.max(...all.map(({ clock }) => clock)),
});

/**
 * How long the page's own thread is held up at most, in one go, with a slowed processor: while the app starts and the
 * plan is worked out, and at each step of a drill that follows it.
 */
export const benchBlocking = async () => {
  const server = await serve({ dir: 'dist' });
  const browser = await launch();
  const { page } = browser;
  page.setDefaultTimeout(120_000);
  try {
    await page.goto(server.url);
    await press(page, 'I have read this');
    const text = await practisedCopy({
      file: 'merrow-takeoff.deck.json',
      flown: { engine: ['tk11'], operator: ['calder'] },
      course: 'fictional',
      now: Date.now(),
      checkIn: 30,
      minutes: 10,
      met: 0.7,
    });
    await page.goto(`${server.url}#/settings`);
    const buffer = Buffer.from(text);
    await page.locator('input[type=file]').first().setInputFiles({ name: 'copy.txt', mimeType: 'text/plain', buffer });
    await page.getByText(/^Taken in/).waitFor();
    await page.addInitScript((name) => void performance.mark(name), BEGUN);
    await page.goto(`${server.url}#/`);
    const devtools = await browser.context.newCDPSession(page);
    await devtools.send('Emulation.setCPUThrottlingRate', { rate: SLOWER });
    // Waiting by looking, as tests do, would hold the page up by itself: it is left alone, and tapped from within.
    const tap = (text: string) =>
      page.evaluate((wanted) => {
        for (const button of document.querySelectorAll('button'))
          if (button.textContent?.includes(wanted) === true && !button.disabled) return void button.click();
      }, text);
    const start = async () => {
      await page.reload({ waitUntil: 'commit' });
      await page.waitForTimeout(4000);
    };
    const opened = async () => {
      await tap('Start');
      await page.waitForTimeout(3000);
    };
    const answered = async () => {
      for (const text of ['ask me', "Don't know", 'Next']) {
        await tap(text);
        await page.waitForTimeout(800);
      }
    };
    const starting = await longestIn(page, devtools, start, true);
    const planning = await longestIn(page, devtools, () => page.waitForTimeout(25_000));
    const opening = await longestIn(page, devtools, opened);
    const drilling: Longest[] = [];
    for (let i = 0; i < 12; i++) drilling.push(await longestIn(page, devtools, answered));
    const [first = { thread: 0, clock: 0 }, ...later] = drilling;
    const all: readonly (readonly [string, Longest])[] = [
      ['the app starts, Brief shown, plan asked for', starting],
      ['the plan is worked out', planning],
      ['a drill opens', opening],
      ['the first answer', first],
      ['later answers and next questions', worst(later)],
    ];
    return [
      ...all.map(([name, { thread }]) => ({ name, value: thread, unit: 'ms', goal: '≤ 50' })),
      // Longer where other programs run beside it.
      ...all.map(([name, { clock }]) => ({ name: `${name}, by the clock`, value: clock, unit: 'ms' })),
    ];
  } finally {
    await browser.close();
    await server.close();
  }
};
