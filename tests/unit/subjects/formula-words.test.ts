import { describe, expect, test } from 'vitest';
import type { Deck, Limit, Scenario } from '../../../src/model/deck.ts';
import { formulaWords, opposite, stepsOfComputation } from '../../../src/subjects/formula-words.ts';
import { parseFormula } from '../../../src/subjects/formulas.ts';
import { resolved } from '../forms/small-decks.ts';

const NB = '\u00a0';
const content: Partial<Deck> = {
  day: [{ id: 'v1', label: 'V1', unit: 'kt', from: 120, to: 140 }] as unknown as NonNullable<Deck['day']>,
  conditions: [{ id: 'wet', label: 'Wet', yes: 'The runway is wet', no: 'The runway is dry' }],
  limits: [
    { id: 'tail', ask: 'Tailwind?', unit: 'kt', sense: 'at most', value: 10 },
    { id: 'margin', ask: 'Margin?', unit: 'kt', reference: 'above V2', sense: 'at least', value: 13 },
    {
      id: 'width',
      ask: 'By width?',
      unit: 'kt',
      table: {
        input: { label: 'Width', unit: 'm' },
        method: 'step',
        rows: [
          [30, 19],
          [45, 28],
        ],
      },
    },
  ] as unknown as Limit[],
  scenarios: [
    {
      id: 'case',
      situation: 'A case.',
      draw: {
        windDir: { from: 10, to: 360 },
        windSpeed: { from: 2, to: 30 },
        gust: { from: 2, to: 40 },
        runway: { oneOf: [70] },
        oat: { from: -10, to: 30 },
        width: { oneOf: [30, 45], label: 'Runway width', unit: 'm' },
        event: {
          oneOf: {
            duct: 'The duct is hot and leaks.',
            shear: 'A crew reports windshear.',
            caution: 'Caution: duct.',
            apu: 'without APU',
            none: '',
          },
        },
      },
      let: { cross: 'abs(crosswind(windDir, windSpeed, runway))', twice: '2 * cross + oat' },
      asks: [{ id: 'n', ask: 'N?', number: 'twice', unit: 'kt' }],
    } as unknown as Scenario,
  ],
};
const deck = resolved(content);
const [view] = deck.views;
const scenario = view?.scenarios[0];
if (view === undefined || scenario === undefined) throw new Error('the deck does not resolve');
const say = (formula: string) => {
  const tree = parseFormula(formula);
  if (tree === null) throw new Error(`no formula: ${formula}`);
  return formulaWords(deck.deck, view, scenario, tree);
};

describe('formulas in words', () => {
  test.each([
    ["cross > limit('tail')", `crosswind is above 10${NB}kt`],
    ['max(0, -headwind(windDir, windSpeed, runway)) <= 5', 'tailwind is at most 5'],
    ['abs(crosswind(windDir, gust, runway)) >= 20', 'crosswind of the gust is at least 20'],
    [
      "cross > lookup('width', width)",
      `crosswind is above the value for the runway width (30${NB}m: 19${NB}kt, 45${NB}m: 28${NB}kt)`,
    ],
    ["event == 'duct'", 'the duct is hot and leaks'],
    ["event == 'shear'", 'a crew reports windshear'],
    ["event == 'caution'", '“Caution: duct”'],
    ["event == 'apu'", 'event is “without APU”'],
    ["event != 'none'", 'event is not none'],
    ["event == 'duct' && oat > 0", 'the duct is hot and leaks, and OAT is above 0'],
    [
      "event == 'shear' || event == 'caution' || wet",
      'a crew reports windshear or “Caution: duct” or the runway is wet',
    ],
    ['headwind(windDir, windSpeed, runway) > 0', 'there is a headwind'],
    ['headwind(windDir, windSpeed, runway) < 0', 'there is a tailwind'],
    ['headwind(windDir, windSpeed, runway) >= 0', 'there is no tailwind'],
    ['max(0, -headwind(windDir, windSpeed, runway)) > 0', 'there is a tailwind'],
    ['crosswind(windDir, windSpeed, runway) > 0', 'the crosswind is from the right'],
    ['crosswind(windDir, windSpeed, runway) < 0', 'the crosswind is from the left'],
    ['cross > 0', 'crosswind is above 0'],
    ['v1 > 130', `V1 is above 130${NB}kt`],
    ['width >= 45', `runway width is at least 45${NB}m`],
    ["v1 + limit('margin') > 140", `V1 + 13${NB}kt is above 140`],
    ["oat > limit('margin')", `OAT is above 13${NB}kt${NB}above V2`],
    ['wet && oat < 3', 'the runway is wet and OAT is below 3'],
    ['!wet || oat < 3', 'the runway is dry or OAT is below 3'],
    ['(oat > 1 || oat < 0) && wet', '(OAT is above 1 or OAT is below 0) and the runway is wet'],
    ['v1 - 5', 'V1 − 5'],
    ['oat - (oat - 3)', 'OAT − (OAT − 3)'],
    ['oat * (oat + 3) / 2', 'OAT × (OAT + 3) ÷ 2'],
    ['oat / (oat * 3)', 'OAT ÷ (OAT × 3)'],
    ['wet ? 6 : 11', '6 if the runway is wet, else 11'],
    ['round(oat / 2)', 'OAT ÷ 2, rounded'],
    ['oat - isaTemperature(3000)', 'OAT − standard temperature at 3000'],
  ])('%s', (formula, words) => {
    expect(say(formula)).toBe(words);
  });

  test.each([
    ['wet', 'the runway is dry'],
    ['!wet', 'the runway is wet'],
    ['oat < 3', 'OAT is at least 3'],
    ["event == 'duct'", 'not “The duct is hot and leaks”'],
    ['headwind(windDir, windSpeed, runway) > 0', 'there is no headwind'],
    ['wet && oat > 3', 'the runway is dry or OAT is at most 3'],
    ['wet || (oat != 3 && oat >= 1)', 'the runway is dry and (OAT is 3 or OAT is below 1)'],
  ])('the opposite of %s', (formula, words) => {
    const tree = parseFormula(formula);
    expect(tree === null ? '' : formulaWords(deck.deck, view, scenario, opposite(tree))).toBe(words);
  });

  test('steps of the computation that are not said in place are listed, those they stand on first', () => {
    const tree = parseFormula('twice > 3');
    expect(tree).not.toBe(null);
    expect(say('twice > 3')).toBe('twice is above 3');
    expect(stepsOfComputation(deck.deck, view, scenario, tree === null ? [] : [tree])).toEqual([
      'twice: 2 × crosswind + OAT',
    ]);
  });
});
