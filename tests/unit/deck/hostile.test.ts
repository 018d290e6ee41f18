import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { checkText } from '../../../src/deck/check.ts';
import { messageOf } from '../../../src/deck/messages.ts';
import { BASE, changed, type Loose } from '../../fixtures/decks/base.ts';

const today = '2026-11-25';
const codes = (text: string): string[] => checkText(text, { today }).findings.map((f) => f.code);
const codesOf = (deck: unknown): string[] => codes(JSON.stringify(deck));

describe('hostile texts', () => {
  test.each([
    { what: 'an empty file', text: '', code: 'unreadable' },
    { what: 'spaces', text: ' \n', code: 'unreadable' },
    { what: 'null', text: 'null', code: 'wrong-type' },
    { what: 'a list', text: '[]', code: 'wrong-type' },
    { what: 'a number', text: '5', code: 'wrong-type' },
    { what: '5 MB of brackets', text: '['.repeat(5_000_000), code: 'too-big' },
    { what: '1 MB of brackets', text: '['.repeat(1_000_000), code: 'too-deep' },
    { what: '1 MB of objects', text: '{"a":'.repeat(200_000), code: 'too-deep' },
    { what: 'a key of the prototype', text: '{"id": {"__proto__": 1}}', code: 'key-forbidden' },
    { what: 'a number beyond all', text: '{"format": 1e999}', code: 'number-size' },
  ])('$what: $code', ({ text, code }) => {
    const { deck, findings } = checkText(text, { today });
    expect(deck).toBeUndefined();
    expect(findings).toHaveLength(1);
    expect(findings[0]?.code).toBe(code);
  });

  test('an empty file says where and what', () => {
    const { findings } = checkText('', { today });
    expect(findings[0]).toMatchObject({ line: 1, column: 1, path: '' });
    expect(findings.map(messageOf)).toEqual(['This is not JSON: expected a value, found the end of the text.']);
  });

  test('a byte order mark is passed over', () => {
    expect(codes(`\ufeff${JSON.stringify(BASE)}`)).toEqual([]);
  });

  test('a list is no object, however little an object needs', () => {
    for (const put of [
      (d: Loose) => {
        d.procedures[0].when = [];
      },
      (d: Loose) => {
        d.limits[3].cases[0].given = [];
      },
      (d: Loose) => {
        d.scenarios[0].draw = [];
      },
    ])
      expect(codesOf(changed(put))).toEqual(['wrong-type']);
  });

  test('what every object inherits is no key of a deck', () => {
    expect(
      codesOf(
        changed((d) => {
          d.toString = 1;
        }),
      ),
    ).toEqual(['unknown-key']);
    expect(
      codesOf(
        changed((d) => {
          d.procedures[0].when = { valueOf: 'a' };
        }),
      ),
    ).toEqual(['wrong-form']);
    expect(
      codesOf(
        changed((d) => {
          d.scenarios[0].require.push('toString < 5');
        }),
      ),
    ).toEqual(['formula-name']);
  });

  test('HTML and half a pair in every text are text', () => {
    const put = (x: Loose, key = ''): Loose => {
      if (Array.isArray(x)) return x.map((y) => put(y, key));
      if (typeof x === 'object' && x !== null)
        return Object.fromEntries(Object.entries(x).map(([k, y]) => [k, put(y, k)]));
      const texts = ['title', 'do', 'say', 'text', 'ask', 'note', 'label', 'situation', 'why', 'starts'];
      return texts.includes(key) ? `${x} <img src=x onerror=alert(1)> \ud800` : x;
    };
    const { deck, findings } = checkText(JSON.stringify(put(BASE)), { today });
    expect(findings.filter((f) => f.severity === 'error')).toEqual([]);
    expect(findings.filter((f) => f.code === 'text-html').length).toBeGreaterThan(20);
    expect(deck?.title).toBe('Base <img src=x onerror=alert(1)> \ud800');
  });

  test('procedures of 1 and 60 steps', () => {
    const steps = (n: number) =>
      changed((d) => {
        d.procedures = [
          {
            id: 'p',
            title: 'P',
            done: 'memory',
            source: 'som',
            steps: Array.from({ length: n }, (_, i) => ({
              id: `s${i}`,
              do: `Do ${'abcdefghij'[i % 10]}${'xyzuvw'[Math.floor(i / 10)]}`,
              cue: { text: 'x' },
            })),
          },
        ];
      });
    expect(codesOf(steps(1))).toEqual([]);
    expect(codesOf(steps(60))).toEqual([]);
  });

  test('blocks that use one another many times over are not walked many times over', () => {
    const blocks = Array.from({ length: 40 }, (_, i) => ({
      id: `b${i}`,
      steps: i === 0 ? [{ id: 'last', do: 'Last' }] : [{ use: `b${i - 1}` }, { use: `b${i - 1}` }],
    }));
    const deck = changed((d) => {
      d.procedures = [{ id: 'p', title: 'P', done: 'memory', source: 'som', steps: blocks }];
    });
    expect(codesOf(deck)).toEqual(['too-many-steps']);
  });

  test('a division by zero in every draw is a scenario that is never drawn', () => {
    const deck = changed((d) => {
      d.scenarios[0].let.part = '1 / (windSpeed - windSpeed)';
    });
    expect(codesOf(deck)).toEqual(['scenario-never', 'draw-no-value']);
  });

  test('values of the day that never stand together', () => {
    const deck = changed((d) => {
      d.day[0].require = ['v1 > vr + 10'];
    });
    const { findings } = checkText(JSON.stringify(deck), { today });
    expect(findings.map((f) => [f.code, f.path])).toEqual([['scenario-never', '/day']]);
  });

  test('the first mistake does not hide the second', () => {
    const deck = changed((d) => {
      d.procedures[0].steps[1].lanes[0][0].doo = 'x';
      d.limits[0].unit = 'knots';
      d.scenarios[0].asks[1].choose.options = 'full';
    });
    const { findings } = checkText(JSON.stringify(deck), { today });
    expect(findings.map((f) => [f.code, f.path])).toEqual([
      ['unknown-key', '/procedures/0/steps/1/lanes/0/0/doo'],
      ['not-a-choice', '/limits/0/unit'],
      ['wrong-type', '/scenarios/0/asks/1/choose/options'],
    ]);
  });
});

