import { readFileSync } from 'node:fs';
import { serve } from '../scripts/serve.mjs';
import { resolve } from '../src/deck/resolve.ts';
import type { Deck } from '../src/model/deck.ts';
import { launch } from '../tests/helpers/browser.ts';
import { bundle } from '../tests/helpers/bundle.ts';
import type { Times } from './workshop-page.ts';

interface Line {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  readonly goal?: string;
}

const RUNS = 15;

// biome-ignore lint/suspicious/noExplicitAny: places of one known deck
type Loose = any;

/** What an author types, one key after another. */
const CHANGES: readonly (readonly [string, (deck: Loose, run: number) => void])[] = [
  [
    'a word of a step',
    (d, run) => {
      d.procedures[0].steps[0].why = `Because ${run}`;
    },
  ],
  [
    'a limit that rules hold the wind against',
    (d, run) => {
      d.limits.find((l: Loose) => l.id === 'stick-full-crosswind').value = 15 + run / 10;
    },
  ],
  [
    'a requirement of the longest scenario',
    (d, run) => {
      const scenario = d.scenarios.find((s: Loose) => s.id === 'wind-limits');
      scenario.require = [...(scenario.require ?? []), `${run} > 0`];
    },
  ],
];

const median = (list: readonly number[]): number => [...list].sort((a, b) => a - b)[list.length >> 1] ?? Number.NaN;

/** Findings of a draft of some 340 items, in Chromium with the checker in its worker. */
export const benchWorkshop = async (): Promise<Line[]> => {
  const deck = JSON.parse(readFileSync('decks/merrow-takeoff.deck.json', 'utf8')) as Deck;
  const every = Object.fromEntries((deck.variants ?? []).map((a) => [a.id, Object.keys(a.options)]));
  const items = resolve(deck, '0'.repeat(64), every).items.size;
  const server = await serve({ dir: 'dist' });
  const script = { 'Content-Type': 'text/javascript' };
  server.served.extra.set('/workshop.js', { body: await bundle('src/workers/workshop.worker.ts'), headers: script });
  server.served.extra.set('/page.js', { body: await bundle('bench/workshop-page.ts'), headers: script });
  const html = '<!doctype html><title>bench</title><script src="./page.js"></script>';
  server.served.extra.set('/bench.html', { body: html, headers: { 'Content-Type': 'text/html' } });
  const browser = await launch();
  try {
    await browser.page.goto(`${server.url}bench.html`);
    const check = (value: Loose): Promise<Times> =>
      browser.page.evaluate((sent) => (globalThis as Loose).check(sent) as Promise<Times>, value);
    const unit = 'ms';
    const opened = await check(deck);
    const lines: Line[] = [
      { name: `draft of ${items} items opened: first findings`, value: opened.first, unit },
      { name: 'the same: all findings', value: opened.all, unit },
    ];
    for (const [name, change] of CHANGES) {
      const times: Times[] = [];
      for (let run = 1; run <= RUNS; run++) {
        const draft = structuredClone(deck);
        change(draft, run);
        times.push(await check(draft));
      }
      lines.push(
        {
          name: `${name} typed: first findings, median`,
          value: median(times.map((t) => t.first)),
          unit,
          goal: '≤ 100',
        },
        { name: 'the same: slowest', value: Math.max(...times.map((t) => t.first)), unit },
        { name: 'the same: all findings, median', value: median(times.map((t) => t.all)), unit },
      );
    }
    return lines;
  } finally {
    await browser.close();
    await server.close();
  }
};
