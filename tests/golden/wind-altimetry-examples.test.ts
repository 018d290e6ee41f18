import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { compile, treeOf } from '../../src/formula/evaluate.ts';
import { parse } from '../../src/formula/parse.ts';
import { type ChooseAsk, type Deck, isNumberAsk, type NumberAsk, type Scenario } from '../../src/model/deck.ts';

/*
 * Worked examples from documents, put through the formulas as the deck has them. The source stands beside each. What
 * is "computed from the definition" was computed apart from this program.
 */

type Values = Readonly<Record<string, number | string | boolean>>;

const deck = JSON.parse(readFileSync(new URL('../../decks/wind-altimetry.deck.json', import.meta.url), 'utf8')) as Deck;

const evaluate = (text: string, values: Values): number | string | boolean =>
  compile(treeOf(parse(text)))({ names: values, limit: () => Number.NaN, lookup: () => Number.NaN });

const number = (text: string, values: Values = {}): number => {
  const v = evaluate(text, values);
  if (typeof v !== 'number') throw new Error(`"${text}" gives ${typeof v}, not a number`);
  return v;
};

const scenario = (id: string): Scenario => {
  const s = deck.scenarios?.find((x) => x.id === id);
  if (!s) throw new Error(`The deck has no scenario "${id}".`);
  return s;
};

/** Drawn values and what the scenario works out from them, in authored order. */
const worked = (s: Scenario, drawn: Values): Values => {
  const values: Record<string, number | string | boolean> = { ...drawn };
  for (const [name, text] of Object.entries(s.let ?? {})) values[name] = evaluate(text, values);
  return values;
};

const numberAsk = (s: Scenario, ask: string): NumberAsk => {
  const a = s.asks.find((x) => x.id === ask);
  if (!a || !isNumberAsk(a)) throw new Error(`${s.id} asks no number "${ask}".`);
  return a;
};

/** The answer that the deck computes. */
const answer = (id: string, ask: string, drawn: Values): number => {
  const s = scenario(id);
  return number(numberAsk(s, ask).number, worked(s, drawn));
};

/** Whether a head calculation would be taken for right. */
const accepted = (id: string, ask: string, drawn: Values, given: number): boolean => {
  const band = numberAsk(scenario(id), ask).accept ?? 0;
  const { plus, minus } = typeof band === 'number' ? { plus: band, minus: band } : band;
  const right = answer(id, ask, drawn);
  return given <= right + plus + 1e-9 && given >= right - minus - 1e-9;
};

/** Id of the first rule that holds. */
const rule = (id: string, ask: string, drawn: Values): string | undefined => {
  const s = scenario(id);
  const a = s.asks.find((x) => x.id === ask) as ChooseAsk;
  const values = worked(s, drawn);
  return a.choose.rules.find((r) => r.if === undefined || evaluate(r.if, values) === true)?.id;
};

const near = (value: number, expected: number, tolerance: number): void => {
  expect(Math.abs(value - expected), `${value} against ${expected}`).toBeLessThanOrEqual(tolerance + 1e-9);
};

// [wind speed, [headwind, crosswind] at 0°, 10° … 90° off]. Trigonometry, one decimal; PHAK Figure 11-31 draws the same.
const WIND_TABLE: readonly (readonly [number, readonly (readonly [number, number])[]])[] = [
  [
    10,
    [
      [10, 0],
      [9.8, 1.7],
      [9.4, 3.4],
      [8.7, 5],
      [7.7, 6.4],
      [6.4, 7.7],
      [5, 8.7],
      [3.4, 9.4],
      [1.7, 9.8],
      [0, 10],
    ],
  ],
  [
    20,
    [
      [20, 0],
      [19.7, 3.5],
      [18.8, 6.8],
      [17.3, 10],
      [15.3, 12.9],
      [12.9, 15.3],
      [10, 17.3],
      [6.8, 18.8],
      [3.5, 19.7],
      [0, 20],
    ],
  ],
  [
    30,
    [
      [30, 0],
      [29.5, 5.2],
      [28.2, 10.3],
      [26, 15],
      [23, 19.3],
      [19.3, 23],
      [15, 26],
      [10.3, 28.2],
      [5.2, 29.5],
      [0, 30],
    ],
  ],
  [
    40,
    [
      [40, 0],
      [39.4, 6.9],
      [37.6, 13.7],
      [34.6, 20],
      [30.6, 25.7],
      [25.7, 30.6],
      [20, 34.6],
      [13.7, 37.6],
      [6.9, 39.4],
      [0, 40],
    ],
  ],
];

