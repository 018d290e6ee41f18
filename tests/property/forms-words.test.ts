import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { at } from '../../scripts/lib/paths.mjs';
import { areAlike, matchWords } from '../../src/forms/words/match.ts';
import type { Deck, Node, Step } from '../../src/model/deck.ts';

/*
 * Words that are said, over all that is said in the decks that are shipped: what is forgiven is right, and nothing else
 * is. The variants are made here, without the matching.
 */

const stepsBelow = (nodes: readonly Node[]): Step[] =>
  nodes.flatMap((node) =>
    'use' in node
      ? []
      : 'steps' in node || 'lanes' in node
        ? [...(node.steps ? [node.steps] : []), ...(node.lanes ?? [])].flatMap(stepsBelow)
        : [node as Step],
  );

interface Spoken {
  readonly right: string;
  readonly also: readonly string[];
}
const decks = readdirSync(at('decks'))
  .filter((f) => f.endsWith('.deck.json'))
  .map((file) => {
    const deck = JSON.parse(readFileSync(at('decks', file), 'utf8')) as Deck;
    const spoken: Spoken[] = (deck.procedures ?? []).flatMap(({ called, steps }) => [
      ...(called === undefined ? [] : [{ right: called, also: [] }]),
      ...stepsBelow(steps).flatMap(({ say, alsoSay = [] }) =>
        say === undefined ? [] : [{ right: say, also: alsoSay }],
      ),
    ]);
    return { file, spoken };
  })
  .filter(({ spoken }) => spoken.length > 0);

/** What a reader would say that two texts have in common, whatever the matching does. */
const letters = (text: string): string => text.toLowerCase().replaceAll(/[^a-z0-9]/g, '');

const one = fc
  .constantFrom(...decks)
  .chain(({ spoken }) => fc.record({ spoken: fc.constant(spoken), asked: fc.constantFrom(...spoken) }));
const othersOf = (spoken: readonly Spoken[]): string[] => spoken.map(({ right }) => right);

test('there is enough to try', () => {
  expect(decks.flatMap(({ spoken }) => spoken).length).toBeGreaterThan(50);
});

describe('what is forgiven', () => {
  const holds = (said: (text: string, pick: () => number) => string) =>
    fc.assert(
      fc.property(one, fc.infiniteStream(fc.nat()), fc.nat(), ({ spoken, asked }, stream, n) => {
        const wordings = [asked.right, ...asked.also];
        const text = wordings[n % wordings.length] as string;
        const pick = () => stream.next().value as number;
        const given = said(text, pick);
        expect(matchWords(given, asked.right, asked.also, othersOf(spoken)).right, `${given} for ${text}`).toBe(true);
      }),
    );

  test('case, punctuation, spaces and hyphens', () => {
    holds((text, pick) =>
      [...text]
        .map((letter) => {
          if (/[^\p{L}\p{N}]/u.test(letter)) return ['', ' ', '-', ', ', '  ', '. ', '\u00a0', '\u2011'][pick() % 8];
          return pick() % 2 === 0 ? letter.toUpperCase() : letter.toLowerCase();
        })
        .join(''),
    );
  });

  test('accents over any letter', () => {
    holds((text, pick) =>
      [...text]
        .map((letter) => (/[a-z]/i.test(letter) && pick() % 3 === 0 ? `${letter}\u0301` : letter))
        .join('')
        .normalize(pick() % 2 === 0 ? 'NFC' : 'NFD'),
    );
  });

  test('numbers as digits', () => {
    const digits: Record<string, string> = { one: '1', two: '2', zero: '0', 'eighty-five': '85' };
    holds((text) => text.replaceAll(/\b(one|two|zero|eighty-five)\b/gi, (word) => digits[word.toLowerCase()] ?? word));
  });

  test('one letter behind the second in a word of five letters and more, unless that is a word of another', () => {
    let tried = 0;
    fc.assert(
      fc.property(one, fc.nat(), fc.nat(), fc.nat(3), ({ spoken, asked }, i, j, how) => {
        const words = asked.right.split(' ');
        const long = words.flatMap((word, n) => (/^[a-z]{5,}$/i.test(word) ? [n] : []));
        const n = long[i % Math.max(1, long.length)];
        if (n === undefined) return;
        const word = words[n] as string;
        const k = 2 + (j % (word.length - 3));
        const letter = 'qxzj'[j % 4] as string;
        const wrong = [
          word.slice(0, k) + word.slice(k + 1),
          word.slice(0, k) + letter + word.slice(k),
          word.slice(0, k) + letter + word.slice(k + 1),
          word.slice(0, k) + (word[k + 1] as string) + (word[k] as string) + word.slice(k + 2),
        ][how] as string;
        const numbers = /^(seven|eight|three|sixty|forty|fifty)/i;
        const isTaken = spoken.some(({ right }) =>
          right
            .toLowerCase()
            .split(/[^a-z]+/)
            .includes(wrong.toLowerCase()),
        );
        if (isTaken || numbers.test(wrong)) return;
        tried += 1;
        // In small letters: a capital in mid-word would part it in two.
        const given = words.with(n, wrong.toLowerCase()).join(' ');
        expect(matchWords(given, asked.right, asked.also, othersOf(spoken)).right, given).toBe(true);
      }),
      { numRuns: 500 },
    );
    expect(tried).toBeGreaterThan(200);
  });
});

