import { describe, expect, test } from 'vitest';
import { mark, offers } from '../../../src/forms/registry.ts';
import type { Band, Limit, Sense, Show, Unit } from '../../../src/model/deck.ts';
import { answerDetail, drawnLimit, given, limitDeck, offerFor, plain, resolved } from './small-decks.ts';

/** Every number here is invented. */
const limit = (value: number, unit: Unit, sense: Sense, more: object = {}) =>
  limitDeck({ unit, sense, value, ...more } as Partial<Limit>);

describe('the band', () => {
  test.each<[Band | undefined, number, string]>([
    [undefined, 250, 'right'],
    [undefined, 250.0000000001, 'right'],
    [undefined, 250.1, 'wrong'],
    [undefined, 249, 'wrong'],
    [5, 255, 'right'],
    [5, 245, 'right'],
    [5, 255.001, 'wrong'],
    [{ plus: 50, minus: 0 }, 300, 'right'],
    [{ plus: 50, minus: 0 }, 249, 'wrong'],
    [{ plus: 0, minus: 50 }, 200, 'right'],
    [{ plus: 0, minus: 50 }, 251, 'wrong'],
  ])('accept %j of 250: %d is %s', (accept, typed, expected) => {
    expect(given(limit(250, 'kt', 'exactly', accept === undefined ? {} : { accept }), typed).mark).toBe(expected);
  });

  test('binary fractions do not count: 0.1 + 0.2 is within 0.3', () => {
    expect(given(limit(0.3, 'NM', 'exactly'), 0.1 + 0.2).mark).toBe('right');
    expect(given(limit(0.7, 'NM', 'exactly', { accept: 0.1 }), 0.8).mark).toBe('right');
  });
});

describe('the sense of what is off', () => {
  test.each<[number, Unit, Sense, number, string, object?]>([
    [250, 'kt', 'at most', 251, '1 kt above the limit, on the unsafe side'],
    [250, 'kt', 'at most', 240, '10 kt below the limit, on the safe side'],
    [400, 'ft', 'at least', 390, '10 ft below the limit, on the unsafe side'],
    [400, 'ft', 'at least', 500, '100 ft above the limit, on the safe side'],
    [400, 'ft', 'at least', 390, '10 ft below the limit, on the unsafe side', { strict: true }],
    [10, 's', 'exactly', 12, '2 s above the right value'],
    [10, 's', 'about', 8, '2 s below the right value'],
    [0.8, 'Mach', 'at most', 0.82, '0.02 Mach above the limit, on the unsafe side'],
    [180, 'FL', 'at most', 190, '10 levels above the limit, on the unsafe side'],
    [0.1, 'NM', 'exactly', 0.4, '0.3 NM above the right value'],
  ])('%d %s %s, given %d: %s', (value, unit, sense, typed, words, more) => {
    const { detail, mark: m } = given(limit(value, unit, sense, more), typed);
    expect(m).toBe('wrong');
    expect(plain(detail.off)).toBe(words);
  });

  test.each<[Sense, boolean, string]>([
    ['at most', false, 'at most 250 kt IAS'],
    ['at most', true, 'below 250 kt IAS'],
    ['at least', false, 'at least 250 kt IAS'],
    ['at least', true, 'above 250 kt IAS'],
    ['exactly', false, '250 kt IAS'],
    ['about', false, 'about 250 kt IAS'],
  ])('%s, strict %s reads "%s"; the number itself is asked', (sense, strict, words) => {
    const all = limit(250, 'kt', sense, { reference: 'IAS', ...(strict && { strict }) });
    const { detail, mark: m } = given(all, 250);
    expect(m).toBe('right');
    expect(plain(detail.right)).toBe(words);
    const field = drawnLimit(all, offerFor(all, 'limit')).fields[0];
    expect(`${field?.sense ?? ''} 250 kt IAS`.trim()).toBe(words);
  });
});

describe('from and to', () => {
  const all = limitDeck({ unit: '°', sense: 'from-to', from: 5, to: 8, accept: 0 } as Partial<Limit>);
  test.each<[number[], string, string | undefined, string | undefined]>([
    [[5, 8], 'right', undefined, undefined],
    [[5, 9], 'wrong', '1° above the upper end, on the unsafe side', undefined],
    [[6, 8], 'wrong', '1° above the lower end, on the safe side', undefined],
    [
      [4, 9],
      'wrong',
      '1° below the lower end, on the unsafe side; 1° above the upper end, on the unsafe side',
      undefined,
    ],
    [
      [8, 5],
      'wrong',
      '3° above the lower end, on the safe side; 3° below the upper end, on the safe side',
      'The two ends are exchanged.',
    ],
    [[5], 'wrong', '', undefined],
  ])('%j is %s', (typed, expected, off, slip) => {
    const { detail, mark: m } = given(all, ...typed);
    expect(m).toBe(expected);
    expect(plain(detail.off)).toBe(off);
    expect(detail.slip).toBe(slip);
  });
  test('asked as two fields', () => {
    expect(drawnLimit(all, offerFor(all, 'limit')).fields.map((f) => f.label)).toEqual(['From', 'To']);
  });
});

