import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { suspectClock } from '../../../src/log/clock.ts';
import { isUnknown, readStored, toLine } from '../../../src/log/line.ts';
import { mergeLines } from '../../../src/log/merge.ts';
import { readLine } from '../../../src/log/read-line.ts';
import { gapDays, studyDay } from '../../../src/log/study-day.ts';
import type { Entry } from '../../../src/model/entry.ts';

const HOUR = 3_600_000;
const at = (text: string): number => Date.parse(text);
const moment = (text: string, off: number) => ({ at: at(text), day: studyDay(at(text), off) });

describe('study days', () => {
  test('a day turns at four in the morning, local', () => {
    expect(studyDay(at('2026-11-26T03:59:00Z'), 0)).toBe(studyDay(at('2026-11-25T18:00:00Z'), 0));
    expect(studyDay(at('2026-11-26T04:00:00Z'), 0)).toBe(studyDay(at('2026-11-25T18:00:00Z'), 0) + 1);
    expect(studyDay(at('2026-11-25T19:00:00Z'), 540)).toBe(studyDay(at('2026-11-25T18:59:00Z'), 540) + 1);
  });
  test('twenty minutes over the turn are no day', () => {
    expect(gapDays(moment('2026-11-25T03:50:00Z', 0), moment('2026-11-25T04:10:00Z', 0))).toBe(0);
  });
  test('an evening and the next one are one day, over the change to summer time too', () => {
    expect(gapDays(moment('2026-03-28T19:00:00Z', 60), moment('2026-03-29T18:00:00Z', 120))).toBe(1);
    expect(gapDays(moment('2026-10-24T18:00:00Z', 120), moment('2026-10-25T19:00:00Z', 60))).toBe(1);
  });
  test('a flight over the date line makes neither a day too many nor a negative one', () => {
    // Tokyo evening, nine hours in the air, Honolulu morning of the same date.
    expect(gapDays(moment('2026-11-25T11:00:00Z', 540), moment('2026-11-25T20:00:00Z', -600))).toBe(0);
    expect(gapDays(moment('2026-11-25T20:00:00Z', -600), moment('2026-11-26T05:00:00Z', 540))).toBe(1);
  });
  test('a clock set back gives no time', () => {
    expect(gapDays(moment('2026-11-25T20:00:00Z', 0), moment('2025-11-25T20:00:00Z', 0))).toBe(0);
  });
  test('never more than a day from the time that passed', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 5000 }),
        fc.integer({ min: -720, max: 840 }),
        fc.integer({ min: -720, max: 840 }),
        (hours, first, second) => {
          const before = { at: at('2026-01-01T12:00:00Z'), day: studyDay(at('2026-01-01T12:00:00Z'), first) };
          const now = before.at + hours * HOUR;
          const gap = gapDays(before, { at: now, day: studyDay(now, second) });
          expect(gap).toBeGreaterThanOrEqual(hours < 6 ? 0 : Math.floor(hours / 24));
          expect(gap).toBeLessThanOrEqual(Math.floor(hours / 24) + 1);
        },
      ),
    );
  });
});

test('a clock that cannot be right is found', () => {
  const built = at('2026-11-01T00:00:00Z');
  const now = at('2026-11-25T12:00:00Z');
  expect(suspectClock(now, null, built)).toBeNull();
  expect(suspectClock(now, now + 30 * 60_000, built)).toBeNull();
  expect(suspectClock(now, now + 2 * HOUR, built)).toBe('before-last');
  expect(suspectClock(built - 48 * HOUR, null, built)).toBe('before-build');
  expect(suspectClock(now, now - 401 * 24 * HOUR, built)).toBe('long-after');
});

const entry = (id: string, value: unknown, when = 1): Entry => ({
  v: 1,
  id,
  at: when,
  off: 0,
  app: 't',
  k: 'set',
  key: 'minutes/real',
  value,
});