describe('wind', () => {
  it.each(WIND_TABLE)('components of %i kt, from either side and on any runway', (windSpeed, rows) => {
    rows.forEach(([head, cross], i) => {
      for (const [runway, windDir] of [
        [360, 10 * i],
        [360, 360 - 10 * i],
        [70, 70 + 10 * i],
        [290, 290 + 10 * i],
      ] as const) {
        near(answer('headwind-component', 'headwind', { runway, windDir, windSpeed }), head, 0.05);
        near(answer('crosswind-component', 'crosswind', { runway, windDir, windSpeed }), cross, 0.05);
      }
    });
  });

  it('40 kt, 30° off: 35 kt along, 20 kt across (common example; trigonometry)', () => {
    const drawn = { runway: 360, windDir: 30, windSpeed: 40 };
    near(answer('headwind-component', 'headwind', drawn), 35, 0.5);
    near(answer('crosswind-component', 'crosswind', drawn), 20, 0.5);
  });

  it('a wind of 360° and one of 0° are the same (definition)', () => {
    for (const runway of [30, 160, 360]) {
      const at = (windDir: number) => answer('headwind-component', 'headwind', { runway, windDir, windSpeed: 20 });
      near(at(360), at(0), 1e-12);
    }
  });

  it('a headwind of -10 kt is a tailwind of 10 kt (definition)', () => {
    near(number('headwind(180, 10, 360)'), -10, 1e-12);
    expect(rule('runway-end', 'end', { runway: 30, windDir: 210, windSpeed: 10 })).toBe('headwind-opposite');
  });

  it.each([
    [120, 'square-across'],
    [300, 'square-across'],
    [110, 'headwind-named'],
    [310, 'headwind-named'],
    [130, 'headwind-opposite'],
    [290, 'headwind-opposite'],
  ] as const)('runway 03, wind from %i°: %s (plane geometry, both sides of 90°)', (windDir, expected) => {
    expect(rule('runway-end', 'end', { runway: 30, windDir, windSpeed: 12 })).toBe(expected);
  });

  it.each([
    [20, 'right-ahead'],
    [340, 'left-ahead'],
    [160, 'right-behind'],
    [200, 'left-behind'],
  ] as const)('runway 36, wind from %i°: %s (plane geometry)', (windDir, expected) => {
    expect(rule('wind-quarter', 'quarter', { runway: 360, windDir, windSpeed: 10 })).toBe(expected);
  });

  it('holds each component against its own limit (20 kt, 60° off: 10.0 along, 17.3 across; trigonometry)', () => {
    const usable = (windDir: number, tailLimit: number, crossLimit: number) =>
      rule('runway-limits', 'usable', { runway: 360, windDir, windSpeed: 20, tailLimit, crossLimit });
    expect(usable(60, 5, 20)).toBe('headwind-allowed');
    expect(usable(60, 5, 12)).toBe('crosswind-refuses');
    expect(usable(120, 5, 20)).toBe('tailwind-refuses');
    expect(usable(240, 15, 20)).toBe('tailwind-allowed');
  });

  it('counts the gust against a limit of 12 kt (30° off: half; trigonometry)', () => {
    const within = (windSpeed: number, gust: number) =>
      rule('gust-limit', 'within', { runway: 70, windDir: 100, windSpeed, gust, crossLimit: 12 });
    expect(within(10, 20)).toBe('gust-within');
    expect(within(20, 30)).toBe('gust-beyond');
    expect(within(28, 36)).toBe('steady-beyond');
  });

  it('crosswind limit 15 kt, wind 50° off: largest wind 19.58 kt (trigonometry), 19 in whole knots: 20 is beyond', () => {
    expect(answer('largest-wind', 'wind', { angle: 50, crossLimit: 15 })).toBe(Math.floor(19.58));
    for (const angle of [20, 30, 40, 50, 60, 70]) {
      const whole = answer('largest-wind', 'wind', { angle, crossLimit: 12 });
      const across = (wind: number) => wind * Math.sin((angle * Math.PI) / 180);
      expect(across(whole)).toBeLessThanOrEqual(12 + 1e-9);
      expect(across(whole + 1)).toBeGreaterThan(12);
    }
  });

  it.each([
    [15, 0.25],
    [30, 0.5],
    [45, 0.75],
    [60, 1],
    [80, 1],
  ])('clock code at %i° off: %d of the wind (rule of thumb)', (angle, part) => {
    near(answer('clock-code', 'estimate', { angle, windSpeed: 20 }), 20 * part, 1e-9);
    // True sines .259 .500 .707 .866 .985: the rule is within .14 of them, and never more than .01 below.
    const sine = number('sin(toRadians(angle))', { angle });
    near(part, sine, 0.14);
    expect(part).toBeGreaterThan(sine - 0.01);
  });

  it('maximum drift at 120 kt with 20 kt of wind: 10° (1-in-60 rule)', () => {
    near(answer('max-drift', 'drift', { tas: 120, windSpeed: 20 }), 10, 0.5);
    // The rule itself: 1° over 60 NM is 1.047 NM (trigonometry).
    near(number('60 * tan(toRadians(1))'), 1.047, 0.001);
  });

  it.each([
    [236, 'right', 8, 244], // FAA-H-8083-25 chapter 16, example
    [236, 'left', 8, 228], // the same, other side: subtract
    [355, 'right', 8, 3], // definition: past north
    [4, 'left', 8, 356],
    [352, 'right', 8, 360], // north is 360, never 000
    [8, 'left', 8, 360],
  ])('course %i, wind from the %s, correction %i°: heading %i', (course, side, wca, heading) => {
    near(answer('wind-correction', 'heading', { course, side, wca }), heading, 1e-9);
  });
});

