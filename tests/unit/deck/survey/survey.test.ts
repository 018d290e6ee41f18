import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { survey } from '../../../../src/deck/survey/survey.ts';
import {
  type Cell,
  NO_RULE,
  NO_VALUE,
  NOT_ASKED,
  type NoSurvey,
  type Survey,
  type SurveyTask,
} from '../../../../src/deck/survey/types.ts';
import type { Deck } from '../../../../src/model/deck.ts';
import { changed, type Loose } from '../../../fixtures/decks/base.ts';

const TASK: SurveyTask = { scenario: 0, ask: 0, variant: 0, seed: 1, x: null, y: null, around: null };

const run = (deck: unknown, task: Partial<SurveyTask> = {}): Survey | NoSurvey => {
  const steps = survey(JSON.stringify(deck), { ...TASK, ...task });
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
  }
};
const surveyed = (deck: unknown, task: Partial<SurveyTask> = {}): Survey => {
  const found = run(deck, task);
  if ('problem' in found) throw new Error(found.problem);
  return found;
};

/** A deck of one scenario that draws and asks this. */
const deckOf = (scenario: object, more: object = {}) => ({
  format: 1,
  id: 'calder/survey',
  version: '1.0.0',
  title: 'Survey',
  language: 'en',
  nature: 'fictional',
  sources: [{ id: 'som', title: 'Invented manual', basis: 'invented' }],
  scenarios: [{ id: 'one', situation: 'Something is drawn.', source: 'som', ...scenario }],
  ...more,
});
const choose = (rules: readonly (readonly [string, string | null])[]) => ({
  id: 'what',
  ask: 'What is to be done?',
  choose: {
    options: Object.fromEntries(rules.map(([id]) => [id, `Do ${id}`])),
    // biome-ignore lint/suspicious/noThenProperty: a rule of a deck says "then"
    rules: rules.map(([id, when]) => ({ id, ...(when !== null && { if: when }), then: [id] })),
  },
});
const counts = (s: Survey, ask = 0) => s.asks[ask]?.rules?.map((r) => r.count);

