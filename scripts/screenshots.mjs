// `npm run screenshots`: takes pictures of the built app, as large as a phone, into public/screenshots, and names them
// in the manifest. They show a fictional deck; run this again when the screens change, and look at the result.
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium as playwright } from 'playwright-core';
import { builtDist } from './lib/dist.mjs';
import { at, chromium } from './lib/paths.mjs';
import { serve } from './serve.mjs';

/**
 * The walk, one profile from first to last. `tap` names buttons or links in their order, `tick` labels of boxes, `fill`
 * a field's label and its text, `number` the first rows of a run; what is not there after eight seconds ends the script
 * with an error, so that no picture shows the wrong screen. Without `file` no picture.
 * @type {{ file?: string, label?: string, dark?: boolean, tap?: (string | RegExp)[], tick?: RegExp[], fill?: [string, string], number?: number }[]}
 */
const walk = [
  { file: 'start.png', label: 'First start' },
  { tap: ['I have read this', /take-off and initial/, 'Install'] },
  { tick: [/TK-11/, /Calder/], tap: ['Go on'] },
  { fill: ['Check date', soon(12)], tap: [/^Begin/] },
  { file: 'reading.png', label: 'Steps to read before they are asked' },
  { tap: [/ask me/], number: 3, file: 'question.png', label: 'Steps put in order' },
  { tap: ["Don't know"], file: 'verdict.png', label: 'The verdict, with reasons' },
  { tap: ['Leave'], file: 'brief.png', label: 'The Brief: how far off the check is' },
  { file: 'brief-dark.png', label: 'The Brief, dark', dark: true },
];

/** ISO date so many days from now. */
function soon(/** @type {number} */ days) {
  return new Date(Date.now() + days * 86_400_000).toISOString().slice(0, 10);
}

const folder = at('public/screenshots');
mkdirSync(folder, { recursive: true });
const profile = mkdtempSync(join(tmpdir(), 'recency-screenshots-'));
const server = await serve({ dir: await builtDist() });
const context = await playwright.launchPersistentContext(profile, {
  executablePath: chromium,
  args: ['--no-sandbox', '--disable-gpu', '--no-first-run', '--disable-background-networking'],
  viewport: { width: 360, height: 740 },
  deviceScaleFactor: 2,
  hasTouch: true,
  isMobile: true,
});
const page = context.pages()[0] ?? (await context.newPage());
page.setDefaultTimeout(8000);

/** @type {Record<string, string>[]} */
const taken = [];
try {
  await page.goto(server.url);
  await page.getByRole('button').first().waitFor();
  for (const { file, label, dark, tap, tick, fill, number } of walk) {
    await page.emulateMedia({ colorScheme: dark === true ? 'dark' : 'light', reducedMotion: 'reduce' });
    for (const name of tick ?? []) await page.getByLabel(name).first().check();
    if (fill !== undefined) await page.getByLabel(fill[0]).fill(fill[1]);
    for (const name of tap ?? []) {
      await page.getByRole('button', { name }).or(page.getByRole('link', { name })).first().tap();
    }
    for (let row = 0; row < (number ?? 0); row++) await page.locator('.run-row').nth(row).tap();
    if (file === undefined) continue;
    await page.waitForTimeout(600);
    await page.screenshot({ path: join(folder, file) });
    taken.push({
      src: `screenshots/${file}`,
      sizes: '720x1480',
      type: 'image/png',
      form_factor: 'narrow',
      label: label ?? file,
    });
    console.log(`public/screenshots/${file}`);
  }
} finally {
  await context.close();
  await server.close();
  rmSync(profile, { recursive: true, force: true });
}

const manifestFile = at('public/manifest.webmanifest');
const manifest = JSON.parse(readFileSync(manifestFile, 'utf8'));
manifest.screenshots = taken;
writeFileSync(manifestFile, `${JSON.stringify(manifest, null, 2)}\n`);
