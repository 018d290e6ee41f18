import type { CDPSession, Page } from 'playwright-core';
import { serve } from '../scripts/serve.mjs';
import { answer, firstMinutes, MERROW, press, shown } from '../tests/helpers/app.ts';
import { launch } from '../tests/helpers/browser.ts';
import { traceOf } from './trace.ts';

/** So many times slower than this machine: about a cheap phone beside a desktop. */
const SLOWER = 4;
/** Rows numbered in each run. */
const ROWS = 4;

const TAPPED = 'bench-tapped';
const SEEN = 'bench-seen';

interface Seen {
  /** By the page's clock. */
  readonly ms: number;
  /** What the page's thread did for it, without the time that other programs took from it. */
  readonly thread: number;
  readonly frames: number;
}

/**
 * From the finger leaving the glass to the drawing that shows what it did: by the page's own clock, from the time stamp
 * of the event to behind the frame in which `sign` is met, ms; and which frame after the tap that was, from 1.
 * @param sign a selector that is met once the effect is there
 */
const untilSeen = async (page: Page, devtools: CDPSession, target: string, sign: string): Promise<Seen> => {
  const at = await page.evaluate(
    ([wanted, effect, tapped, seenAt]) => {
      const one = [...document.querySelectorAll('button')].find(
        (button) =>
          !button.disabled &&
          (wanted?.startsWith('[') ? button.matches(wanted) : button.textContent?.trim() === wanted),
      );
      if (one === undefined) throw new Error(`nothing to tap: ${wanted}`);
      one.scrollIntoView({ block: 'nearest' });
      const seen = new Promise<{ ms: number; frames: number }>((done) => {
        addEventListener(
          'click',
          ({ timeStamp }) => {
            performance.mark(tapped ?? '');
            let frames = 0;
            const look = () => {
              frames += 1;
              if (document.querySelector(effect ?? '') === null) return void requestAnimationFrame(look);
              // Behind the drawing of this frame.
              const { port1, port2 } = new MessageChannel();
              port1.onmessage = () => {
                performance.mark(seenAt ?? '');
                done({ ms: performance.now() - timeStamp, frames });
              };
              port2.postMessage(null);
            };
            requestAnimationFrame(look);
          },
          { capture: true, once: true },
        );
      });
      Object.assign(window, { seen });
      const { left, top, width, height } = one.getBoundingClientRect();
      return { x: left + width / 2, y: top + height / 2 };
    },
    [target, sign, TAPPED, SEEN],
  );
  let seen = { ms: 0, frames: 0 };
  const { tasks, at: marked } = await traceOf(
    devtools,
    async () => {
      await devtools.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: [at] });
      await devtools.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
      seen = await page.evaluate(() => (window as unknown as { seen: Promise<typeof seen> }).seen);
    },
    SEEN,
  );
  const [from, to] = [marked(TAPPED), marked(SEEN)];
  const done = tasks.filter(({ ts, dur = 0 }) => ts + dur > from && ts < to);
  return { ...seen, thread: done.reduce((sum, { tdur = 0 }) => sum + tdur / 1000, 0) };
};

const median = (all: readonly number[]): number => [...all].sort((a, b) => a - b)[Math.floor(all.length / 2)] ?? 0;
const linesOf = (name: string, all: readonly Seen[], goal?: string) => [
  { name: `${name}, median of ${all.length}`, value: median(all.map(({ thread }) => thread)), unit: 'ms', goal },
  { name: `${name}, most`, value: Math.max(...all.map(({ thread }) => thread)), unit: 'ms' },
  // Longer where other programs run beside it.
  { name: `${name}, by the clock, median`, value: median(all.map(({ ms }) => ms)), unit: 'ms' },
];

/** How soon a tap is answered by the screen in a drill, with a slowed processor: a number, a verdict, the next question. */
export const benchOneHand = async () => {
  const server = await serve({ dir: 'dist' });
  const browser = await launch();
  const { page } = browser;
  try {
    await page.goto(server.url);
    await firstMinutes(page, MERROW);
    await press(page, /ask me/);
    // Code is loaded and compiled as it is in any drill but the first.
    await answer(page, "Don't know");
    await press(page, 'Next');
    const devtools = await browser.context.newCDPSession(page);
    await devtools.send('Emulation.setCPUThrottlingRate', { rate: SLOWER });
    const [numbers, verdicts, nexts]: [Seen[], Seen[], Seen[]] = [[], [], []];
    while (nexts.length < 20) {
      const put = await shown(page);
      if (put === 'debrief') break;
      if (put === 'read') {
        await press(page, /ask me/);
        continue;
      }
      for (let row = 0; put === 'run' && row < ROWS; row++) {
        const step = await page.locator('[data-step]').nth(row).getAttribute('data-step');
        const one = `[data-step="${step}"] .run-row`;
        numbers.push(await untilSeen(page, devtools, one, `${one}[aria-pressed=true]`));
      }
      verdicts.push(await untilSeen(page, devtools, "Don't know", '.fate'));
      await page.getByRole('button', { name: 'Next', exact: true, disabled: false }).waitFor();
      // What is read first, or the next question.
      nexts.push(await untilSeen(page, devtools, 'Next', 'main:not(:has(.fate)) :is(.asked, .walk), .debrief'));
    }
    return [
      {
        name: 'a number in the margin: in frame',
        value: median(numbers.map(({ frames }) => frames)),
        unit: '',
        goal: 1,
      },
      ...linesOf('a number in the margin', numbers),
      ...linesOf('the verdict', verdicts, '≤ 100'),
      ...linesOf('the next question', nexts, '≤ 100'),
    ];
  } finally {
    await browser.close();
    await server.close();
  }
};
