import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { markedWords, type Run } from '../../../../src/deck/compare/marked.ts';

const bracketed = (runs: readonly Run[]): string => runs.map((r) => (r.changed ? `[${r.text}]` : r.text)).join('');
const both = (old: string, now: string): string[] => {
  const marked = markedWords(old, now);
  return [bracketed(marked.old), bracketed(marked.now)];
};

describe('words that differ are marked', () => {
  test.each([
    ['at least 200 ft AAL', 'at least 400 ft AAL', 'at least[ 200] ft AAL', 'at least[ 400] ft AAL'],
    ['after X, before Y', 'after Z, before Y', 'after[ X,] before Y', 'after[ Z,] before Y'],
    ['Gear up', 'Gear up now', 'Gear up', 'Gear up[ now]'],
    ['', 'new', '', '[new]'],
    ['same', 'same', 'same', 'same'],
    ['80\u00a0kt', '90\u00a0kt', '[80]\u00a0kt', '[90]\u00a0kt'],
  ])('%s → %s', (old, now, left, right) => {
    expect(both(old, now)).toEqual([left, right]);
  });
});

test('nothing of a text is lost, and what is not marked is the same in both', () => {
  const text = fc
    .array(fc.constantFrom('a', 'b', 'c', ' ', '  ', '\u00a0', 'd.'), { maxLength: 20 })
    .map((x) => x.join(''));
  fc.assert(
    fc.property(text, text, (old, now) => {
      const marked = markedWords(old, now);
      const whole = (runs: readonly Run[]) => runs.map((r) => r.text).join('');
      expect(whole(marked.old)).toBe(old);
      expect(whole(marked.now)).toBe(now);
      const kept = (runs: readonly Run[]) =>
        runs.filter((r) => !r.changed).flatMap((r) => r.text.split(/\s+/).filter((w) => w !== ''));
      expect(kept(marked.old)).toEqual(kept(marked.now));
    }),
  );
});

test('very long texts are marked whole', () => {
  const long = 'word '.repeat(500).trim();
  expect(markedWords(long, 'word').old).toEqual([{ text: long, changed: true }]);
});
