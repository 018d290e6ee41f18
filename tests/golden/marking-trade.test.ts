import { describe, expect, test } from 'vitest';
import { resolve } from '../../src/deck/resolve.ts';
import { readNumber } from '../../src/forms/limit/read-number.ts';
import { draw, mark, offers } from '../../src/forms/registry.ts';
import { type Deck, isFact, isNumberLimit, type Limit, type Rule } from '../../src/model/deck.ts';
import type { Offer, ScenarioShown } from '../../src/model/form.ts';
import type { Resolved } from '../../src/subjects/resolved.ts';

/*
 * What is usual in the trade, as check values of the marking alone. Every number here: common practice, no source.
 * They stand in no deck that is shipped.
 */

const number = (id: string, unit: string, sense: string, more: object): Limit =>
  ({ id, ask: id, unit, sense, source: 'practice', ...more }) as unknown as Limit;

// biome-ignore lint/suspicious/noThenProperty: the deck's own word
const rule = (id: string, when: string, gives: string): Rule => ({ id, ...(when && { if: when }), then: [gives] });

const DECK: Deck = {
  format: 1,
  id: 'calder/practice',
  version: '1.0.0',
  title: 'Practice',
  language: 'en',
  nature: 'fictional',
  sources: [{ id: 'practice', title: 'Common practice, no source', basis: 'common-practice' }],
  conditions: [{ id: 'engineOut', label: 'Engines', yes: 'One engine inoperative', no: 'All engines operating' }],
  variants: [{ id: 'operator', label: 'Operator', options: { one: 'First operator', other: 'Other operators' } }],
  limits: [
    // common practice, no source: about 3 degrees a second, to about 15 degrees, 12.5 with an engine out
    number('rotation-rate', '°/s', 'about', { value: 3, accept: 0.5 }),
    number('pitch', '°', 'about', {
      accept: 1,
      cases: [
        { id: 'standard', value: 15 },
        { id: 'engine-out', given: { engineOut: true }, value: 12.5 },
      ],
    }),
    // common practice, no source: engines stabilised at about 50 % N1 or 1.05 EPR
    number('stabilise-n1', '% N1', 'about', { value: 50, accept: 2 }),
    number('stabilise-epr', 'EPR', 'about', { value: 1.05, accept: 0.01 }),
    // common practice, no source: stick held to 80 kt, neutral by 100 kt
    number('stick-hold', 'kt', 'exactly', { value: 80 }),
    number('stick-neutral', 'kt', 'at most', { value: 100 }),
    // common practice, no source: half forward up to 20 kt of crosswind
    number('stick-cross', 'kt', 'at most', { value: 20 }),
    // common practice, no source: 10 s between the packs
    number('pack-gap', 's', 'at least', { value: 10, accept: { plus: 2, minus: 0 } }),
    // common practice, no source: autopilot from 100 ft, at other operators 400 ft
    number('autopilot', 'ft', 'at least', {
      reference: 'AGL',
      cases: [
        { id: 'standard', when: { operator: 'one' }, value: 100 },
        { id: 'standard', when: { operator: 'other' }, value: 400 },
      ],
    }),
  ],
  scenarios: [
    {
      id: 'stick',
      situation: 'Runway {runway}, wind {windDir}/{windSpeed} kt.',
      draw: {
        runway: { oneOf: [360] },
        windDir: { from: 10, to: 360, step: 10, show: 'direction' },
        windSpeed: { from: 4, to: 34 },
      },
      let: {
        cross: 'abs(crosswind(windDir, windSpeed, runway))',
        tail: 'max(0, -headwind(windDir, windSpeed, runway))',
      },
      require: ['tail <= 10'],
      asks: [
        {
          id: 'input',
          ask: 'Stick?',
          choose: {
            options: { half: 'Half forward', full: 'Full forward', neutral: 'Neutral' },
            rules: [rule('full', 'tail > 0 || cross > limit("stick-cross")', 'full'), rule('half', '', 'half')],
          },
        },
      ],
    },
  ],
};

const all: Resolved = resolve(DECK, 'e'.repeat(64), { operator: ['one', 'other'] });
const list = offers(all, null, 1);
const question = (thing: string, variant = '', id = 'standard'): Offer => {
  const found = list.find((o) => o.about.thing === thing && o.about.case === id && o.variant.includes(variant));
  if (!found) throw new Error(`${thing} ${id} ${variant}`);
  return found;
};
const plain = (text: string | undefined): string | undefined => text?.replaceAll('\u00a0', ' ');