describe('worked by hand: two figures from 0 to 9', () => {
  // 100 pairs. a + b > 9: 9 + 8 + … + 1 = 45. Of the rest a = b: (0,0) … (4,4), 5. The others: 50.
  const rules = choose([
    ['much', 'a + b > 9'],
    ['same', 'a == b'],
    ['never', 'a > 20'],
    ['rest', null],
  ]);
  const draw = { a: { from: 0, to: 9, label: 'First' }, b: { from: 0, to: 9, unit: 'kt' } };

  test('each rule has its share of all draws', () => {
    const s = surveyed(deckOf({ draw, asks: [rules] }));
    expect([s.exact, s.tried, s.met]).toEqual([true, 100, 100]);
    expect(counts(s)).toEqual([45, 5, 0, 50]);
    expect(s.asks[0]?.rules?.map((r) => r.path)).toEqual(
      [0, 1, 2, 3].map((k) => `/scenarios/0/asks/0/choose/rules/${k}`),
    );
    expect(s.axes.map((a) => [a.name, a.label, a.ranged, a.count])).toEqual([
      ['a', 'First', true, 10],
      ['b', 'b', true, 10],
    ]);
    expect(s.axes[1]?.bins[3]).toBe('3\u00a0kt');
  });

  test('what is refused counts for the first requirement that it fails', () => {
    // a < 8 refuses 20. Of the 80 left b != a refuses 8; then 72.
    const s = surveyed(deckOf({ draw, asks: [rules], require: ['a < 8', 'a != b'] }));
    expect(s.refusals.map(({ path, count }) => [path, count])).toEqual([
      ['/scenarios/0/require/0', 20],
      ['/scenarios/0/require/1', 8],
    ]);
    expect(s.refusals[0]?.words).toBe('first is below 8');
    // Of 72: a + b > 9 with a < 8: a = 1 … 7 give 1 … 7, 28, less the (5,5), (6,6), (7,7): 25.
    expect([s.met, counts(s)]).toEqual([72, [25, 0, 0, 47]]);
  });

  test('no rule, no value, not asked', () => {
    const open = choose([
      ['some', 'a / b > 1'],
      ['other', 'a == 0'],
    ]);
    const s = surveyed(deckOf({ draw, asks: [{ ...open, if: 'a < 9' }] }));
    // a = 9 is not asked: 10. b = 0 has no value: 9. a > b > 0 with a < 9: 7 + … + 1 = 28. a = 0, b > 0: 9. The rest: 44.
    expect(s.asks[0]).toMatchObject({ notAsked: 10, noValue: 9, noRule: 44, answered: 37 });
    expect(counts(s)).toEqual([28, 9]);
  });

  test('a value of let that cannot be computed breaks a draw', () => {
    const s = surveyed(
      deckOf({
        draw,
        let: { q: 'a / b' },
        require: ['q >= 0'],
        asks: [
          choose([
            ['big', 'q > 2'],
            ['small', null],
          ]),
        ],
      }),
    );
    // a / b > 2, b = 1 … 9: a > 2b: 7 + 5 + 3 + 1 = 16.
    expect([s.broken, s.met, counts(s)]).toEqual([10, 90, [16, 74]]);
  });

  test('a bar along one value counts the rules over the other', () => {
    const { picture } = surveyed(deckOf({ draw, asks: [rules] }), { x: 'a', y: '' });
    expect(picture).toMatchObject({ x: 0, y: null, xBins: ['0', '1', '2', '3', '4', '5', '6', '7', '8', '9'] });
    // Of a = 3, b = 7, 8, 9 are more than 9 together, b = 3 is the same.
    expect(picture?.cells[3]).toEqual({
      rules: [3, 1, 0, 6],
      noRule: 0,
      noValue: 0,
      out: 0,
      range: null,
      values: null,
    });
  });

  test('a map has one draw in each of its cells where only two values are drawn', () => {
    const { picture } = surveyed(deckOf({ draw, asks: [rules], require: ['a < 9'] }), { x: 'a', y: 'b' });
    expect(picture?.cells.length).toBe(100);
    for (const [i, cell] of (picture?.cells ?? []).entries()) {
      const [a, b] = [i % 10, Math.floor(i / 10)];
      const rule = a + b > 9 ? 0 : a === b ? 1 : 3;
      expect(cell.out).toBe(a === 9 ? 1 : 0);
      expect(cell.rules).toEqual([0, 1, 2, 3].map((k) => (a < 9 && k === rule ? 1 : 0)));
    }
  });

  test('boundaries stand between the two values that differ', () => {
    const s = surveyed(deckOf({ draw, asks: [rules] }), { around: { a: 3, b: 2 } });
    // Along a with b = 2: same at 2, much from 8 on. Along b with a = 3: same at 3, much from 7 on.
    expect(s.boundaries.map(({ axis, below, above, from, to }) => [axis, below, above, from, to])).toEqual([
      [0, '1', '2', 3, 1],
      [0, '2', '3', 1, 3],
      [0, '7', '8', 3, 0],
      [1, '2\u00a0kt', '3\u00a0kt', 3, 1],
      [1, '3\u00a0kt', '4\u00a0kt', 1, 3],
      [1, '6\u00a0kt', '7\u00a0kt', 3, 0],
    ]);
  });

  test('around a draw the rest stays as it is', () => {
    const three = { ...draw, c: { from: 0, to: 5 } };
    const asks = [
      choose([
        ['up', 'a + c > 7'],
        ['down', null],
      ]),
    ];
    const { picture } = surveyed(deckOf({ draw: three, asks }), { around: { a: 0, b: 0, c: 4 }, x: 'a', y: 'b' });
    for (const [i, cell] of (picture?.cells ?? []).entries())
      expect(cell.rules).toEqual((i % 10) + 4 > 7 ? [1, 0] : [0, 1]);
    // Nothing chosen: what decides goes along, what decides nothing does not.
    expect(surveyed(deckOf({ draw: three, asks })).picture).toMatchObject({ x: 0, y: 2 });
  });

  test('a number has its range, along what changes it most', () => {
    const asks = [{ id: 'sum', ask: 'Ten times the first and the second?', number: '10 * a + b', unit: 'ft' }];
    const s = surveyed(deckOf({ draw, asks }));
    expect(s.asks[0]).toMatchObject({ answered: 100, rules: null, range: ['0\u00a0ft', '99\u00a0ft'] });
    expect(s.picture).toMatchObject({ x: 0, y: null });
    expect(s.picture?.cells[4]).toMatchObject({ range: ['40\u00a0ft', '49\u00a0ft'], values: [40, 49] });
    for (const { drawn, answers } of s.examples)
      expect(answers[0]?.words).toBe(`${10 * Number(drawn.a) + Number(drawn.b)}\u00a0ft`);
  });

  test('examples show each rule that can be reached; another seed shows others', () => {
    const deck = deckOf({ draw, asks: [rules] });
    const { examples } = surveyed(deck);
    expect(new Set(examples.map((e) => e.answers[0]?.outcome))).toEqual(new Set([0, 1, 3]));
    for (const { drawn, answers, shown } of examples) {
      const [a, b] = [Number(drawn.a), Number(drawn.b)];
      expect(answers[0]?.words).toBe(a + b > 9 ? 'Do much' : a === b ? 'Do same' : 'Do rest');
      expect(shown).toEqual([`${a}`, `${b}\u00a0kt`]);
    }
    expect(surveyed(deck)).toEqual(surveyed(deck));
    expect(surveyed(deck, { seed: 2 }).examples).not.toEqual(examples);
  });

  test('more than 50,000 combinations are sampled', () => {
    const wide = { ...draw, c: { from: 0, to: 999 } };
    const s = surveyed(deckOf({ draw: wide, asks: [rules] }));
    expect([s.exact, s.tried]).toEqual([false, 20_000]);
    const [much = 0, same = 0, never, rest = 0] = counts(s) ?? [];
    // Shares of 45, 5 and 50 in 100; five standard deviations of 20,000 draws are below 1.8 in 100.
    for (const [n, share] of [
      [much, 0.45],
      [same, 0.05],
      [rest, 0.5],
    ] as const)
      expect(Math.abs(n / s.tried - share)).toBeLessThan(0.018);
    expect(never).toBe(0);
    expect(s.axes[2]?.bins.length).toBe(24);
    expect(s.axes[2]?.bins[0]).toBe('0 – 41');
  });
});

