import { describe, expect, test } from 'vitest';
import { draw, mark, offers } from '../../../src/forms/registry.ts';
import type { Deck, Scenario } from '../../../src/model/deck.ts';
import type { Marked, Offer, ScenarioShown } from '../../../src/model/form.ts';
import type { Resolved } from '../../../src/subjects/resolved.ts';
import { answerDetail, drawnScenario, offerFor, plain, rule, scenarioDeck } from './small-decks.ts';

/** Headwind and crosswind by plain trigonometry, apart from the program: speed times cosine and sine of the angle. */
const along = (dir: number, speed: number, runway: number): number =>
  speed * Math.cos(((dir - runway) * Math.PI) / 180);
const across = (dir: number, speed: number, runway: number): number =>
  speed * Math.sin(((dir - runway) * Math.PI) / 180);

const SEEDS = [...Array(40).keys()];
const wind = {
  runway: { oneOf: [70, 250], show: 'runway' },
  windDir: { from: 10, to: 360, step: 10, show: 'direction' },
  windSpeed: { from: 4, to: 34 },
} as const;
const stick: Partial<Scenario> = {
  situation: 'Runway {runway}, wind {windDir}/{windSpeed} kt.',
  picture: 'runway-wind',
  draw: wind,
  let: {
    cross: 'abs(crosswind(windDir, windSpeed, runway))',
    tail: 'max(0, -headwind(windDir, windSpeed, runway))',
  },
  require: ['cross >= 2', 'tail <= 10'],
  asks: [
    { id: 'cross', ask: 'Crosswind component', number: 'cross', unit: 'kt', accept: { plus: 2, minus: 2 } },
    {
      id: 'stick',
      ask: 'Stick',
      choose: {
        options: { half: 'Half forward', full: 'Full forward', stop: 'Do not take off', neutral: 'Neutral' },
        rules: [
          rule('beyond', 'cross > 30', ['stop'], { why: 'Beyond the limit with {windSpeed} kt.' }),
          rule('strong', 'tail > 0 || cross > 18', ['full'], { slip: 'Half, as on another type.' }),
          rule('normal', '', ['half', 'neutral']),
        ],
      },
    },
  ],
} as unknown as Partial<Scenario>;
const all = scenarioDeck(stick);
const ruleOffer = (rule: string, from: Resolved = all): Offer =>
  offerFor(from, 'scenario', (o) => o.about.rule === rule);
const numberOffer = (from: Resolved = all): Offer => offerFor(from, 'scenario', (o) => o.about.rule === undefined);
const typed = (from: Resolved, offer: Offer, shown: ScenarioShown, value: number): Marked =>
  mark(from, offer, shown, { typed: [String(value)], value: [value] });
const windOf = ({ drawn }: ScenarioShown): [number, number, number] => [
  Number(drawn.windDir),
  Number(drawn.windSpeed),
  Number(drawn.runway),
];

