import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { at } from '../../scripts/lib/paths.mjs';
import { type Source, sources } from './sources.ts';

/** The scheduling library's own words; here a verdict is missed, unsure, sound or fluent, and nobody rates themselves. */
const LIBRARY: readonly RegExp[] = [
  /\b(?:Rating|Grade)\.\w/,
  /\bState\.(?:New|Learning|Review|Relearning)\b/,
  /(['"`>])\s*(?:again|hard|good|easy)\s*(?:\1|<)/i,
  /\b(?:re-?learning|lapses?)\b/i,
];

/** Words of other programs for what job and screens here call by the names of the trade. */
const OTHERS: readonly RegExp[] = [
  /\bflash[ -]?cards?\b/i,
  /\bstreaks?\b/i,
  /\bleech(?:es)?\b/i,
  /\bease factors?\b/i,
  /\bself-rat(?:ed|ing)\b/i,
  /\bretention target\b/i,
];

/** What no file of the repository may name. */
const NOWHERE: readonly RegExp[] = [
  /(?<![\w./*])\/(?:work|root|home|tmp|Users)\//,
  /\b[A-Z]:\\\\?Users\b/,
  /\bregistry\.[a-z]+\.(?:org|com|dev|io)\b|\b(?:artifactory|nexus|verdaccio)\b/i,
  /\bissues show\b|\bseed document\b/i,
];

const complaints = (files: readonly Source[], words: readonly RegExp[]): string[] =>
  files.flatMap(({ path, text }) =>
    text.split('\n').flatMap((line, index) => {
      const found = words.map((word) => word.exec(line)?.[0]).find((match) => match !== undefined);
      return found === undefined ? [] : [`${path}:${index + 1} says ${found}`];
    }),
  );

const all = sources();
// This folder must name what it forbids.
const others = all.filter(({ path }) => !path.startsWith('tests/arch/'));
/** What ships, and the documents. */
const shown = others.filter(({ path }) => /^(src|decks|public|shared)\/|^[^/]*\.(html|md)$/.test(path));

test('words of the scheduling library stay in src/memory', () => {
  expect(shown.length).toBeGreaterThan(10);
  expect(
    complaints(
      shown.filter(({ path }) => !path.startsWith('src/memory/')),
      LIBRARY,
    ),
  ).toEqual([]);
});

test('words of other programs are nowhere in what ships', () => {
  expect(complaints(shown, OTHERS)).toEqual([]);
});

test('no file names a path of a machine, a package registry or what this was made with', () => {
  expect(complaints(others, NOWHERE)).toEqual([]);
});

test('package-lock.json says no address from which packages came, and no .npmrc does', () => {
  expect(readFileSync(at('package-lock.json'), 'utf8')).not.toMatch(/"resolved"/);
  expect(readdirSync(at('.'))).not.toContain('.npmrc');
});

test.each([
  ['grade(Rating.Good)', LIBRARY],
  ["const label = 'Again';", LIBRARY],
  ['<button>Hard</button>', LIBRARY],
  ['State.Relearning', LIBRARY],
  ['your flash card', OTHERS],
  ['a 7-day streak', OTHERS],
  ['read /work/main/src', NOWHERE],
  ["at '/home/someone/x'", NOWHERE],
  ['https://registry.example.com/x'.replace('example', 'npmjs'), NOWHERE],
])('a complaint about %s', (text, words) => {
  expect(complaints([{ path: 'a', text }], words)).toHaveLength(1);
});

test.each([
  ['a hard landing, and again a good one', LIBRARY],
  ['the streaming file', OTHERS],
  ['src/work/x.ts and frame/work/', NOWHERE],
])('none about %s', (text, words) => {
  expect(complaints([{ path: 'a', text }], words)).toEqual([]);
});
