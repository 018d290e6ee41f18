// `npm run icons`: draws public/icons/*.png from the two marks beside them, with Chromium. The files are committed;
// run this again only when a mark changes.
import { readFileSync, writeFileSync } from 'node:fs';
import { chromium as playwright } from 'playwright-core';
import { at, chromium } from './lib/paths.mjs';
import { smallPng } from './lib/small-png.mjs';

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
  const png = (await page.screenshot({ omitBackground: true })).toString('base64');
  const rgba = await page.evaluate(
    async ([source, side]) => {
      const image = new Image();
      image.src = `data:image/png;base64,${source}`;
      await image.decode();
      const canvas = new OffscreenCanvas(Number(side), Number(side)).getContext('2d');
      canvas?.drawImage(image, 0, 0);
      return Array.from(canvas?.getImageData(0, 0, Number(side), Number(side)).data ?? []);
    },
    [png, size],
  );
  writeFileSync(at(folder, file), smallPng(size, Uint8Array.from(rgba)));
  await page.close();
}
await browser.close();
