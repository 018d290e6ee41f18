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
 * The walk, one profile from first to last. `tap` names buttons or links in their order; one that is not there after
 * three seconds ends the script with an error, so that no picture shows the wrong screen. Without `file` no picture.
 * @type {{ file?: string, label?: string, address?: string, dark?: boolean, tap?: (string | RegExp)[] }[]}
 */
const walk = [
  { file: 'start.png', label: 'First start', address: './' },
  { file: 'decks.png', label: 'Decks', address: './?go=decks' },
];

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
page.setDefaultTimeout(3000);

/** @type {Record<string, string>[]} */
const taken = [];
try {
  for (const { file, label, address, dark, tap } of walk) {
    await page.emulateMedia({ colorScheme: dark === true ? 'dark' : 'light', reducedMotion: 'reduce' });
    if (address !== undefined) await page.goto(new URL(address, server.url).href);
    for (const name of tap ?? []) {
      await page.getByRole('button', { name }).or(page.getByRole('link', { name })).first().tap();
    }
    if (file === undefined) continue;
    await page.waitForTimeout(300);
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