describe('a computed number', () => {
  test('what is computed the wrong way is never counted right, also not at the edge of what is said', () => {
    const slips = [{ number: 'windSpeed', note: 'That is the whole wind.' }];
    const [cross] = stick.asks as unknown as readonly [object];
    const whole = scenarioDeck({ ...stick, asks: [{ ...cross, slips }] } as unknown as Partial<Scenario>);
    let edge = 0;
    for (let seed = 0; seed < 400; seed++) {
      const shown = drawnScenario(whole, numberOffer(whole), seed);
      const [dir, speed, runway] = windOf(shown);
      const right = Math.abs(across(dir, speed, runway));
      if (speed - right < 3) edge += 1;
      expect(typed(whole, numberOffer(whole), shown, speed)).toMatchObject({
        flawed: true,
        detail: { slip: 'That is the whole wind.' },
      });
    }
    expect(edge).toBeGreaterThan(5);
  });

  test('is marked like a threshold, within its band, by the drawn values', () => {
    for (const seed of SEEDS) {
      const offer = numberOffer();
      const shown = drawnScenario(all, offer, seed);
      const right = Math.abs(across(...windOf(shown)));
      const m = (value: number) => Object.values(typed(all, offer, shown, value).marks)[0];
      expect(m(right)).toBe('right');
      expect(m(right + 1.999)).toBe('right');
      expect(m(right - 1.999)).toBe('right');
      // The answer is told in whole knots: 2 kt from what is told is within 2 kt.
      const said = Math.round(right);
      // Half way it may be told up or down: sine and cosine are not exact.
      if (Math.abs(Math.abs(right - said) - 0.5) < 1e-6) continue;
      expect(m(said + 2)).toBe('right');
      expect(m(said - 2)).toBe('right');
      expect(m(Math.max(right, said) + 2.001)).toBe('wrong');
      expect(m(Math.min(right, said) - 2.001)).toBe('wrong');
      expect(m(Math.round(right))).toBe('right');
    }
  });

  test('sine and cosine exchanged shows in every draw: the wind is away from 45°; the whole wind shows where it is far enough', () => {
    const offer = numberOffer();
    for (const seed of SEEDS) {
      const shown = drawnScenario(all, offer, seed);
      const right = Math.abs(across(...windOf(shown)));
      const swapped = Math.abs(along(...windOf(shown)));
      const whole = windOf(shown)[1];
      expect(Math.abs(right - swapped)).toBeGreaterThan(6);
      expect(answerDetail(typed(all, offer, shown, Math.round(swapped))).slip).toMatch(
        /^Sine and cosine are exchanged/,
      );
      const { slip } = answerDetail(typed(all, offer, shown, whole));
      // Nearer than three bands it may as well be a rough answer.
      if (whole - right > 6) expect(slip).toMatch(/whole wind/);
      else expect(slip).toBeUndefined();
      expect(answerDetail(typed(all, offer, shown, Math.round(right))).slip).toBeUndefined();
    }
  });

  test("the author's words for a slip go before the machine's, their places filled", () => {
    const own = scenarioDeck({
      ...stick,
      asks: [
        {
          id: 'cross',
          ask: 'Crosswind?',
          number: 'cross',
          unit: 'kt',
          accept: 2,
          slips: [{ number: 'abs(headwind(windDir, windSpeed, runway))', note: 'Along runway {runway}.' }],
        },
      ],
    } as unknown as Partial<Scenario>);
    const offer = numberOffer(own);
    const shown = drawnScenario(own, offer, 3);
    const slip = answerDetail(typed(own, offer, shown, Math.abs(along(...windOf(shown))))).slip;
    expect(slip).toBe(`Along runway ${windOf(shown)[2] === 70 ? '07' : '25'}.`);
  });

  test('without a band the number as it is said is right', () => {
    const thirds = scenarioDeck({
      draw: { x: { oneOf: [1] } },
      asks: [{ id: 'n', ask: 'How much?', number: 'x / 3', unit: 'NM' }],
    });
    const offer = numberOffer(thirds);
    const shown = drawnScenario(thirds, offer);
    expect(plain(answerDetail(typed(thirds, offer, shown, 1)).right)).toBe('0.33 NM');
    expect(Object.values(typed(thirds, offer, shown, 0.33).marks)).toEqual(['right']);
    expect(Object.values(typed(thirds, offer, shown, 1 / 3).marks)).toEqual(['right']);
    expect(Object.values(typed(thirds, offer, shown, 0.34).marks)).toEqual(['wrong']);
  });

  test('a computed direction is whole degrees; 360 is 0', () => {
    const course = scenarioDeck({
      draw: { x: { oneOf: [359.7] } },
      asks: [{ id: 'n', ask: 'Heading?', number: 'x', unit: '°', show: 'direction' }],
    });
    const offer = numberOffer(course);
    const shown = drawnScenario(course, offer);
    for (const value of [0, 360, 359.7]) {
      expect(Object.values(typed(course, offer, shown, value).marks)).toEqual(['right']);
    }
    expect(answerDetail(typed(course, offer, shown, 10)).right).toBe('360°');
  });

  test('how it is worked out: the values it stands on, in order', () => {
    const offer = numberOffer();
    const shown = drawnScenario(all, offer, 3);
    const { working } = answerDetail(mark(all, offer, shown, null));
    expect(working).toHaveLength(1);
    expect(plain(working[0] ?? '')).toMatch(/^crosswind = \d+(\.\d)? kt$/);
  });
});