describe('wind of 40 kt from all sides of one runway', () => {
  // Crosswind 0°, 10° … 90° off at 40 kt: trigonometry, one decimal; the crosswind component chart of FAA-H-8083-25,
  // Figure 11-31, draws the same.
  const CROSS = [0, 6.9, 13.7, 20, 25.7, 30.6, 34.6, 37.6, 39.4, 40];
  const crossAt = (degrees: number): number => {
    const off = Math.abs(((degrees + 180) % 360) - 180);
    return CROSS[(off > 90 ? 180 - off : off) / 10] as number;
  };
  const scenario = {
    draw: {
      runway: { oneOf: [360], show: 'runway' },
      windDir: { from: 10, to: 360, step: 10, show: 'direction', unit: '°' },
      windSpeed: { from: 40, to: 40, unit: 'kt' },
    },
    let: { cross: 'abs(crosswind(windDir, windSpeed, runway))' },
    asks: [
      choose([
        ['refuse', 'cross > 33'],
        ['full', 'cross > 15'],
        ['half', null],
      ]),
    ],
  };

  test('each rule has the directions that the chart gives it', () => {
    const s = surveyed(deckOf(scenario), { x: 'windDir', y: '' });
    const directions = Array.from({ length: 36 }, (_, i) => 10 * (i + 1));
    const chart = directions.map((d) => (crossAt(d) > 33 ? 0 : crossAt(d) > 15 ? 1 : 2));
    expect(counts(s)).toEqual([0, 1, 2].map((k) => chart.filter((r) => r === k).length));
    expect(counts(s)).toEqual([14, 12, 10]);
    expect(s.boundaries[0]).toMatchObject({ below: '020°', above: '030°', from: 2, to: 1 });
    expect(s.boundaries.length).toBe(8);
    expect(s.asks[0]?.rules?.[0]?.words).toBe('crosswind is above 33\u00a0kt');
  });
});

describe('variants', () => {
  const deck = deckOf(
    {
      draw: { a: { from: 0, to: 9 } },
      asks: [
        choose([
          ['over', 'a > limit("most")'],
          ['under', null],
        ]),
      ],
    },
    {
      variants: [
        { id: 'engine', label: 'Engine', options: { x: 'Engine X', y: 'Engine Y' } },
        { id: 'operator', label: 'Operator', options: { c: 'Calder', f: 'Fellwater' } },
      ],
      limits: [
        {
          id: 'most',
          ask: 'Most',
          unit: 'kt',
          sense: 'at most',
          source: 'som',
          cases: [
            { id: 'x', when: { engine: 'x' }, value: 6 },
            { id: 'y', when: { engine: 'y' }, value: 2 },
          ],
        },
      ],
    },
  );
  test('those that differ here stand side by side, named by what makes them differ', () => {
    const s = surveyed(deck);
    expect(s.variants).toEqual(['Engine X', 'Engine Y']);
    expect(counts(s)).toEqual([3, 7]);
    expect(counts(surveyed(deck, { variant: 1 }))).toEqual([7, 3]);
  });
  test('where nothing differs there is one, without a name', () => {
    expect(
      surveyed(
        deckOf({
          draw: { a: { from: 0, to: 9 } },
          asks: [
            choose([
              ['all', null],
              ['none', 'a > 3'],
            ]),
          ],
        }),
      ).variants,
    ).toEqual(['']);
  });
});