describe('directions and runways', () => {
  test.each<[number, Show, Band, number, string]>([
    [360, 'direction', 0, 0, 'right'],
    [0, 'direction', 0, 360, 'right'],
    [350, 'direction', 20, 10, 'right'],
    [350, 'direction', 20, 11, 'wrong'],
    [10, 'direction', { plus: 0, minus: 20 }, 350, 'right'],
    [10, 'direction', { plus: 20, minus: 0 }, 350, 'wrong'],
    [70, 'runway', 0, 70, 'right'],
    [70, 'runway', 0, 250, 'wrong'],
  ])('%d as %s within %j: %d is %s', (value, show, accept, typed, expected) => {
    expect(given(limit(value, '°', 'exactly', { show, accept }), typed).mark).toBe(expected);
  });
  test('the way round is said, across north too', () => {
    expect(plain(given(limit(350, '°', 'exactly', { show: 'direction' }), 20).detail.off)).toBe(
      '30° clockwise of the right value',
    );
    expect(plain(given(limit(10, '°', 'exactly', { show: 'direction' }), 350).detail.off)).toBe(
      '20° anticlockwise of the right value',
    );
  });
});

describe('facts', () => {
  const all = limitDeck({
    options: { a: 'Left', b: 'Right', c: 'Both' },
    is: 'b',
    slips: [{ is: 'a', note: 'That is the other type.' }],
  } as Partial<Limit>);
  const offer = offerFor(all, 'limit');
  const choose = (choice: string) => mark(all, offer, drawnLimit(all, offer), { choice });

  test('one of three: guess rate a third, a slip of the author is named', () => {
    expect(choose('b')).toMatchObject({ g: 1 / 3, flawed: false, detail: { right: 'Right', given: 'Right' } });
    expect(answerDetail(choose('a')).slip).toBe('That is the other type.');
    expect(answerDetail(choose('c')).slip).toBeUndefined();
    expect(Object.values(choose('c').marks)).toEqual(['wrong']);
  });
  test('the choices change places with the seed', () => {
    const seen = new Set(
      [...Array(20).keys()].map((s) =>
        drawnLimit(all, offer, s)
          .choices.map((c) => c.id)
          .join(''),
      ),
    );
    expect(seen.size).toBeGreaterThan(3);
  });
});

describe('circumstances', () => {
  test('a case says them, the default says which it is not about, and each is marked by its own value', () => {
    const all = resolved({
      conditions: [{ id: 'flaps', label: 'Flaps', options: { one: 'Flaps 1', two: 'Flaps 2' } }],
      limits: [
        {
          id: 'one',
          ask: 'Speed?',
          unit: 'kt',
          sense: 'at most',
          cases: [
            { id: 'standard', value: 200 },
            { id: 'two', given: { flaps: 'two' }, value: 180, note: 'With the slats.' },
          ],
        },
      ],
    });
    const list = offers(all, null, 1);
    const seen = list.map((o) => {
      const shown = drawnLimit(all, o);
      const at = (value: number) => mark(all, o, shown, { typed: [''], value: [value] });
      return [shown.scene, ...[200, 180].map((v) => Object.values(at(v).marks)[0]), answerDetail(at(1)).working];
    });
    expect(seen).toEqual([
      [['None of these: Flaps 2'], 'right', 'wrong', []],
      [['Flaps 2'], 'wrong', 'right', ['With the slats.']],
    ]);
  });
  test('rows of a table are asked one by one, where the author says so', () => {
    const table = {
      id: 'one',
      ask: 'Fuel',
      unit: 'kg',
      table: {
        input: { label: 'Height', unit: 'ft' },
        method: 'step',
        rows: [
          [0, 900],
          [5000, 800],
        ],
      },
    } as const;
    expect(offers(resolved({ limits: [table as unknown as Limit] }), null, 1)).toEqual([]);
    const all = resolved({ limits: [{ ...table, asked: true } as unknown as Limit] });
    expect(offers(all, null, 1).map((o) => plain(drawnLimit(all, o).scene[0]))).toEqual([
      'Height 0 ft',
      'Height 5000 ft',
    ]);
  });
  test('a value of a table with a sense is above or below its limit, like any other', () => {
    const table = (sense?: string) => {
      const all = resolved({
        limits: [
          {
            id: 'one',
            ask: 'Crosswind',
            unit: 'kt',
            table: {
              input: { label: 'Width', unit: 'm' },
              method: 'step',
              rows: [
                [30, 12],
                [45, 28],
              ],
            },
            asked: true,
            ...(sense !== undefined && { sense }),
          } as unknown as Limit,
        ],
      });
      const offer = offerFor(all, 'limit');
      const shown = drawnLimit(all, offer);
      const { marks, detail } = mark(all, offer, shown, { value: [15], typed: ['15'] });
      const { right, off } = detail as { readonly right: string; readonly off: string };
      return [plain(shown.fields[0]?.sense), plain(right), plain(off), ...Object.keys(marks)];
    };
    const [, , , plainKey] = table();
    expect(table('at most')).toEqual([
      'at most',
      'at most 12 kt',
      '3 kt above the limit, on the unsafe side',
      expect.any(String),
    ]);
    expect(table('at least').slice(0, 3)).toEqual([
      'at least',
      'at least 12 kt',
      '3 kt above the limit, on the safe side',
    ]);
    // Another sense is another answer; "exactly" is what it was without.
    expect(table('at most')[3]).not.toBe(plainKey);
    expect(table('exactly')).toEqual(table());
    expect(table().slice(1, 3)).toEqual(['12 kt', '3 kt above the right value']);
  });
});

