import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { checkDeck } from '../../src/deck/check.ts';
import { apply, keysOf, valueAt } from '../../src/draft/change.ts';
import { rename } from '../../src/draft/rename.ts';
import type { Json } from '../../src/lib/canonical-json.ts';
import type { Deck } from '../../src/model/deck.ts';

const folder = new URL('../../decks/', import.meta.url);
const decks = readdirSync(folder).filter((name) => name.endsWith('.deck.json'));
const deckNamed = (name: string): Json => JSON.parse(readFileSync(new URL(name, folder), 'utf8')) as Json;

const RECORDS = new Set(['options', 'draw', 'let']);

/** An area of the plan is named by its label. */
const isArea = (path: string): boolean => /^\/areas\/\d+\/label$/.test(path);

/** Pointers of all that has a name which the author gave. */
const namesOf = (value: Json | undefined, path = ''): string[] => {
  if (typeof value !== 'object' || value === null) return [];
  const holder = keysOf(path).at(-1) ?? '';
  const record = RECORDS.has(holder) || (holder === 'oneOf' && !Array.isArray(value));
  return Object.entries(value).flatMap(([key, one]) => {
    const place = `${path}/${key}`;
    // The id of the deck is not one of its things.
    const own = (record && !FIXED.has(key)) || (key === 'id' && path !== '') || isArea(place) ? [place] : [];
    return [...own, ...namesOf(one as Json, place)];
  });
};

/** Gives each a new name. A renamed member of a record moves those within. */
const renamedAll = (doc: Json, to: (name: string) => string): Json => {
  let now = doc;
  // From the end: names within what is itself renamed come first.
  for (const path of namesOf(doc).reverse()) {
    const key = keysOf(path).at(-1) ?? '';
    const name = key === 'id' || isArea(path) ? String(valueAt(now, path)) : key;
    now = apply(now, rename(now, path, to(name)));
  }
  return now;
};

const errors = (doc: Json): string[] =>
  checkDeck(doc as unknown as Deck, { today: '2026-11-25' })
    .filter(({ severity }) => severity === 'error')
    .map(({ code, path }) => `${code} ${path}`);

/** The picture of runway and wind knows its values by these names. */
const FIXED = new Set(['runway', 'windDir', 'windSpeed']);

describe('other names for all that has one', () => {
  test.each(decks)('all names of %s: what refers to them follows, and back again', (name) => {
    const doc = deckNamed(name);
    const other = renamedAll(doc, (one) => `${one}x`);
    expect(JSON.stringify(other)).not.toBe(JSON.stringify(doc));
    expect(errors(other)).toEqual([]);
    expect(JSON.stringify(renamedAll(other, (one) => one.replace(/x$/, '')))).toBe(JSON.stringify(doc));
  });
});