test.each([
  [{ none: '', fire: 'Fire warning' }, ['nothing to show', 'Fire warning']],
  [
    { none: '', other: ' ', fire: 'Fire warning' },
    ['nothing to show (none)', 'nothing to show (other)', 'Fire warning'],
  ],
])('events %o are called by what is shown', (oneOf, words) => {
  const found = surveyed(
    changed((d: Loose) => {
      d.scenarios[0].draw.event = { oneOf };
    }),
  );
  expect(found.axes.find(({ name }) => name === 'event')?.bins).toEqual(words);
});

describe('a draft that is not right', () => {
  test('mistakes elsewhere do not matter; those of the scenario do', () => {
    const elsewhere = changed((d: Loose) => {
      d.procedures[0].steps[0].say = 17;
    });
    expect(surveyed(elsewhere).met).toBeGreaterThan(0);
    expect(
      run(
        changed((d: Loose) => {
          d.scenarios[0].draw.windSpeed.to = '3x';
        }),
      ),
    ).toEqual({ problem: 'shape', at: '/scenarios/0/draw/windSpeed/to' });
    expect(
      run(
        changed((d: Loose) => {
          d.scenarios[0].asks = [];
        }),
      ),
    ).toEqual({ problem: 'shape', at: '/scenarios/0/asks' });
    expect(
      run(
        changed((d: Loose) => {
          d.scenarios[0].require = ['nothing > 3'];
        }),
      ),
    ).toEqual({ problem: 'errors', at: '/scenarios/0/require/0' });
    expect(
      run(
        changed((d: Loose) => {
          d.scenarios[0].when = { not: { engine: ['a', 'b'] } };
        }),
      ),
    ).toEqual({ problem: 'nowhere' });
    expect(run({}, {})).toMatchObject({ problem: 'shape' });
  });
});

describe.each(['merrow-takeoff', 'merrow-abnormal', 'wind-altimetry'])('%s', (name) => {
  const deck = JSON.parse(readFileSync(`decks/${name}.deck.json`, 'utf8')) as Deck;
  test.each((deck.scenarios ?? []).map((s, i) => [s.id, i] as const))(
    '%s: every draw is counted once',
    (_id, scenario) => {
      const asks = deck.scenarios?.[scenario]?.asks ?? [];
      const s = surveyed(deck, { scenario, ask: asks.length - 1 });
      expect(s.refusals.reduce((n, r) => n + r.count, 0) + s.broken + s.met).toBe(s.tried);
      for (const ask of s.asks) {
        expect(ask.answered + ask.noRule + ask.noValue + ask.notAsked).toBe(s.met);
        if (ask.rules) expect(ask.rules.reduce((n, r) => n + r.count, 0)).toBe(ask.answered);
        // The decks that are shipped have no rule that is never reached, no draw without one.
        if (s.exact) for (const rule of ask.rules ?? []) expect(rule.count, rule.id).toBeGreaterThan(0);
        expect(ask.noRule).toBe(0);
      }
      const last = s.asks.at(-1);
      const cells = s.picture?.cells ?? [];
      const sum = (f: (c: Cell) => number): number => cells.reduce((n, c) => n + f(c), 0);
      expect(sum((c) => c.rules.reduce((a, b) => a + b, 0))).toBe(last?.answered);
      expect(sum((c) => c.noValue)).toBe((last?.noValue ?? 0) + s.broken);
      expect(sum((c) => c.rules.reduce((a, b) => a + b, 0) + c.noRule + c.noValue + c.out)).toBe(s.tried);
      expect(s.examples.length).toBeGreaterThan(0);
      for (const e of s.examples) expect([NO_RULE, NO_VALUE, NOT_ASKED]).not.toContain(e.answers.at(-1)?.outcome);
    },
  );
});
