import { describe, expect, test } from 'vitest';
import { isCanonical, type Json } from '../../../src/lib/canonical-json.ts';
import { toLine } from '../../../src/log/line.ts';
import { unionOf } from '../../../src/log/union.ts';
import type { Entry } from '../../../src/model/entry.ts';
import { join } from '../../../src/workers/joining.ts';

const DAY = 86_400_000;
const AT = Date.parse('2026-11-25T10:00:00Z');

const answer = (id: string, days: number): string =>
  toLine({
    v: 1,
    id,
    app: 'test',
    k: 'answer',
    at: AT + days * DAY,
    off: 0,
    deck: 'a/b@0123456789abcdef',
    form: 'limit',
    about: { thing: 't' },
    variant: '',
    shown: { id: 'chip' },
    given: null,
    sure: true,
    ms: 1,
    marks: {},
    g: 0,
    mv: 1,
  } as Entry);
const setting = (id: string, days: number): string =>
  toLine({ v: 1, id, app: 'test', k: 'set', key: 'x', value: 1, at: AT + days * DAY, off: 0 } as Entry);
const text = (...lines: string[]) => lines.join('\n');

describe('what came in', () => {
  test('answers and their study days are counted apart from other entries; lines come by day and id', () => {
    const incoming = text(answer('b.2', 2), setting('b.1', 1), answer('b.3', 2), answer('b.4', 1), answer('a.1', 0));
    expect(unionOf({ here: answer('a.1', 0), incoming })).toEqual({
      renamed: [],
      first: [],
      rest: [setting('b.1', 1), answer('b.4', 1), answer('b.2', 2), answer('b.3', 2)],
      writers: ['b'],
      at: AT + 2 * DAY,
      doubled: 1,
      clashes: 0,
      unknown: 0,
      answers: 3,
      days: 2,
    });
  });
  test('an answer that only took a longer id is not counted as new', () => {
    const [one, other] = [answer('a.1', 0), answer('a.1', 1)];
    for (const [here, incoming] of [
      [one, other],
      [other, one],
    ] as const) {
      const union = unionOf({ here, incoming });
      expect(union).toMatchObject({ answers: 1, days: 1, clashes: 1, doubled: 0 });
      expect(union.first.length + union.rest.length - union.renamed.length).toBe(1);
    }
  });
  test('of nothing, and of kinds that are not known', () => {
    expect(unionOf({ here: '', incoming: '' })).toMatchObject({ rest: [], answers: 0, days: 0, at: 0 });
    const newer = '{"app":"9","at":1,"id":"z.1","k":"hunch","off":0,"v":2}';
    expect(unionOf({ here: '', incoming: newer })).toMatchObject({ rest: [newer], unknown: 1, answers: 0 });
    expect(() => unionOf({ here: '', incoming: 'x' })).toThrow(RangeError);
  });
  test('a worker tells of each thousand lines, up to all', async () => {
    const lines = Array.from({ length: 3000 }, (_, n) => setting(`b.${n + 1}`, 0));
    const told: number[] = [];
    await join({ k: 'union', input: { here: '', incoming: text(...lines) } }, (share) => told.push(share));
    expect(told).toEqual([1 / 3, 2 / 3, 1]);
    const read = await join({ k: 'read', text: text(...lines) }, (share) => told.push(share));
    expect(read).toMatchObject({ lines: text(...lines), badLines: 0 });
    expect(told.length).toBeGreaterThan(4);
  });
});

test.each([
  ['{"a":1,"b":[{"c":null}]}', true],
  ['{"b":1,"a":2}', false],
  ['[{"b":1,"a":2}]', false],
  ['{"a": 1}', false],
  ['{"a":1.0}', false],
  ['{"a":1e2}', false],
  ['{"a":"\\u0041"}', false],
  ['{"9":1,"10":2}', false],
])('canonical or not: %s', (line, is) => {
  expect(isCanonical(line, JSON.parse(line) as Json)).toBe(is);
});
