import { serve } from '../scripts/serve.mjs';
import { answer, press, shown } from '../tests/helpers/app.ts';
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
    await page.goto(`${server.url}#/`);
    await page.reload();
    await page.getByRole('button', { name: /^Start/ }).waitFor();
    await page.waitForTimeout(500);
    const start = await most();
    await page.getByText('Other minutes', { exact: true }).waitFor();
    await page.waitForTimeout(3000);
    const planning = await most();
    await press(page, /^Start/);
    let put = await shown(page);
    await page.waitForTimeout(500);
    const opening = await most();
    for (let i = 0; i < 6; i++) {
      if (put === 'read') await press(page, /ask me/);
      else {
        await answer(page, "Don't know");
        await press(page, 'Next');
      }
      put = await shown(page);
    }
    await page.waitForTimeout(500);
    const drilling = await most();
    const line = (name: string, value: number) => ({ name, value, unit: 'ms', goal: '≤ 50' });
    return [
      { name: 'start of the app, Brief shown', value: start, unit: 'ms' },
      line('while the plan is worked out', planning),
      line('a drill opens', opening),
      line('answers and next questions', drilling),
    ];
  } finally {
    await browser.close();
    await server.close();
  }
};