describe('never throws', () => {
  test('for any text', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: 'binary' }), fc.json()), (text) => {
        expect(checkText(text, { today }).deck).toBeUndefined();
      }),
      { numRuns: 300, seed: 1 },
    );
  });

  /** Every place of a deck, as keys from the root. */
  const placesOf = (x: unknown, keys: readonly string[] = []): (readonly string[])[] =>
    typeof x === 'object' && x !== null
      ? [keys, ...Object.entries(x).flatMap(([k, y]) => placesOf(y, [...keys, k]))]
      : [keys];
  const places = placesOf(BASE).filter((keys) => keys.length > 0);

  test('for a deck with anything at any place', () => {
    const odd = fc.oneof(
      fc.constantFrom(
        '',
        'a',
        'v1',
        'windSpeed',
        'roll',
        'shared',
        'x#y',
        '{v1}',
        '1/0',
        'limit("pause")',
        '-1',
        'true',
      ),
      fc.constantFrom(0, -1, 1e300, 5e-324, null, true, [], {}, [{}], { not: {} }, { use: 'shared' }),
      fc.jsonValue({ maxDepth: 2 }),
    );
    fc.assert(
      fc.property(fc.nat({ max: places.length - 1 }), odd, (n, value) => {
        const keys = places[n] as readonly string[];
        const deck = changed((d) => {
          const holder = keys.slice(0, -1).reduce((x, k) => x[k], d);
          holder[keys.at(-1) as string] = value;
        });
        const { findings } = checkText(JSON.stringify(deck), { today });
        for (const f of findings) expect(messageOf(f)).not.toMatch(/undefined|\[object/);
      }),
      { numRuns: 150, seed: 1 },
    );
  });
});