describe('altimetry', () => {
  // Standard temperatures, FAA-H-8083-25 Figure 4-3: printed to 0.1 °C.
  it.each([
    [0, 15],
    [1000, 13],
    [2000, 11],
    [3000, 9.1],
    [4000, 7.1],
    [5000, 5.1],
    [6000, 3.1],
    [7000, 1.1],
    [8000, -0.9],
    [9000, -2.8],
    [10_000, -4.8],
    [12_000, -8.8],
    [15_000, -14.7],
    [18_000, -20.7],
    [20_000, -24.6],
  ])('at %i ft, %d °C is standard (FAA-H-8083-25 Figure 4-3)', (altitude, oat) => {
    // One decimal; at 8,000 ft the table rounds -0.8496 to -0.9.
    near(answer('isa-deviation', 'from-standard', { altitude, oat }), 0, 0.051);
  });

  // ISO 2533 constants, computed from the definition.
  it.each([
    [0, 15],
    [5000, 5.09],
    [10_000, -4.81],
    [30_000, -44.44],
    [36_089, -56.5],
    [40_000, -56.5],
  ])('at %i ft the standard temperature is %d °C (ISO 2533, computed)', (altitude, standard) => {
    near(answer('isa-deviation', 'from-standard', { altitude, oat: standard + 10 }), 10, 0.01);
    // The rule for the head, 15 °C less 2 °C a thousand feet, is accepted wherever the deck draws (up to 36,000 ft).
    if (altitude <= 36_000) {
      const byRule = standard + 10 - (15 - (2 * altitude) / 1000);
      expect(accepted('isa-deviation', 'from-standard', { altitude, oat: standard + 10 }, byRule)).toBe(true);
    }
  });

  // 14 CFR Part 43 Appendix E (Amdt. 43-49) Table IV, altitude difference in ft by setting in inHg; 1 inHg = 33.86389 hPa.
  it.each([
    [28.1, -1727],
    [29, -863],
    [29.92, 0],
    [30.9, 893],
  ])('setting %d inHg: altitude difference %i ft (14 CFR Part 43 Appendix E Table IV)', (inHg, difference) => {
    const qnh = inHg * 33.86389;
    for (const elevation of [0, 3000]) {
      near(answer('pressure-altitude', 'airport-level', { elevation, qnh }), elevation - difference, 1.5);
    }
    // An altimeter left on the standard setting reads pressure altitude.
    const drawn = { setting: 1013.25, qnh, indicated: 5000 };
    near(answer('old-setting', 'true-altitude', drawn), 5000 + difference, 1.5);
  });

  it('30 ft for a hectopascal is accepted over all that is drawn (rule of thumb)', () => {
    for (const qnh of [985, 1000, 1006, 1020, 1030, 1040]) {
      const byRule = 2000 + 30 * (1013 - qnh);
      expect(accepted('pressure-altitude', 'airport-level', { elevation: 2000, qnh }, byRule), `${qnh}`).toBe(true);
    }
    for (const [setting, qnh] of [
      [1035, 1010],
      [1015, 990],
      [1000, 1025],
    ] as const) {
      const byRule = 4000 - 30 * (setting - qnh);
      const drawn = { setting, qnh, indicated: 4000 };
      expect(accepted('old-setting', 'true-altitude', drawn, byRule), `${setting} ${qnh}`).toBe(true);
    }
  });

  it('from high to low the aeroplane is lower than it reads (definition)', () => {
    const side = (setting: number, qnh: number) => rule('old-setting', 'side', { setting, qnh, indicated: 3000 });
    expect(side(1020, 1000)).toBe('set-too-high');
    expect(side(1000, 1020)).toBe('set-too-low');
    expect(side(1013, 1013)).toBe('set-right');
  });

  it('5,718 ft and 70 °F: density altitude 7,811 ft by rule, 7,709 exact, 7,700 on the chart (FAA handbook problem)', () => {
    const drawn = { altitude: 5718, oat: ((70 - 32) * 5) / 9 };
    near(answer('density-altitude', 'density', drawn), 7811, 1);
    near(number('densityAltitude(altitude, oat)', drawn), 7709, 1);
    // What a reader of the chart finds is taken for right.
    expect(accepted('density-altitude', 'density', drawn, 7700)).toBe(true);
  });

  it('true airspeed is equivalent airspeed by the root of the density ratio (14 CFR 1.1; density from ISO 2533)', () => {
    // Densities 1.0555 and 0.9046 kg/m3 at 5,000 and 10,000 ft, computed from the definition.
    near(number('trueAirspeed(150, 5000, 5.09)'), 150 * Math.sqrt(1.225 / 1.0555), 0.02);
    near(number('trueAirspeed(150, 10000, -4.81)'), 150 * Math.sqrt(1.225 / 0.9046), 0.02);
  });
});

