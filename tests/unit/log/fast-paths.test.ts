import fc from 'fast-check';
import * as v from 'valibot';
import { describe, expect, test } from 'vitest';
import { canonicalJson, type Json } from '../../../src/lib/canonical-json.ts';
import { plainIdOf } from '../../../src/log/line-id.ts';
import { AnyShape, ENTRY_SHAPES } from '../../../src/log/shape.ts';
import { isSoundAnswer } from '../../../src/log/sound.ts';

const ANSWER: Readonly<Record<string, unknown>> = {
  v: 1,
  id: 'a.1',
  at: 1,
  off: 0,
  app: 't',
  k: 'answer',
  drill: 'd',
  deck: 'x/y@0123456789abcdef',
  form: 'run',
  about: { thing: 'p', situation: 's', part: ['a'], case: 'c', rule: 'r' },
  variant: '',
  seat: 'left',
  shown: null,
  given: {},
  sure: null,
  unsure: ['a'],
  ms: 1,
  help: 'h',
  marks: { 'x/y#p.place~a': 'right' },
  flawed: true,
  g: 0.5,
  mv: 1,
};
/** Members that an answer may do without. */
const OPTIONAL = ['drill', 'seat', 'unsure', 'help', 'flawed'];
/** Values that stand at the edge of what some member may be. */
const VALUES: readonly unknown[] = [
  ...[
    null,
    true,
    false,
    0,
    -0,
    1,
    2,
    -1,
    0.5,
    1.5,
    Number.POSITIVE_INFINITY,
    '',
    'a',
    'a.1',
    'a.1~b',
    'a.1/m2',
    'A.1',
    'a.',
    'x',
  ],
  ...['answer', 'mark', 'run', 'Run', 'a-b', '-a', 'x/y@0123456789abcdef', 'x/y@0123456789abcdeF', 'x/y'],
  ...[
    [],
    [1],
    ['a'],
    ['a', null],
    {},
    { thing: 'p' },
    { thing: 1 },
    { thing: 'p', part: 'a' },
    { thing: 'p', more: 1 },
  ],
  ...[
    { thing: 'p', situation: null },
    { thing: 'p', part: [1] },
    { thing: 'p', case: 2 },
    { thing: 'p', rule: [] },
  ],
  ...[{ a: 'right' }, { a: 'wrong', b: 'told' }, { a: 'moved' }, { a: 'left' }, { a: null }],
];

const passesShapes = (raw: unknown): boolean =>
  v.safeParse(AnyShape, raw).success && v.safeParse(ENTRY_SHAPES.answer, raw).success;

describe('an answer looked at by hand', () => {
  test('is sound where the shapes say so: each member left out, and given each value', () => {
    expect(isSoundAnswer(ANSWER)).toBe(true);
    for (const key of Object.keys(ANSWER)) {
      const { [key]: _, ...without } = ANSWER;
      expect([key, isSoundAnswer(without)]).toEqual([key, OPTIONAL.includes(key)]);
      expect([key, passesShapes(without)]).toEqual([key, OPTIONAL.includes(key)]);
      for (const value of VALUES) {
        const other = { ...ANSWER, [key]: value };
        // A list for marks is left to the shapes, which take it for a record.
        const isLeft = key === 'marks' && Array.isArray(value);
        expect([key, value, isSoundAnswer(other)]).toEqual([key, value, !isLeft && passesShapes(other)]);
      }
    }
  });
  test('is sound only where the shapes say so: any members and values', () => {
    const members = fc.dictionary(
      fc.constantFrom(...Object.keys(ANSWER), 'more'),
      fc.oneof(fc.constantFrom(...VALUES), fc.jsonValue()),
      { maxKeys: 3 },
    );
    fc.assert(
      fc.property(members, fc.subarray(OPTIONAL), (changed, left) => {
        const raw: Record<string, unknown> = { ...ANSWER, ...changed };
        for (const key of left) delete raw[key];
        if (isSoundAnswer(raw)) expect(passesShapes(raw)).toBe(true);
      }),
      { numRuns: 2000 },
    );
  });
  test.each([null, 1, 'a', [], [ANSWER], { __proto__: ANSWER }])('%j is none', (raw) => {
    expect(isSoundAnswer(JSON.parse(JSON.stringify(raw)))).toBe(false);
  });
});

describe('the id of a line that is not parsed', () => {
  const id = fc.constantFrom('a.1', 'abc234.17', 'a.1/m2');
  const text = fc.oneof(
    fc.string({ unit: 'binary' }),
    fc.constantFrom('id', '"id":"b.2"', '{"id":"b.2"', '\\', '}', '{'),
  );
  const inner = fc.letrec((tie) => ({
    value: fc.oneof(
      { depthSize: 'small' },
      text,
      fc.integer(),
      fc.constant(null),
      fc.array(tie('value'), { maxLength: 3 }),
      fc.dictionary(fc.oneof(text, fc.constant('id')), tie('value'), { maxKeys: 3 }),
    ),
  })).value;

  test('is what parsing says, or is left to it', () => {
    fc.assert(
      fc.property(id, fc.dictionary(text, inner, { maxKeys: 5 }), (own, members) => {
        const line = canonicalJson({ ...members, id: own } as Json);
        expect([own, ...(line.includes('\\') ? [null] : [])]).toContain(plainIdOf(line));
      }),
      { numRuns: 2000 },
    );
  });
  test.each([
    '{"id":"a.1~b","k":"set"}',
    '{"id":"A.1"}',
    '{"id":7}',
    '{"about":{"id":"a.1"}}',
    '{"about":[{"id":"a.1"}],"x":"id"}',
    '{"a":"\\"","id":"a.1"}',
    '{"a',
    '',
  ])('is not guessed: %s', (line) => {
    expect(plainIdOf(line)).toBe(null);
  });
});