describe('guessing a computed number', () => {
  const line = (to: number, accept: number) =>
    scenarioDeck({ draw: { x: { from: 1, to } }, asks: [{ id: 'n', ask: '?', number: 'x * 10', unit: 'ft', accept }] });
  const g = (to: number, accept: number): number => numberOffer(line(to, accept)).g;
  test('is as likely as another situation has a right number within the band', () => {
    // Of 1..100 evenly, a band of 9.5 steps either way holds 19 whole steps, a little less at the ends: some .18.
    expect(Math.abs(g(100, 95) - 0.18)).toBeLessThan(0.05);
    expect(g(100, 0)).toBeLessThan(0.03);
    expect(g(2, 0)).toBeGreaterThan(0.4);
    expect(g(1, 0)).toBe(0.5);
    expect(g(100_000, 0)).toBe(0.01);
  });
  test('is the same in the question and in the mark, and from one reading of the deck to the next', () => {
    const [one, two] = [line(40, 30), line(40, 30)];
    const offer = numberOffer(one);
    expect(typed(one, offer, drawnScenario(one, offer, 4), 1).g).toBe(offer.g);
    expect(numberOffer(two).g).toBe(offer.g);
  });
  test('where nothing can be drawn it is least', () => {
    const never = scenarioDeck({
      draw: { x: { from: 1, to: 9 } },
      require: ['x > 9'],
      asks: [{ id: 'n', ask: '?', number: 'x', unit: 'ft' }],
    });
    expect(numberOffer(never).g).toBe(0.01);
  });
});

