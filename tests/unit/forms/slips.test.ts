import { describe, expect, test } from 'vitest';
import { machineSlips, nameSlip } from '../../../src/forms/slip.ts';
import type { Limit, Unit } from '../../../src/model/deck.ts';
import { given, limitDeck } from './small-decks.ts';

/** Every limit here is invented; the factors are not. */
const limit = (value: number, unit: Unit, more: object = {}, ...others: Limit[]) =>
  limitDeck({ unit, sense: 'exactly', value, ...more } as Partial<Limit>, ...others);
const slipOf = (value: number, unit: Unit, typed: number, more: object = {}, ...others: Limit[]) =>
  given(limit(value, unit, more, ...others), typed).detail.slip;

/**
 * Factors: international nautical mile 1852 m, foot 0.3048 m, pound 0.45359237 kg (NIST SP 811, appendix B;
 * BIPM SI Brochure, table 8 of the 8th edition for the knot); inch of mercury 33.8639 hPa (NIST SP 811, 3386.39 Pa).
 * What a person would write down of the product.
 */
describe('the figure in another unit', () => {
  test.each<[number, Unit, number, string]>([
    [250, 'kt', 463, 'km/h'],
    [250, 'kt', 129, 'm/s'],
    [30, 'm/s', 58, 'kt'],
    [1500, 'ft', 457, 'm'],
    [300, 'm', 984, 'ft'],
    [5, 'NM', 9.26, 'km'],
    [12, 'km', 6.48, 'NM'],
    [5000, 'kg', 11023, 'lb'],
    [7000, 'lb', 3175, 'kg'],
    [29.92, 'inHg', 1013.2, 'hPa'],
    [1013, 'hPa', 29.9, 'inHg'],
  ])('%d %s typed as %d', (value, unit, typed, other) => {
    expect(slipOf(value, unit, typed)).toBe(`That is the figure in ${other}.`);
  });
  test('converted the wrong way', () => {
    expect(slipOf(1500, 'ft', 4921)).toBe('Converted the wrong way between ft and m.');
    expect(slipOf(250, 'kt', 135)).toBe('Converted the wrong way between kt and km/h.');
  });
});

describe('other slips a machine sees', () => {
  test.each<[number, Unit, number, string]>([
    [15, '°', -15, 'The sign is the other way round.'],
    [-56.5, '°C', 56.5, 'The sign is the other way round.'],
    [250, 'kt', 2500, 'The decimal place is wrong: the number is too large.'],
    [1500, 'ft', 150, 'The decimal place is wrong: the number is too small.'],
    [0.78, 'Mach', 78, 'The decimal place is wrong: the number is too large.'],
    [137, 'kt', 173, 'Two digits are exchanged.'],
    [29.92, 'inHg', 29.29, 'Two digits are exchanged.'],
    [1013, 'hPa', 1031, 'Two digits are exchanged.'],
  ])('%d %s typed as %d: %s', (value, unit, typed, words) => {
    expect(slipOf(value, unit, typed)).toBe(words);
  });
  test('zero has no sign to be wrong', () => {
    expect(machineSlips(0, '°').map((s) => s.note)).not.toContain('The sign is the other way round.');
  });
  test('on the compass nothing is guessed: every number is a direction', () => {
    expect(slipOf(120, '°', 210, { show: 'direction' })).toBeUndefined();
    expect(slipOf(120, '°', 210)).toBe('Two digits are exchanged.');
  });
});

const other = (id: string, value: number, more: object = {}): Limit =>
  ({ id, ask: `Question ${id}`, unit: 'kt', sense: 'at most', value, ...more }) as Limit;

describe('another limit of the deck', () => {
  test('named by its question', () => {
    expect(slipOf(250, 'kt', 230, {}, other('b', 230))).toBe('That is the answer to: Question b');
  });
  test('not of another unit, and not where two limits have that number', () => {
    expect(slipOf(250, 'kt', 230, {}, other('b', 230, { unit: 'ft' }))).toBeUndefined();
    expect(slipOf(250, 'kt', 230, {}, other('b', 230), other('c', 230))).toBeUndefined();
  });
  test('another case of the same limit', () => {
    const all = limitDeck({
      unit: 'kt',
      sense: 'at most',
      cases: [
        { id: 'standard', value: 210 },
        { id: 'night', given: { night: true }, value: 160 },
      ],
    } as Partial<Limit>);
    expect(given(all, 160).detail.slip).toMatch(/^That is the answer to: How fast\? \(/);
  });
});

describe('which slips are named', () => {
  test("the author's at any distance outside the band", () => {
    const slips = [{ value: 252, note: 'That is the old value.' }];
    expect(slipOf(250, 'kt', 252, { slips })).toBe('That is the old value.');
    expect(slipOf(250, 'kt', 252, { slips, accept: 1 })).toBe('That is the old value.');
    // Within the band it is right, and no slip at all.
    expect(given(limit(250, 'kt', { slips, accept: 2 }), 252).detail.slip).toBeUndefined();
  });
  test("a machine's only more than three bands from the right answer", () => {
    expect(slipOf(137, 'kt', 173, { accept: 11 })).toBe('Two digits are exchanged.');
    expect(slipOf(137, 'kt', 173, { accept: 12 })).toBeUndefined();
    expect(slipOf(137, 'kt', 173, { accept: { plus: 12, minus: 0 } })).toBeUndefined();
  });
  test('only if exactly one explains it', () => {
    // 12 and 21: exchanged digits, and another limit of the deck.
    expect(slipOf(12, 'kt', 21)).toBe('Two digits are exchanged.');
    expect(slipOf(12, 'kt', 21, {}, other('b', 21))).toBeUndefined();
  });
  test("the author's goes before a machine's; two authored ones cancel out", () => {
    expect(slipOf(137, 'kt', 173, { slips: [{ value: 173, note: 'Flaps up.' }] })).toBe('Flaps up.');
    const slips = [
      { value: 173, note: 'One.' },
      { value: 173, note: 'Two.' },
    ];
    expect(slipOf(137, 'kt', 173, { slips })).toBeUndefined();
  });
  test('none for a number that nothing explains', () => {
    expect(slipOf(250, 'kt', 199)).toBeUndefined();
    expect(nameSlip(5, 7, { plus: 0, minus: 0 }, [])).toBeUndefined();
  });
});
