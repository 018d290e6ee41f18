import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { Deck } from '../../../src/model/deck.ts';
import { contentWords } from '../../../src/ui/screens/content-words.ts';

const deckNamed = (name: string): Deck => JSON.parse(readFileSync(`decks/${name}.deck.json`, 'utf8')) as Deck;

test('what a deck holds is counted over all variants, and says so where they differ', () => {
  const merrow = deckNamed('merrow-takeoff');
  const counts = [merrow.procedures, merrow.limits, merrow.scenarios].map((list) => list?.length ?? 0);
  expect(contentWords(merrow)).toBe(
    `${counts[0]} procedures, ${counts[1]} limits, ${counts[2]} scenarios, in all variants together`,
  );
  expect(contentWords(deckNamed('wind-altimetry'))).toMatch(/^0 procedures, \d+ limits?, 19 scenarios$/);
  expect(contentWords({ ...merrow, limits: [], scenarios: [], procedures: merrow.procedures?.slice(0, 1) ?? [] })).toBe(
    '1 procedure, 0 limits, 0 scenarios',
  );
});
