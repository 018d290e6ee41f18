import { expect, test } from 'vitest';
import { ownSources } from '../../../src/report/own-sources.ts';
import { resolvedDeck } from '../drill/practice.ts';

const named = (...operator: string[]) =>
  ownSources(resolvedDeck('merrow-takeoff', { engine: ['tk11'], operator })).map(({ id }) => id);

test('of several operators the manual of the one that is flown, and what is common to all', () => {
  expect(named('calder')).toEqual(['crew', 'calder']);
  expect(named('fellwater')).toEqual(['crew', 'fellwater']);
  expect(named('calder', 'fellwater')).toEqual(['crew', 'calder', 'fellwater']);
  expect(named()).toEqual(['crew']);
});

test('a source that nothing cites is about all of the deck', () => {
  const resolved = resolvedDeck('merrow-takeoff', { engine: ['tk11'], operator: ['calder'] });
  const general = { id: 'general', title: 'General', basis: 'invented' } as const;
  const deck = { ...resolved.deck, sources: [...resolved.deck.sources, general] };
  expect(ownSources({ ...resolved, deck }).map(({ id }) => id)).toEqual(['crew', 'calder', 'general']);
});