describe('a rule', () => {
  const HOLDS: Record<string, (cross: number, tail: number) => boolean> = {
    beyond: (cross) => cross > 30,
    strong: (cross, tail) => cross <= 30 && (tail > 1e-6 || cross > 18),
    normal: (cross, tail) => cross <= 18 && tail <= 1e-6,
  };
  const RIGHT: Record<string, string[]> = { beyond: ['stop'], strong: ['full'], normal: ['half', 'neutral'] };

  test.each(['beyond', 'strong', 'normal'])('%s: the draw is steered to it, its item gets the verdict', (rule) => {
    const offer = ruleOffer(rule);
    for (const seed of SEEDS) {
      const shown = drawnScenario(all, offer, seed);
      const [dir, speed, runway] = windOf(shown);
      const cross = Math.abs(across(dir, speed, runway));
      const tail = Math.max(0, -along(dir, speed, runway));
      expect(HOLDS[rule]?.(cross, tail), `${dir} ${speed} ${runway}`).toBe(true);
      // What the author requires of every situation.
      expect(cross).toBeGreaterThanOrEqual(2 - 1e-9);
      expect(tail).toBeLessThanOrEqual(10 + 1e-9);
      for (const choice of ['half', 'full', 'stop', 'neutral']) {
        const marked = mark(all, offer, shown, { choice });
        expect(Object.entries(marked.marks)).toEqual([
          [offer.proves[0], RIGHT[rule]?.includes(choice) ? 'right' : 'wrong'],
        ]);
      }
    }
  });

  test('near its boundary, but at least one accepted band off it', () => {
    const distance = (rule: string, bound: number): number[] =>
      SEEDS.map((seed) => {
        const [dir, speed, runway] = windOf(drawnScenario(all, ruleOffer(rule), seed));
        return Math.abs(Math.abs(across(dir, speed, runway)) - bound);
      });
    for (const d of [...distance('beyond', 30), ...distance('normal', 18)]) expect(d).toBeGreaterThanOrEqual(2 - 1e-6);
  });

  test('of what can be drawn, what is near the boundary', () => {
    const line = scenarioDeck({
      draw: { x: { from: 0, to: 100 } },
      let: { y: 'x + 0' },
      asks: [
        { id: 'n', ask: 'y?', number: 'y', unit: 'kt', accept: 3 },
        {
          id: 'side',
          ask: 'Side?',
          choose: { options: { a: 'A', b: 'B' }, rules: [rule('above', 'y > 50', ['a']), rule('below', '', ['b'])] },
        },
      ],
    });
    for (const id of ['above', 'below']) {
      const off = SEEDS.map((seed) => Math.abs(Number(drawnScenario(line, ruleOffer(id, line), seed).drawn.x) - 50));
      expect(Math.min(...off)).toBeGreaterThanOrEqual(3);
      // Evenly drawn from 3 to 50 the mean distance would be 26.
      expect(off.reduce((sum, d) => sum + d, 0) / off.length).toBeLessThan(15);
    }
  });

  test('a printed number may lie on the boundary itself', () => {
    const printed = scenarioDeck({
      draw: { speed: { from: 95, to: 105 } },
      asks: [
        { id: 'n', ask: 'Speed?', number: 'speed', unit: 'kt', accept: 3 },
        {
          id: 'go',
          ask: 'Go?',
          choose: {
            options: { go: 'Go', stop: 'Stop' },
            rules: [rule('fast', 'speed > 100', ['go']), rule('slow', '', ['stop'])],
          },
        },
      ],
    } as unknown as Partial<Scenario>);
    const at = (rule: string) =>
      new Set(SEEDS.map((seed) => drawnScenario(printed, ruleOffer(rule, printed), seed).drawn.speed));
    expect(at('fast')).toContain(101);
    expect(at('slow')).toContain(100);
  });

  test('what was chosen instead is explained by its own rule; reason and usual slip are filled in', () => {
    const offer = ruleOffer('strong');
    const shown = drawnScenario(all, offer, 1);
    expect(answerDetail(mark(all, offer, shown, { choice: 'stop' }))).toMatchObject({
      slip: 'That is right where this holds: crosswind is above 30.',
      usualSlip: 'Half, as on another type.',
      right: 'Full forward',
      given: 'Do not take off',
    });
    const beyond = drawnScenario(all, ruleOffer('beyond'), 1);
    const { why } = answerDetail(mark(all, ruleOffer('beyond'), beyond, null));
    expect(why).toBe(`Beyond the limit with ${beyond.drawn.windSpeed} kt.`);
  });

  test('an option of several rules is explained by the one that gives it alone; a choice of values is no sum', () => {
    const two = scenarioDeck({
      draw: {
        speed: { from: 5, to: 95, label: 'Speed', unit: 'kt' },
        wet: { oneOf: { y: 'wet', n: 'dry' }, label: 'Runway' },
      },
      let: { most: "wet == 'y' ? 30 : 50" },
      asks: [
        {
          id: 'go',
          ask: 'Go?',
          choose: {
            options: { go: 'Go', fast: 'Too fast', wet: 'Too wet' },
            rules: [
              rule('both', "speed > most && wet == 'y'", ['fast', 'wet']),
              rule('fast', 'speed > most', ['fast']),
              rule('fine', '', ['go']),
            ],
          },
        },
      ],
    } as unknown as Partial<Scenario>);
    const shown = drawnScenario(two, ruleOffer('fine', two), 3);
    const { slip, working } = answerDetail(mark(two, ruleOffer('fine', two), shown, { choice: 'fast' }));
    expect(slip).toBe('That is right where this holds: speed is above most.');
    const here = shown.drawn.wet === 'y' ? 30 : 50;
    expect(working?.[0]).toMatch(new RegExp(`^most: 30 if .*wet.*, else 50; here ${here}$`));
    expect(working?.filter((line) => line.startsWith('Not here: '))).toHaveLength(2);
    expect(working?.at(-1)).toBe('None of these: Go');
  });

  test('where what was chosen holds here too, it is said that another rule goes before it', () => {
    const two = scenarioDeck({
      draw: { speed: { from: 40, to: 95, label: 'Speed', unit: 'kt' } },
      asks: [
        {
          id: 'go',
          ask: 'Go?',
          choose: {
            options: { go: 'Go', stop: 'Stop', slow: 'Slow down' },
            rules: [
              rule('stop', 'speed > 60', ['stop']),
              rule('slow', 'speed > 30', ['slow']),
              rule('fine', '', ['go']),
            ],
          },
        },
      ],
    } as unknown as Partial<Scenario>);
    const offer = ruleOffer('stop', two);
    expect(answerDetail(mark(two, offer, drawnScenario(two, offer, 3), { choice: 'slow' })).slip).toBe(
      'That holds here, too, but the rule of the answer goes before it.',
    );
  });

  test('one of four by guessing; of two right ones of four, half', () => {
    const g = (rule: string) => mark(all, ruleOffer(rule), drawnScenario(all, ruleOffer(rule)), null).g;
    expect(g('strong')).toBe(0.25);
    expect(g('normal')).toBe(0.5);
    expect(ruleOffer('normal').g).toBe(0.5);
  });
});

