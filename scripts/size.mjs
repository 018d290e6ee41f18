// `npm run size`: gzip sizes of what was built, against their budgets. Ends with 1 when one is over.
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import { at } from './lib/paths.mjs';

const dist = at('dist');
if (!existsSync(at('dist/build.json'))) {
  console.error('size: nothing is built yet; run npm run build first.');
  process.exit(2);
}
/** @type {import('./vite-precache.ts').BuildReport} */
const build = JSON.parse(readFileSync(at('dist/build.json'), 'utf8'));
const files = readdirSync(dist, { recursive: true, encoding: 'utf8' });

const gzipped = (/** @type {string} */ name) => gzipSync(readFileSync(`${dist}/${name}`), { level: 9 }).length;

/** kB are 1000 bytes. @type {[string, readonly string[], number][]} */
const budgets = [
  ['start JavaScript', build.start, 45],
  // What the first screen waits for; then all of it, with forms and screens that are loaded when they are drawn.
  ['start CSS', build.first.filter((name) => name.endsWith('.css')), 8],
  ['CSS in all', files.filter((name) => name.endsWith('.css')), 16],
  ['service worker', ['sw.js'], 8],
  // What a first visit loads before it works offline; the worker itself is loaded too.
  ['first list', [...build.first, 'sw.js'], 120],
  ['rest', build.rest, 365],
  // Loaded and kept only where it is opened.
  ['for instructors', build.workshop, 195],
];

let over = 0;
for (const [label, names, most] of budgets) {
  const size = names.reduce((sum, name) => sum + gzipped(name), 0) / 1000;
  const verdict = size > most ? 'OVER' : 'ok';
  if (size > most) over += 1;
  console.log(`${label.padEnd(18)}${size.toFixed(1).padStart(7)} kB of ${String(most).padStart(3)}  ${verdict}`);
}
process.exitCode = over === 0 ? 0 : 1;
