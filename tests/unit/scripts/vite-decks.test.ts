import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { readDecks } from '../../../scripts/vite-decks.ts';
import { contentId } from '../../../src/exchange/content-id.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'recency-decks-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const put = (name: string, text: string) => writeFileSync(join(folder, name), text);

test('decks are shipped without white space, with a listing in order of their names', async () => {
  const b = '{"id":"us/b","version":"1.0.0","title":"Bö"}';
  put('b.deck.json', `${b.replaceAll(',', ',\n  ')}\n`);
  const a = '{"id":"us/a","version":"2.1.0","title":"A"}';
  put('a.deck.json', a);
  put('notes.json', 'no deck');
  const decks = readDecks(folder);
  expect([...decks.keys()]).toEqual(['a.deck.json', 'b.deck.json', 'index.json']);
  expect(decks.get('b.deck.json')).toBe(b);
  expect(JSON.parse(decks.get('index.json') ?? '')).toEqual([
    { file: 'a.deck.json', id: 'us/a', version: '2.1.0', title: 'A', bytes: 43, contentId: await contentId(a) },
    { file: 'b.deck.json', id: 'us/b', version: '1.0.0', title: 'Bö', bytes: 45, contentId: await contentId(b) },
  ]);
});

test.each([
  ['not JSON', '{', /decks\/bad\.deck\.json: /],
  ['no version', '{"id":"x/y","title":"T"}', /decks\/bad\.deck\.json: id, version and title/],
])('a build stops at a deck that is %s, and names it', (_what, text, message) => {
  put('bad.deck.json', text);
  expect(() => readDecks(folder)).toThrow(message);
});