describe('what is shown', () => {
  test('texts filled in trade form, the picture, no answer', () => {
    const shown = drawnScenario(all, ruleOffer('strong'), 4);
    const [dir, speed, runway] = windOf(shown);
    expect(shown.situation).toBe(
      `Runway ${runway === 70 ? '07' : '25'}, wind ${String(dir).padStart(3, '0')}/${speed} kt.`,
    );
    expect(shown.picture).toEqual({ runway, windDir: dir, windSpeed: speed });
    expect(Object.keys(shown.drawn).sort()).toEqual(['runway', 'windDir', 'windSpeed']);
  });

  test('the picture shows the gust that some formula reckons with, and no weaker wind', () => {
    const gusts = (cross: string) =>
      scenarioDeck({
        draw: { runway: { oneOf: [70] }, windDir: { oneOf: [100] }, windSpeed: { oneOf: [20] }, gust: { oneOf: [33] } },
        asks: [{ id: 'n', ask: 'Crosswind?', number: cross, unit: 'kt', accept: 2 }],
        picture: 'runway-wind',
      } as unknown as Partial<Scenario>);
    const pictureWith = (cross: string) => {
      const deck = gusts(cross);
      const offer = offers(deck, null, 1).find(({ form }) => form === 'scenario');
      if (offer === undefined) throw new Error('nothing is asked');
      return drawnScenario(deck, offer, 1).picture;
    };
    const wind = { runway: 70, windDir: 100, windSpeed: 20 };
    expect(pictureWith('crosswind(windDir, gust, runway)')).toEqual({ ...wind, gusty: true, gust: 33 });
    expect(pictureWith('crosswind(windDir, windSpeed / 2, runway)')).toEqual({ ...wind, gusty: true });
    expect(pictureWith('crosswind(windDir, windSpeed, runway)')).toEqual(wind);
  });

  test('what is drawn and in no text is said all the same, an event in its words', () => {
    const events = scenarioDeck(
      {
        situation: 'Take-off roll at {speed} kt.',
        draw: {
          speed: { from: 80, to: 150 },
          event: { oneOf: { none: '', fire: 'Fire warning' }, label: 'Event' },
          mass: { oneOf: [50], label: 'Mass', unit: 't' },
        },
        asks: [
          {
            id: 'go',
            ask: 'What now?',
            choose: {
              options: { go: 'Go on', stop: 'Stop' },
              rules: [rule('stop', 'event == "fire" && speed < v1 && mass > 1', ['stop']), rule('go', '', ['go'])],
            },
          },
        ],
      } as unknown as Partial<Scenario>,
      { day: [{ id: 'v1', label: 'V1', unit: 'kt', from: 120, to: 130 }] },
    );
    const offer = ruleOffer('stop', events);
    for (const seed of SEEDS) {
      const shown = drawnScenario(events, offer, seed);
      expect(shown.scene.map(plain)).toEqual(['Event: Fire warning', 'Mass 50 t', `V1 ${shown.drawn.v1} kt`]);
      // No event within 5 kt below V1: that decision is not one of recall.
      const gap = Number(shown.drawn.v1) - Number(shown.drawn.speed);
      expect(gap > 5 || gap <= 0).toBe(true);
    }
  });
});