test("Don't know, the wrong kind of answer, and a limit that is gone", () => {
  const all = limit(250, 'kt', 'at most');
  const offer = offerFor(all, 'limit');
  const shown = drawnLimit(all, offer);
  expect(Object.values(mark(all, offer, shown, null).marks)).toEqual(['told']);
  expect(Object.values(mark(all, offer, shown, { choice: 'a' }).marks)).toEqual(['wrong']);
  expect(mark(all, { ...offer, about: { thing: 'gone', case: 'standard' } }, shown, null).marks).toEqual({});
});

test('a number is guessed one time in twenty at the most', () => {
  for (const value of [1, 10, 250, 1013, 0.78]) {
    const { marked } = given(limit(value, 'kt', 'exactly', { accept: value / 2 }), value);
    expect(marked.g).toBeGreaterThanOrEqual(0.01);
    expect(marked.g).toBeLessThanOrEqual(0.05);
  }
});

describe('what is counted as right', () => {
  const countedOf = (all: ReturnType<typeof limit>, typed: number) => plain(given(all, typed).detail.counted);

  test.each<[Unit, number, Band | undefined, string]>([
    ['kt', 155, 5, 'Counted right: 150 kt to 160 kt'],
    ['kt', 155, { plus: 5, minus: 0 }, 'Counted right: 155 kt to 160 kt'],
    ['EPR', 1.08, 0.01, 'Counted right: 1.07 EPR to 1.09 EPR'],
    ['°C', -3, 2, 'Counted right: −5 °C to −1 °C'],
    ['°', 16.5, 0.5, 'Counted right: 16° to 17°'],
  ])('%s %d within %j: %s', (unit, value, accept, words) => {
    const all = limit(value, unit, 'about', { accept });
    expect(countedOf(all, value)).toBe(words);
    // The verdict on a wrong answer says it too: what would have counted.
    expect(countedOf(all, value + 30)).toBe(words);
  });

  test('nothing where the number alone counts; of two ends each; a direction across north', () => {
    expect(given(limit(155, 'kt', 'exactly'), 155).detail.counted).toBeUndefined();
    expect(
      countedOf(limitDeck({ unit: 'kt', sense: 'from-to', from: 9, to: 17, accept: 1 } as Partial<Limit>), 9),
    ).toBe('Counted right: 8 kt to 10 kt; 16 kt to 18 kt');
    expect(countedOf(limit(2, '°', 'about', { accept: 5, show: 'direction' }), 2)).toBe('Counted right: 357° to 007°');
  });

  test('the ends that are said are right, what lies beyond them is wrong', () => {
    for (const [value, accept] of [
      [155, 5],
      [154.6, 2],
      [10, 1.5],
    ] as const) {
      const all = limit(value, 'kt', 'about', { accept });
      const [low, high] = [...(countedOf(all, value) ?? '').matchAll(/(\d+) kt/g)].map(([, n]) => Number(n)) as [
        number,
        number,
      ];
      for (const end of [low, high]) expect(given(all, end).mark).toBe('right');
      for (const beyond of [low - 1, high + 1]) expect(given(all, beyond).mark).toBe('wrong');
    }
  });
});

describe('the key for a sign', () => {
  const signedOf = (limits: readonly object[], id = 'a') => {
    const all = resolved({ limits: limits.map((one) => ({ ask: 'How much?', sense: 'exactly', ...one })) as never });
    return drawnLimit(
      all,
      offerFor(all, 'limit', ({ about }) => about.thing === id),
    ).fields.map(({ signed }) => signed);
  };

  test('is there for temperatures, and for a unit of which some limit of the deck is negative', () => {
    expect(signedOf([{ id: 'a', unit: 'kt', value: 250 }])).toEqual([undefined]);
    expect(signedOf([{ id: 'a', unit: '°C', value: 30 }])).toEqual([true]);
    const low = { id: 'b', unit: '°', value: -4 };
    expect(signedOf([{ id: 'a', unit: '°', value: 10 }, low])).toEqual([true]);
    expect(signedOf([{ id: 'a', unit: '°', value: 10 }, low], 'b')).toEqual([true]);
    expect(signedOf([{ id: 'a', unit: 'kt', value: 10 }, low])).toEqual([undefined]);
  });
});
