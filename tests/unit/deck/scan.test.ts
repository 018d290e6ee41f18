import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { bytesOf, placeOf, scan } from '../../../src/deck/scan.ts';

const parses = (text: string): boolean => {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
};

describe('scan', () => {
  // RFC 8259 as JSON.parse holds it.
  test.each([
    '',
    ' ',
    'nul',
    'null',
    ' null ',
    'null null',
    '01',
    '-0',
    '-',
    '1.',
    '.5',
    '1e5',
    '1E+05',
    '1e',
    '+1',
    'NaN',
    '"',
    '"\\',
    '"\\x"',
    '"\\u00zz"',
    '"\\u00e9\\ud800"',
    '"\t"',
    '"a\u2028b"',
    '[1,]',
    '[,1]',
    '[1 2]',
    '[]]',
    '{',
    '{"a"}',
    '{"a":}',
    '{"a":1,}',
    '{a:1}',
    "{'a':1}",
    '{"a":1}// no',
    '\ufeff1',
    '\u00a01',
    '[1]\n',
    '{"":{}}',
    '"\u0000"',
    '"\u007f"',
  ])('takes %j exactly where JSON.parse does', (text) => {
    expect(scan(text) === null).toBe(parses(text));
  });

  test('takes what JSON.parse takes, for any value and any text broken at one place', () => {
    fc.assert(
      fc.property(
        fc.json({ maxDepth: 5 }),
        fc.nat(),
        fc.constantFrom('', '"', '{', ']', ',', '\\', '0', '\n'),
        (json, n, put) => {
          const at = n % (json.length + 1);
          for (const text of [json, json.slice(0, at) + put + json.slice(at + 1)]) {
            const trouble = scan(text);
            if (trouble === null || trouble.code === 'unreadable') expect(trouble === null).toBe(parses(text));
          }
        },
      ),
      { numRuns: 400, seed: 1 },
    );
  });

  test('tells every value with its keys and its place', () => {
    const seen: string[] = [];
    scan('{"a": [1, {"b~/": "x"}]}', (keys, at) => seen.push(`${keys.join('.')}@${at}`));
    expect(seen).toEqual(['@0', 'a@6', 'a.0@7', 'a.1@10', 'a.1.b~/@18']);
  });

  test.each([
    ['[1,\n 2,]', 'unreadable', 2, 4],
    ['{"a": 1\r\n"b": 2}', 'unreadable', 2, 1],
    ['["é\u2028", x]', 'unreadable', 1, 8],
    ['{"a":{"constructor":1}}', 'key-forbidden', 1, 7],
    ['{"a":1,\n"a":2}', 'key-twice', 2, 1],
    ['[-1e400]', 'number-size', 1, 2],
    ['["a', 'unreadable', 1, 4],
  ])('%j is %s at line %i, column %i', (text, code, line, column) => {
    const trouble = scan(text);
    expect(trouble?.code).toBe(code);
    expect(placeOf(text, trouble?.at ?? -1)).toEqual({ line, column });
  });

  test('5 MB of brackets are refused at the 33rd', () => {
    expect(scan('['.repeat(5_000_000))).toMatchObject({ code: 'too-deep', at: 32 });
  });

  test('a string of 2 MB does not run out of stack', () => {
    expect(scan(JSON.stringify('\\"x'.repeat(500_000)))).toBeNull();
    expect(scan(`"${'x'.repeat(2_000_000)}`)).toMatchObject({ code: 'unreadable', at: 2_000_001 });
  });
});

test('bytes are those of UTF-8', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'grapheme', maxLength: 60 }), (text) => {
      expect(bytesOf(text, 1e9)).toBe(new TextEncoder().encode(text).length);
    }),
    { numRuns: 200, seed: 1 },
  );
});
