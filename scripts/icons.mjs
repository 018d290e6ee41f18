// `npm run icons`: draws public/icons/*.png from the two marks beside them, with Chromium. The files are committed;
// run this again only when a mark changes.
import { readFileSync, writeFileSync } from 'node:fs';
import { chromium as playwright } from 'playwright-core';
import { at, chromium } from './lib/paths.mjs';

const folder = 'public/icons';
/** @type {[string, string, number][]} Drawing, file, pixels. */
const wanted = [
  ['mark.svg', 'mark-192.png', 192],
  ['mark.svg', 'mark-512.png', 512],
  ['mark-full.svg', 'mark-full-512.png', 512],
  // iOS rounds the corners itself and shows black where a picture is clear.
  ['mark-full.svg', 'mark-180.png', 180],
];

const browser = await playwright.launch({ executablePath: chromium, args: ['--no-sandbox', '--disable-gpu'] });
for (const [drawing, file, size] of wanted) {
  const page = await browser.newPage({ viewport: { width: size, height: size } });
  const svg = readFileSync(at(folder, drawing), 'utf8');
  const sized = svg.replace('<svg ', `<svg width="${size}" height="${size}" `);
  await page.setContent(`<style>body{margin:0}svg{display:block}</style>${sized}`);
  writeFileSync(at(folder, file), await page.screenshot({ omitBackground: true }));
  await page.close();
}
await browser.close();
