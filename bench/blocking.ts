import { serve } from '../scripts/serve.mjs';
import { press } from '../tests/helpers/app.ts';
import { launch } from '../tests/helpers/browser.ts';
import { practisedCopy } from '../tests/helpers/practised.ts';

/** So many times slower than this machine: about a cheap phone beside a desktop. */
const SLOWER = 4;

/**
 * How long the page's own thread is held up at most, in one go, ms (Long Tasks API, W3C: tasks of 50 ms and more),
 * with a slowed processor: while the plan is worked out, and at each step of a drill that follows it.
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
    await page.addInitScript(() => {
      const held: number[] = [];
      Object.assign(globalThis, { held });
      new PerformanceObserver((list) => {
        for (const { duration } of list.getEntries()) held.push(duration);
      }).observe({ type: 'longtask', buffered: true });
    });
    const devtools = await browser.context.newCDPSession(page);
    await devtools.send('Emulation.setCPUThrottlingRate', { rate: SLOWER });
    const most = () =>
      page.evaluate(() => {
        const { held } = globalThis as unknown as { held: number[] };
        const longest = Math.max(0, ...held);
        held.length = 0;
        return longest;
      });
    // Waiting by looking, as tests do, would hold the page up by itself: it is left alone, and tapped from within.
    const tap = (text: string) =>
      page.evaluate((wanted) => {
        for (const button of document.querySelectorAll('button'))
          if (button.textContent?.includes(wanted) === true && !button.disabled) return void button.click();
      }, text);
    await page.goto(`${server.url}#/`);
    await page.reload();
    await page.waitForTimeout(4000);
    const start = await most();
    await page.waitForTimeout(25_000);
    const planning = await most();
    await tap('Start');
    await page.waitForTimeout(3000);
    const opening = await most();
    const drilling: number[] = [];
    for (let i = 0; i < 12; i++) {
      for (const text of ['ask me', "Don't know", 'Next']) {
        await tap(text);
        await page.waitForTimeout(800);
      }
      drilling.push(await most());
    }
    const [first = 0, ...later] = drilling;
    const line = (name: string, value: number) => ({ name, value, unit: 'ms', goal: '≤ 50' });
    return [
      { name: 'start of the app, Brief shown, plan asked for', value: start, unit: 'ms' },
      line('while the plan is worked out', planning),
      line('a drill opens', opening),
      line('the first answer', first),
      line('later answers and next questions', Math.max(...later)),
    ];
  } finally {
    await browser.close();
    await server.close();
  }
};
