import { serve } from '../scripts/serve.mjs';
import { launch } from '../tests/helpers/browser.ts';
import { bundle } from '../tests/helpers/bundle.ts';

const ENTRIES = 100_000;

interface Told {
  /** JSON.parse of the same lines: what the machine is worth now. */
  readonly parsed: number;
  readonly read: number;
  readonly merged: number;
  readonly again: number;
  /** ms for which the page was held up at most in one go. */
  readonly held: number;
}

/** In Chromium: a log of a hundred thousand answers joined to one of as many, half of them the same. */
export const benchJoining = async () => {
  const server = await serve({ dir: 'dist' });
  const script = (body: string) => ({ body, headers: { 'Content-Type': 'text/javascript' } });
  server.served.extra.set('/bench.js', script(await bundle('bench/joining-page.ts')));
  server.served.extra.set('/check.worker.ts', script(await bundle('src/workers/check.worker.ts')));
  const html = '<!doctype html><title>bench</title><script src="bench.js" type="module"></script>';
  server.served.extra.set('/bench.html', { body: html, headers: { 'Content-Type': 'text/html' } });
  const browser = await launch();
  try {
    await browser.page.goto(`${server.url}bench.html`);
    await browser.page.waitForFunction(() => 'measure' in globalThis);
    const told = await browser.page.evaluate(
      (entries) => (globalThis as unknown as { measure(entries: number): Promise<Told> }).measure(entries),
      ENTRIES,
    );
    return [
      { name: '100,000 lines parsed, for comparison', value: told.parsed, unit: 'ms' },
      { name: 'a copy of 100,000 answers read', value: told.read, unit: 'ms' },
      { name: '100,000 joined to 50,000, half of them here', value: told.merged, unit: 'ms', goal: '≤ 3,000' },
      { name: 'the same once more', value: told.again, unit: 'ms' },
      { name: 'the page held up at most', value: told.held, unit: 'ms' },
    ];
  } finally {
    await browser.close();
    await server.close();
  }
};
