import { expect, test } from 'vitest';
import { compareDecks } from '../../../src/deck/compare/compare.ts';
import { readValue } from '../../../src/deck/read.ts';
import { resolve } from '../../../src/deck/resolve.ts';
import { apply } from '../../../src/draft/change.ts';
import { forgetMemory, keepMemory, keepsMemory } from '../../../src/draft/keep-memory.ts';
import type { Json } from '../../../src/lib/canonical-json.ts';
import type { Deck } from '../../../src/model/deck.ts';
import { BASE, changed } from '../../fixtures/decks/base.ts';

const draft = changed((d) => {
  d.procedures[0].steps[2].say = 'Hundred knots';
  d.limits[1].unit = 'min';
  d.scenarios[0].asks[0].number = 'cross * 1';
}) as Json;
const deckOf = (value: Json): Deck => readValue(value).deck as Deck;

test('what the comparison says must be kept makes the answers the same, and the old keys go on', () => {
  const found = compareDecks(BASE, deckOf(draft)).differences.filter((d) => d.kind === 'answer' && d.what !== 'rule');
  expect(found.map((d) => d.what)).toEqual(['callout', 'value', 'number']);
  let value = draft;
  for (const { keeps } of found) value = apply(value, keepMemory(value, keeps?.path ?? '', keeps?.stamps ?? []));
  const kinds = compareDecks(BASE, deckOf(value)).differences.map((d) => [d.kind, d.what]);
  expect(kinds).toEqual([
    ['same-answer', 'callout'],
    ['same-answer', 'value'],
    // The rule computes with the limit: it was not said to be the same.
    ['same-answer', 'number'],
    ['answer', 'rule'],
  ]);
  const [before, after] = [BASE as Deck, deckOf(value)].map((deck) => resolve(deck, '0'.repeat(64), { engine: ['a'] }));
  for (const name of ['hundred.words', 'pause.value.standard', 'wind.cross.number']) {
    const key = (of: typeof before) => [...(of?.items.keys() ?? [])].find((k) => k.includes(`#${name}~`)) as string;
    expect(after?.aliases.get(key(before))).toBe(key(after));
    expect(key(after)).not.toBe(key(before));
  }
});

test('kept once, taken back whole, and older words stay', () => {
  const one = { limits: [{ id: 'a', keeps: ['value.standard~old'] }, { id: 'b' }] } as Json;
  const stamps = ['value.standard~x', 'value.standard~y'];
  const kept = apply(one, keepMemory(one, '/limits/0', stamps));
  expect(kept).toEqual({ limits: [{ id: 'a', keeps: ['value.standard~old', ...stamps] }, { id: 'b' }] });
  expect(keepMemory(kept, '/limits/0', stamps)).toEqual([]);
  expect([keepsMemory(one, '/limits/0', stamps), keepsMemory(kept, '/limits/0', stamps)]).toEqual([false, true]);
  expect(apply(kept, forgetMemory(kept, '/limits/0', stamps))).toEqual(one);
  const other = apply(one, keepMemory(one, '/limits/1', stamps));
  expect(apply(other, forgetMemory(other, '/limits/1', stamps))).toEqual(one);
  expect(forgetMemory(one, '/limits/1', stamps)).toEqual([]);
});
