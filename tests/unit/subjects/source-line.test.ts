import { expect, test } from 'vitest';
import type { Deck } from '../../../src/model/deck.ts';
import { sourceLine } from '../../../src/subjects/things.ts';
import { BASE } from '../../fixtures/decks/base.ts';

const DECK: Deck = { ...BASE, sources: [{ id: 'som', title: 'Manual', edition: 'Rev 4', basis: 'invented' }] };

test('a source is said with its own edition, or with the one that the thing was checked against', () => {
  expect(sourceLine(DECK, { source: 'som#3.2' })).toBe('Manual, Rev 4, 3.2');
  expect(sourceLine(DECK, { source: 'som#3.2', edition: 'Rev 3' })).toBe('Manual, Rev 3, 3.2');
});

test('the first that names a source counts, and only the edition beside it', () => {
  expect(sourceLine(DECK, {}, { source: 'som#3', edition: 'Rev 3' })).toBe('Manual, Rev 3, 3');
  expect(sourceLine(DECK, { source: 'som#3.1' }, { source: 'som#3', edition: 'Rev 3' })).toBe('Manual, Rev 4, 3.1');
  expect(sourceLine(DECK, { edition: 'Rev 3' }, {})).toBeNull();
  expect(sourceLine(DECK, { source: 'old#3', edition: 'Rev 3' })).toBe('old#3');
});