describe('lines', () => {
  test('the same bytes for the same entry, however it was built', () => {
    const line = toLine(entry('a.1', { b: 1, a: [2] }));
    expect(line).toBe(
      '{"app":"t","at":1,"id":"a.1","k":"set","key":"minutes/real","off":0,"v":1,"value":{"a":[2],"b":1}}',
    );
    expect(toLine(readLine(line))).toBe(line);
  });
  test.each([
    '{"app":"t","at":1,"future":{"x":1},"id":"a.1","k":"rehearsal","off":0,"v":1}',
    '{"app":"t","at":1,"extra":true,"id":"a.1","k":"set","key":"k","off":0,"v":2,"value":1}',
  ])('what a newer app wrote is kept with all its fields: %s', (line) => {
    const read = readLine(line);
    expect(isUnknown(read)).toBe(true);
    expect(toLine(read)).toBe(line);
    expect(toLine(readStored(line))).toBe(line);
  });
  test('a field of a newer app in a known kind is kept', () => {
    const line = '{"app":"t","at":1,"id":"a.1","k":"set","key":"k","mood":"fine","off":0,"v":1,"value":1}';
    expect(toLine(readLine(line))).toBe(line);
  });
  test.each([
    ['{"v":1', /no JSON/],
    ['[]', /no entry/],
    ['{"v":1,"id":"??","at":1,"off":0,"app":"t","k":"set"}', /id should be/],
    ['{"v":1,"id":"a.1","at":1,"off":0,"app":"t","k":"void","of":"a.2","why":"mood"}', /void entry is damaged: why/],
  ])('%s is refused with a reason', (line, why) => {
    expect(() => readLine(line)).toThrow(why);
  });
});

test('a newer kind is kept byte for byte, whatever its fields are called', () => {
  const line = '{"app":"9.0","at":1,"id":"a.1","k":"glide","off":0,"unknown":true,"v":1}';
  const read = readStored(line);
  expect(isUnknown(read)).toBe(true);
  expect(toLine(read)).toBe(line);
});

test('an answer to a form that only a newer app has counts', () => {
  const line = toLine({
    ...({
      v: 1,
      id: 'a.1',
      at: 1,
      off: 0,
      app: '9.0',
      k: 'answer',
      deck: 'x/y@0123456789abcdef',
      variant: '',
    } as const),
    ...({ about: { thing: 't' }, shown: {}, given: {}, sure: true, ms: 1, g: 0.1, mv: 1 } as const),
    marks: { 'x/y#t.place~1': 'right' },
    form: 'point-at' as 'run',
  });
  expect(isUnknown(readLine(line))).toBe(false);
  expect(toLine(readLine(line))).toBe(line);
});

describe('union', () => {
  const log = fc.array(
    fc.record({
      n: fc.integer({ min: 1, max: 6 }),
      writer: fc.constantFrom('a', 'b'),
      value: fc.integer({ min: 0, max: 2 }),
    }),
    { maxLength: 12 },
  );
  const linesOf = (list: readonly { n: number; writer: string; value: number }[]) => [
    ...new Set(list.map(({ n, writer, value }) => toLine(entry(`${writer}.${n}`, value)))),
  ];
  const union = (a: readonly string[], b: readonly string[]) => mergeLines(a, b).lines;

  test('commutative, associative, idempotent, also where two devices write under one id', () => {
    fc.assert(
      fc.property(log, log, log, (x, y, z) => {
        const [a, b, c] = [linesOf(x), linesOf(y), linesOf(z)].map((lines) => union(lines, []));
        if (a === undefined || b === undefined || c === undefined) return;
        expect(union(a, b)).toEqual(union(b, a));
        expect(union(union(a, b), c)).toEqual(union(a, union(b, c)));
        expect(union(union(a, b), b)).toEqual(union(a, b));
        expect(union(a, a)).toEqual(a);
      }),
    );
  });

  test('a copied phone: both entries are kept, and it is told', () => {
    const one = toLine(entry('a.1', 'first'));
    const other = toLine(entry('a.1', 'second'));
    const merged = mergeLines([one], [other]);
    expect(merged.clashes).toBe(1);
    expect(merged.lines).toHaveLength(2);
    expect(merged.lines.map((line) => (readLine(line) as { value?: unknown }).value).sort()).toEqual([
      'first',
      'second',
    ]);
    expect(merged.lines.filter((line) => /"id":"a\.1~[0-9a-z]{6}"/.test(line))).toHaveLength(1);
    expect(mergeLines([one], [one]).doubled).toBe(1);
  });
});
