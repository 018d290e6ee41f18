import { expect, test } from 'vitest';
import { joined } from '../../../src/ui/models/joined.ts';

const deck = (signatures: readonly string[], title = 'T') => JSON.stringify({ title, signatures });
const of = (text: string) => (JSON.parse(text) as { readonly signatures: readonly string[] }).signatures;

test('those that are here stand first, each once, at most eight', () => {
  expect(of(joined(deck(['a', 'b']), deck(['c', 'b'])))).toEqual(['a', 'b', 'c']);
  expect(of(joined(deck(['a', 'b', 'c', 'd', 'e']), deck(['f', 'g', 'h', 'i', 'j'])))).toEqual([...'abcdefgh']);
  expect(of(joined(deck(['a']), '{"title":"T"}'))).toEqual(['a']);
});

test('a text that has all of them stays as it is, and so does one beside what cannot be read', () => {
  const next = deck(['b', 'a']);
  for (const before of [deck(['a']), '{"title":"T"}', 'no JSON', 'null', '{"signatures":1}'])
    expect(joined(before, next)).toBe(next);
  expect(joined(deck(['a']), 'no JSON')).toBe('no JSON');
});
