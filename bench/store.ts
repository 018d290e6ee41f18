import { serve } from '../scripts/serve.mjs';
import { launch } from '../tests/helpers/browser.ts';
import { bundle } from '../tests/helpers/bundle.ts';

const ANSWERS = 150;
const BEHIND = 20_000;

interface Told {
  readonly ours: number;
  readonly theirs: number;
  /** ms to read checkpoint and tail, before and after old days were sealed. */
  readonly unsealed: number;
  readonly sealed: number;
  readonly entries: number;
}

/** In Chromium: an answer stored strictly against a bare put in the same run, and what a start reads of a long log. */
export const benchStore = async () => {
  const server = await serve({ dir: 'dist' });
  const script = (body: string) => ({ body, headers: { 'Content-Type': 'text/javascript' } });
  server.served.extra.set('/bench.js', script(await bundle('bench/store-page.ts')));
  server.served.extra.set('/journal.js', script(await bundle('src/journal/journal.worker.ts')));
  const html = '<!doctype html><title>bench</title><script src="bench.js" type="module"></script>';
  server.served.extra.set('/bench.html', { body: html, headers: { 'Content-Type': 'text/html' } });
  const browser = await launch();
  try {
    await browser.page.goto(`${server.url}bench.html`);
    await browser.page.waitForFunction(() => 'measure' in globalThis);
    const told = await browser.page.evaluate(
      ([times, behind]) =>
        (
          globalThis as unknown as {
            measure(times: number, behind: number): Promise<Told>;
          }
        ).measure(times ?? 0, behind ?? 0),
      [ANSWERS, BEHIND],
    );
    return [
      { name: 'bare strict put, median', value: told.theirs, unit: 'ms' },
      { name: 'answer to stored, median', value: told.ours, unit: 'ms' },
      { name: 'ratio', value: told.ours / told.theirs, unit: '×', goal: '≤ 1.3' },
      { name: `checkpoint and tail, ${told.entries} entries behind`, value: told.unsealed, unit: 'ms', goal: '≤ 20' },
      { name: 'the same, old days sealed', value: told.sealed, unit: 'ms', goal: '≤ 20' },
    ];
  } finally {
    await browser.close();
    await server.close();
  }
};