describe('what is wrong', () => {
  test('every other thing that is said in the deck, and which one is told', () => {
    for (const { spoken, file } of decks)
      for (const asked of spoken)
        for (const { right: other } of spoken) {
          const own = [asked.right, ...asked.also].map(letters);
          if (own.includes(letters(other))) continue;
          const matched = matchWords(other, asked.right, asked.also, othersOf(spoken));
          expect(matched.right, `${file}: ${other} for ${asked.right}`).toBe(false);
          expect(letters(matched.other ?? ''), `${file}: ${other} for ${asked.right}`).toBe(letters(other));
        }
  });

  test('a missing word is named, and an extra one', () => {
    fc.assert(
      fc.property(one, fc.nat(), fc.constantFrom('please', 'now', 'a', 'tower', 'x'), ({ spoken, asked }, n, word) => {
        const words = asked.right.split(' ');
        const i = n % (words.length + 1);
        const more = words.toSpliced(i, 0, word).join(' ');
        if (!spoken.some(({ right, also }) => [right, ...also].map(letters).includes(letters(more)))) {
          const matched = matchWords(more, asked.right, [], othersOf(spoken));
          expect(matched.right, more).toBe(false);
          expect(matched.extra.join(' '), more).toContain(word);
          expect(matched.missing, more).toEqual([]);
        }
        if (words.length < 2) return;
        const less = words.toSpliced(n % words.length, 1).join(' ');
        const matched = matchWords(less, asked.right, [], othersOf(spoken));
        expect(matched.right, less).toBe(false);
        expect(matched.missing.length, less).toBeGreaterThan(0);
      }),
      { numRuns: 300 },
    );
  });
});

describe('any text', () => {
  const text = fc.oneof(
    fc.string({ unit: 'grapheme', maxLength: 60 }),
    fc
      .array(fc.constantFrom('one', 'hundred', 'thousand', 'and', 'eighty', '5', 'V', 'ירוק', 'صفر', 'के', 'が', '–'), {
        maxLength: 60,
      })
      .map((words) => words.join(' ')),
  );

  test('is right for itself, and never breaks; what is told of it is a list of its words', () => {
    fc.assert(
      fc.property(text, text, fc.array(text, { maxLength: 4 }), (said, right, others) => {
        expect(matchWords(right, right, [], others).right).toBe(true);
        const matched = matchWords(said, right, [right], others);
        expect(typeof matched.right).toBe('boolean');
        if (matched.right) expect([matched.missing, matched.extra, matched.other]).toEqual([[], [], undefined]);
      }),
    );
  });

  test('two texts are alike where either is right for the other', () => {
    // The second is the first with one sign left out, put in or exchanged, or another one.
    const pair = fc.oneof(
      fc.tuple(text, text),
      fc.tuple(text, fc.nat(), fc.constantFrom('', 'e', 'x', ' ')).map(([one, at, sign]): [string, string] => {
        const i = at % (one.length + 1);
        return [one, one.slice(0, i) + sign + one.slice(i + (at % 2))];
      }),
      fc
        .tuple(
          fc.constantFrom(...decks.flatMap(({ spoken }) => othersOf(spoken))),
          fc.nat(),
          fc.constantFrom('', 'e', 'x'),
        )
        .map(([one, at, sign]): [string, string] => {
          const i = at % (one.length + 1);
          return [one, one.slice(0, i) + sign + one.slice(i + (at % 2))];
        }),
    );
    let alike = 0;
    fc.assert(
      fc.property(pair, ([a, b]) => {
        const either = matchWords(a, b, [], []).right || matchWords(b, a, [], []).right;
        expect(areAlike(a, b), `${a} | ${b}`).toBe(either);
        if (either) alike += 1;
      }),
      { numRuns: 600, seed: 20_261_126 },
    );
    expect(alike).toBeGreaterThan(50);
    expect(alike).toBeLessThan(550);
  });

  test('a callout of forty words and an answer without end are compared to their end', () => {
    const words = [...Array(40).keys()].map((i) => `word${'abcdefghij'[i % 10]}${'klmn'[i % 4]} ${i}`);
    const right = words.join(' ');
    expect(matchWords(right.toUpperCase(), right, [], []).right).toBe(true);
    expect(matchWords(words.toSpliced(20, 1).join(', '), right, [], []).right).toBe(false);
    const matched = matchWords('x '.repeat(100_000), right, [], [right.slice(3), 'x']);
    expect(matched.right).toBe(false);
  });
});