describe('climb, descent, time and turns', () => {
  it('FL 350 to sea level by 3:1: 105 NM (rule of three)', () => {
    near(answer('top-of-descent', 'distance', { level: 350, target: 0 }), 105, 1e-9);
  });

  // Exact, and five times the ground speed: trigonometry.
  it.each([
    [90, 478, 450],
    [120, 637, 600],
    [140, 743, 700],
    [160, 849, 800],
  ])('3° at %i kt over the ground: %i ft/min, by rule %i', (groundSpeed, exact, byRule) => {
    const drawn = { tas: groundSpeed + 20, wind: 20 };
    near(answer('descent-rate', 'sink-rate', drawn), exact, 1);
    expect(accepted('descent-rate', 'sink-rate', drawn, byRule)).toBe(true);
    // Forgetting the wind is not.
    expect(accepted('descent-rate', 'sink-rate', drawn, 5.307 * (groundSpeed + 20))).toBe(false);
  });

  it('a 3° path loses 318.4 ft a mile (trigonometry)', () => {
    near(number('6076.12 * tan(toRadians(3))'), 318.4, 0.5);
  });

  // Computed: 1 NM = 6,076.1 ft (FAA-H-8083-25).
  it.each([
    [2.4, 146],
    [3, 182],
    [3.3, 201],
  ])('%d per cent is %i ft/NM', (percent, perMile) => {
    const drawn = { percent, groundSpeed: 120 };
    near(answer('climb-gradient', 'per-mile', drawn), perMile, 0.5);
    near(answer('climb-gradient', 'climb-rate', drawn), 2 * perMile, 1);
    expect(accepted('climb-gradient', 'per-mile', drawn, 60 * percent)).toBe(true);
    expect(accepted('climb-gradient', 'climb-rate', drawn, percent * 120)).toBe(true);
  });

  // FAA-H-8083-25 chapter 16, basic calculations.
  it.each([
    [210, 140, 90],
    [210, 120, 105],
    [270, 90, 180],
  ])('%i NM at %i kt: %i min', (distance, groundSpeed, minutes) => {
    near(answer('leg-time', 'time', { distance, groundSpeed }), minutes, 1e-9);
  });

  // Exact: trigonometry; by rule: speed over ten plus seven.
  it.each([
    [120, 18.2, 19],
    [180, 26.3, 25],
  ])('rate one at %i kt: %d° of bank, by rule %i', (tas, exact, byRule) => {
    near(answer('rate-one-bank', 'bank', { tas }), exact, 0.05);
    expect(accepted('rate-one-bank', 'bank', { tas }, byRule)).toBe(true);
  });

  it('a level turn with 60° of bank pulls 2 g (FAA-H-8083-25 Figure 5-53; 1/cos)', () => {
    near(number('1 / cos(toRadians(60))'), 2, 0.05);
  });
});