/** As typed on a phone, read, marked. */
function answer(offer: Offer, typed: string): { mark: string; off: string | undefined; slip: string | undefined } {
  const shown = draw(all, offer, 1);
  if (shown?.form !== 'limit') throw new Error('not drawn');
  const field = shown.fields[0];
  if (!field) throw new Error('no field');
  const read = readNumber(typed, field.unit, field.show);
  if (!read.ok) throw new Error(`${typed}: ${read.code}`);
  const marked = mark(all, offer, shown, { typed: [typed], value: [read.value] });
  if (marked.detail.form !== 'limit') throw new Error(`a ${marked.detail.form}`);
  return { mark: Object.values(marked.marks)[0] as string, off: plain(marked.detail.off), slip: marked.detail.slip };
}

describe('numbers of common practice, as they are typed', () => {
  test.each<[string, string, string, string, string?]>([
    ['rotation-rate', 'standard', '3', 'right'],
    ['rotation-rate', 'standard', '2,5', 'right'],
    ['rotation-rate', 'standard', '5', 'wrong', '2 °/s above the right value'],
    ['pitch', 'standard', '15', 'right'],
    ['pitch', 'standard', '12.5', 'wrong', '2.5° below the right value'],
    ['pitch', 'engine-out', '12,5', 'right'],
    ['pitch', 'engine-out', '12.5°', 'right'],
    ['pitch', 'engine-out', '15', 'wrong', '2.5° above the right value'],
    ['stabilise-n1', 'standard', '50 % N1', 'right'],
    ['stabilise-n1', 'standard', '60', 'wrong', '10 % N1 above the right value'],
    ['stabilise-epr', 'standard', '1,05', 'right'],
    ['stabilise-epr', 'standard', '1.5', 'wrong', '0.45 EPR above the right value'],
    ['stick-hold', 'standard', '80 kt', 'right'],
    ['stick-neutral', 'standard', '101', 'wrong', '1 kt above the limit, on the unsafe side'],
    ['pack-gap', 'standard', '12', 'right'],
    ['pack-gap', 'standard', '9', 'wrong', '1 s below the limit, on the unsafe side'],
    ['pack-gap', 'standard', '13', 'wrong', '3 s above the limit, on the safe side'],
  ])('%s (%s) "%s" is %s', (thing, id, typed, expected, off) => {
    const told = answer(question(thing, '', id), typed);
    expect(told.mark).toBe(expected);
    expect(told.off).toBe(off);
  });

  test('autopilot: each operator its own height; the other one is below or above, and named', () => {
    const one = question('autopilot', 'operator=one');
    const other = question('autopilot', 'operator=other');
    expect(answer(one, '100 ft').mark).toBe('right');
    expect(answer(other, '400').mark).toBe('right');
    expect(answer(one, '400')).toMatchObject({ mark: 'wrong', off: '300 ft above the limit, on the safe side' });
    expect(answer(other, '100')).toMatchObject({ mark: 'wrong', off: '300 ft below the limit, on the unsafe side' });
    // 122 m: the figure in the other unit.
    expect(answer(other, '122').slip).toBe('That is the figure in m.');
  });

  test('the pitch of the other case is named as that', () => {
    expect(answer(question('pitch', '', 'standard'), '12.5').slip).toBeUndefined();
    // Nearer than three bands (3°): a rough answer. Beyond: the other limit of the deck.
    expect(answer(question('stick-neutral'), '80').slip).toBe('That is the answer to: stick-hold');
  });
});

describe('stick into wind: half forward up to 20 kt of crosswind without tailwind, else full', () => {
  const input = (id: string): Offer => list.find((o) => o.about.rule === id) as Offer;
  const marked = (id: string, windDir: number, windSpeed: number, choice: string): string[] => {
    const shown = draw(all, input(id), 1) as ScenarioShown;
    const drawn = { runway: 360, windDir, windSpeed };
    return Object.values(mark(all, input(id), { ...shown, drawn }, { choice }).marks);
  };
  test.each<[number, number, string, string]>([
    // windDir, windSpeed, which holds, what is right
    [90, 20, 'half', 'half'], // square across: no tailwind, not more than 20 kt
    [270, 20, 'half', 'half'],
    [90, 21, 'full', 'full'],
    [100, 12, 'full', 'full'], // 10° behind the wing: a tailwind
    [80, 20, 'half', 'half'],
    [360, 34, 'half', 'half'],
    [180, 5, 'full', 'full'],
    [30, 34, 'half', 'half'], // 17 kt
    [60, 24, 'full', 'full'], // 20.8 kt
  ])('wind %d/%d on runway 36: rule %s, %s', (dir, speed, id, right) => {
    for (const choice of ['half', 'full', 'neutral']) {
      expect(marked(id, dir, speed, choice)).toEqual([choice === right ? 'right' : 'wrong']);
    }
  });
});

test('no number here is taken for one with a source', () => {
  for (const l of DECK.limits ?? []) {
    expect(isFact(l)).toBe(false);
    if (isNumberLimit(l)) expect(l.source).toBe('practice');
  }
  expect(DECK.sources.map((s) => s.basis)).toEqual(['common-practice']);
});
