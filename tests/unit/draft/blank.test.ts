import { expect, test } from 'vitest';
import { blankDeck, blankLimit, blankProcedure, blankScenario } from '../../../src/draft/blank.ts';
import { apply, put, valueAt } from '../../../src/draft/change.ts';
import type { Json } from '../../../src/lib/canonical-json.ts';

const two: Json = [
  { id: 'manual', title: 'Manual', basis: 'operator' },
  { id: 'rules', title: 'Rules', basis: 'published' },
];
const deckWith = (list: string, things: Json, sources: Json = two): Json => {
  const blank = blankDeck('2026-11-26');
  return apply(blank, [put(blank, '/sources', sources), put(blank, list, things)]);
};

test.each([
  ['/procedures', blankProcedure],
  ['/limits', blankLimit],
  ['/scenarios', blankScenario],
] as const)('what is new in %s stands in the source of the one before it, or in the only one', (list, blank) => {
  const source = (doc: Json) => valueAt(blank(doc), '/source');
  expect(
    source(
      deckWith(list, [
        { id: 'a', source: 'manual#1' },
        { id: 'b', source: 'rules#3.2' },
      ]),
    ),
  ).toBe('rules');
  expect(source(deckWith(list, [{ id: 'a', source: 'rules' }, { id: 'b' }]))).toBeUndefined();
  expect(source(deckWith(list, []))).toBeUndefined();
  expect(source(deckWith(list, [], (two as readonly Json[]).slice(0, 1)))).toBe('manual');
});
