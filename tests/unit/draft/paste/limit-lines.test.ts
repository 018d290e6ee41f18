import { describe, expect, test } from 'vitest';
import { apply, valueAt } from '../../../../src/draft/change.ts';
import { addLimits, readLimitLines } from '../../../../src/draft/paste/limit-lines.ts';
import type { Json } from '../../../../src/lib/canonical-json.ts';
import { takenWords } from '../../../../src/ui/workshop/pages/limit-words.ts';

// All numbers are invented.
const lines = (count: number, ask = 'Speed') => Array.from({ length: count }, (_, i) => `${ask}: at most ${i + 1} kt`);
const DOC: Json = { sources: [{ id: 'book' }], limits: [{ id: 'speed', ask: 'Speed', source: 'book#4' }] };

describe('limit after limit, a line each', () => {
  test('what cannot be read stays, empty lines do not', () => {
    const read = readLimitLines('Speed: at most 10 kt\r\n\r\nLow\n  \nHeight: 200 ft\n');
    expect(read.limits.map(({ ask }) => ask)).toEqual(['Speed', 'Height']);
    expect(read).toMatchObject({ left: ['Low'], unread: 1, long: 0, waiting: 0 });
    expect(takenWords(read)).toBe(
      '2 limits added. 1 line could not be read: a question, a colon, the value and its unit.',
    );
  });

  test('500 are taken at a time; the rest stays in its order, with words that say so', () => {
    const all = ['Low', ...lines(1_200)];
    const first = readLimitLines(all.join('\n'));
    expect(first.limits.map(({ value }) => value)).toEqual(Array.from({ length: 500 }, (_, i) => i + 1));
    expect(first.left).toEqual(['Low', ...all.slice(501)]);
    expect(takenWords(first)).toBe(
      '500 limits added. 700 lines not read yet: 500 are added at a time. Press “Add them” again. ' +
        '1 line could not be read: a question, a colon, the value and its unit.',
    );
    const second = readLimitLines(first.left.join('\n'));
    const third = readLimitLines(second.left.join('\n'));
    expect([second.limits.length, third.limits.length, third.left]).toEqual([500, 200, ['Low']]);
  });

  test('one long line is told apart', () => {
    const read = readLimitLines(`${'": 1"'.repeat(10_000)}\nSpeed: 10 kt`);
    expect(read).toMatchObject({ unread: 1, long: 1, waiting: 0 });
    expect(takenWords(read)).toContain('1 line of more than 1000 letters: write one limit a line.');
  });
});

describe('added to a draft', () => {
  test('each has a name of its own, and stands behind those that were there', () => {
    const { limits } = readLimitLines([...lines(2), ...lines(1, 'Height')].join('\n'));
    const now = apply(DOC, addLimits(DOC, limits)) as { limits: { id: string; source: string }[] };
    expect(now.limits.map(({ id }) => id)).toEqual(['speed', 'speed-2', 'speed-3', 'height']);
    expect(now.limits.slice(1).map(({ source }) => source)).toEqual(['book', 'book', 'book']);
  });

  test('a draft without any has a list then', () => {
    const { limits } = readLimitLines('Speed: 10 kt');
    expect(valueAt(apply({}, addLimits({}, limits)), '/limits/0')).toMatchObject({ id: 'speed', value: 10 });
  });

  test('the draft is read once for all of them', () => {
    let reads = 0;
    // Names of the draft are looked for in every member of it.
    const doc = { sources: [], limits: [] } as { [key: string]: Json };
    Object.defineProperty(doc, 'watched', {
      enumerable: true,
      get: () => {
        reads += 1;
        return null;
      },
    });
    const changes = addLimits(doc, readLimitLines(lines(500).join('\n')).limits);
    expect(changes).toHaveLength(500);
    expect(reads).toBe(1);
  });
});
