import { describe, expect, it } from 'vitest';
import { compile, NoValue, treeOf } from '../../../src/formula/evaluate.ts';
import { parse } from '../../../src/formula/parse.ts';
import type { Environment, Value } from '../../../src/formula/tree.ts';

const env = (names: Record<string, Value> = {}): Environment => ({
  names,
  limit: (id) => (id === 'tail-limit' ? 10 : Number.NaN),
  lookup: (id, x) => (id === 'twice' ? 2 * x : Number.NaN),
});
const value = (text: string, names?: Record<string, Value>): Value => compile(treeOf(parse(text)))(env(names));

describe('values', () => {
  it.each<[string, Value]>([
    ['2 + 3 * 4 - 6 / 4', 12.5],
    ['10 - 4 - 3', 3],
    ['abs(-2.5) + sqrt(16)', 6.5],
    ['min(3, 1, 2)', 1],
    ['max(3, 1, 2)', 3],
    // Half away from zero, and what is a whole number but for the last digits is one.
    ['round(2.5)', 3],
    ['round(-2.5)', -3],
    ['round(-2.4)', -2],
    ['round(1.005 * 1000 / 10 + 0.05 - 0.05)', 101],
    ['floor(2.9)', 2],
    ['floor(-2.1)', -3],
    ['floor((0.1 + 0.7) * 10)', 8],
    ['ceil(2.1)', 3],
    ['ceil(-2.9)', -2],
    ['ceil((0.1 + 0.2) * 10)', 3],
    ['limit("tail-limit") + lookup("twice", 4)', 18],
    ['1 < 2 ? "yes" : "no"', 'yes'],
    ['true && !false', true],
    ['"a" == "a"', true],
    ['"a" != "b"', true],
    ['true == false', false],
  ])('%s', (text, expected) => {
    expect(value(text)).toBe(expected);
  });

  it('no zero is negative: it would be written "-0"', () => {
    for (const text of ['-0', '0 - 0', 'round(-0.2)', 'ceil(-0.2)', 'headwind(90, 0, 270)', 'crosswind(180, 10, 360)'])
      expect(Object.is(value(text), 0), text).toBe(true);
  });

  it('trigonometry takes radians', () => {
    expect(value('sin(toRadians(30))')).toBeCloseTo(0.5, 12);
    expect(value('cos(toRadians(60))')).toBeCloseTo(0.5, 12);
    expect(value('tan(toRadians(45))')).toBeCloseTo(1, 12);
    expect(value('toDegrees(atan2(1, -1))')).toBeCloseTo(135, 12);
  });
});

describe('comparisons with slack 1e-9', () => {
  it.each([
    [1e-10, false, true, true],
    [9e-10, false, true, true],
    [-9e-10, false, true, true],
    [1.1e-9, true, false, false],
  ])('5 + %d against 5', (more, greater, atMost, equal) => {
    const names = { a: 5 + more, b: 5 };
    expect(value('a > b', names)).toBe(greater);
    expect(value('b < a', names)).toBe(greater);
    expect(value('a <= b', names)).toBe(atMost);
    expect(value('b >= a', names)).toBe(atMost);
    expect(value('a == b', names)).toBe(equal);
    expect(value('a != b', names)).toBe(!equal);
  });
});

describe('no value', () => {
  it.each([
    '1 / 0',
    '0 / 0',
    '-1 / 0',
    'sqrt(-1)',
    // Not even where the infinity would be swallowed.
    '1 / 0 > 5',
    '1 / 0 == 1',
    'min(1, 1 / 0)',
    'atan2(1, 1 / 0)',
    '1 / (1 / 0)',
    '1e300 * 1e300 > 0',
    '0 / 0 != 0',
    'limit("none")',
    'limit("none") > 1',
    'lookup("none", 1)',
    'gone',
    'constructor',
    'toString == "x"',
    // Kinds that do not fit: the checker refuses them before.
    '1 + true',
    '"a" + "b"',
    '"a" < "b"',
    '1 == "1"',
    '!1',
    '1 && true',
    '1 ? 2 : 3',
    'abs("a")',
  ])('%s', (text) => {
    const run = compile(treeOf(parse(text)));
    expect(() => run(env())).toThrow(NoValue);
  });

  it('an infinite drawn value is none', () => {
    expect(() => value('a', { a: Number.POSITIVE_INFINITY })).toThrow(NoValue);
    expect(() => value('a > 1', { a: Number.NaN })).toThrow(NoValue);
  });

  it('what is not reached is not asked', () => {
    expect(value('false && gone > 1')).toBe(false);
    expect(value('true || 1 / 0 > 1')).toBe(true);
    expect(value('true ? 1 : gone')).toBe(1);
    expect(() => value('true && gone > 1')).toThrow(NoValue);
  });

  it('a text that is no formula', () => {
    expect(() => treeOf(parse('1 +'))).toThrow(NoValue);
  });
});