describe('draws that cannot be', () => {
  const never = (more: Partial<Scenario>, deck: Partial<Deck> = {}) => {
    const one = scenarioDeck(
      { draw: { x: { from: 1, to: 10 } }, asks: [{ id: 'n', ask: '?', number: 'x', unit: 'kt' }], ...more },
      deck,
    );
    return offers(one, null, 1).map((o) => draw(one, o, 1));
  };
  test('a requirement that nothing meets, a number that is none: null, no endless search', () => {
    expect(never({ require: ['x > 10'] })).toEqual([null]);
    expect(never({ let: { y: 'x / 0' }, require: ['y > 1'] })).toEqual([null]);
    expect(never({ asks: [{ id: 'n', ask: '?', number: 'sqrt(-x)', unit: 'kt' }] })).toEqual([null]);
    expect(never({ asks: [{ id: 'n', ask: '?', number: 'limit("gone")', unit: 'kt' }] })).toEqual([null]);
    expect(never({ require: ['x > 9'] })).not.toContain(null);
  });
  test('a rule that never holds is drawn never, the others are', () => {
    const two = scenarioDeck({
      draw: { x: { from: 1, to: 10 } },
      asks: [
        {
          id: 'c',
          ask: '?',
          choose: {
            options: { a: 'A', b: 'B' },
            rules: [rule('never', 'x > 20', ['a']), rule('else', '', ['b'])],
          },
        },
      ],
    } as unknown as Partial<Scenario>);
    expect(draw(two, ruleOffer('never', two), 1)).toBeNull();
    expect(draw(two, ruleOffer('else', two), 1)).not.toBeNull();
  });
});

test('the same seed draws the same; many seeds draw many', () => {
  const offer = ruleOffer('normal');
  expect(drawnScenario(all, offer, 9)).toEqual(drawnScenario(all, offer, 9));
  expect(new Set(SEEDS.map((s) => JSON.stringify(drawnScenario(all, offer, s).drawn))).size).toBeGreaterThan(15);
});

describe('what the verdict and the field say beside the answer', () => {
  test('of two options that are right that either is; of one nothing', () => {
    const counted = (rule: string) => {
      const offer = ruleOffer(rule);
      const shown = draw(all, offer, 1) as ScenarioShown;
      return shown.choices.map(({ id: choice }) => answerDetail(mark(all, offer, shown, { choice })).counted);
    };
    expect(new Set(counted('normal'))).toEqual(new Set(['Either is right']));
    expect(new Set(counted('strong'))).toEqual(new Set([undefined]));
  });

  test('of a computed number between which it counts: whole numbers that do', () => {
    for (const seed of SEEDS) {
      const offer = numberOffer();
      const shown = draw(all, offer, seed) as ScenarioShown;
      const right = Math.abs(across(...windOf(shown)));
      if (Math.abs(Math.abs(right - Math.round(right)) - 0.5) < 1e-6) continue;
      const { counted } = answerDetail(typed(all, offer, shown, right));
      const [low, high] = [...(plain(counted) ?? '').matchAll(/(\d+) kt/g)].map(([, n]) => Number(n)) as [
        number,
        number,
      ];
      const said = Math.round(right);
      expect([low, high]).toEqual([
        Math.ceil(Math.min(right, said) - 2 - 1e-9),
        Math.floor(Math.max(right, said) + 2 + 1e-9),
      ]);
      for (const end of [low, high]) expect(typed(all, offer, shown, end).flawed).toBe(false);
    }
  });

  test('a sign where the number is negative in some draws', () => {
    const signed = (number: string, unit = 'kt') => {
      const from = scenarioDeck({
        ...stick,
        asks: [{ id: 'n', ask: 'N?', number, unit }],
      } as unknown as Partial<Scenario>);
      const offer = numberOffer(from);
      return SEEDS.slice(0, 5).map((seed) => (draw(from, offer, seed) as ScenarioShown).fields[0]?.signed);
    };
    expect(new Set(signed('cross'))).toEqual(new Set([undefined]));
    expect(new Set(signed('headwind(windDir, windSpeed, runway)'))).toEqual(new Set([true]));
    expect(new Set(signed('cross', '°C'))).toEqual(new Set([true]));
  });
});
