import { readFile } from 'node:fs/promises';
import { serve } from '../scripts/serve.mjs';
import { press } from '../tests/helpers/app.ts';
import { launch } from '../tests/helpers/browser.ts';
import { practisedCopy } from '../tests/helpers/practised.ts';

/** So many times slower than this machine: about a cheap phone beside a desktop. */
const SLOWER = 4;
/** s of the run that are measured: thrust comes up, speed and runway change with nearly every frame. */
const MEASURED = 15;

/** Frames a second of the paced run, with a slowed processor. */
export const benchPaced = async () => {
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
      met: 1,
    });
    await page.goto(`${server.url}#/settings`);
    const buffer = Buffer.from(text);
    await page.locator('input[type=file]').first().setInputFiles({ name: 'copy.txt', mimeType: 'text/plain', buffer });
    await page.getByText(/^Taken in/).waitFor();
    const { id } = JSON.parse(await readFile('decks/merrow-takeoff.deck.json', 'utf8'));
    await page.goto(`${server.url}#/paced/${encodeURIComponent(id)}/take-off-in-time`);
    await press(page, 'Begin');
    const devtools = await browser.context.newCDPSession(page);
    await devtools.send('Emulation.setCPUThrottlingRate', { rate: SLOWER });
    await press(page, /^Begin the run/);
    await page.waitForTimeout(17_000);
    const gaps = await page.evaluate(
      (seconds) =>
        new Promise<number[]>((done) => {
          const found: number[] = [];
          let last = performance.now();
          const end = last + seconds * 1000;
          const next = (now: number) => {
            found.push(now - last);
            last = now;
            if (now < end) requestAnimationFrame(next);
            else done(found);
          };
          requestAnimationFrame(next);
        }),
      MEASURED,
    );
    const rolled = await page.locator('.paced-figure').first().textContent();
    if (!/[1-9]\d/.test(rolled ?? '')) throw new Error(`The run stands still: ${rolled ?? ''}`);
    const total = gaps.reduce((sum, gap) => sum + gap, 0);
    const sorted = [...gaps].sort((a, b) => a - b);
    return [
      { name: 'frames a second', value: (1000 * gaps.length) / total, unit: '/s', goal: '≥ 55' },
      {
        name: 'the longest wait of a hundred frames',
        value: sorted[Math.floor(sorted.length * 0.99)] ?? 0,
        unit: 'ms',
      },
    ];
  } finally {
    await browser.close();
    await server.close();
  }
};
