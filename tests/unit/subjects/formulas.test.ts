import { describe, expect, test } from 'vitest';
import type { Tree } from '../../../src/formula/tree.ts';
import {
  comparisonsOf,
  evaluate,
  inlined,
  isPrinted,
  mapCalls,
  namesIn,
  parseFormula,
  sameTree,
} from '../../../src/subjects/formulas.ts';
import { gridValue } from '../../../src/subjects/procedure/situations.ts';

const tree = (text: string): Tree => {
  const t = parseFormula(text);
  if (!t) throw new Error(text);
  return t;
};
const NONE = { limitValue: () => Number.NaN, lookup: () => Number.NaN };

describe('sameTree', () => {
  test.each<[string, string, boolean]>([
    ['a+b', ' a + b ', true],
    ['a + b', 'b + a', false],
    ['a + b', 'a - b', false],
    ['abs(a)', 'abs( a )', true],
    ['abs(a)', 'sqrt(a)', false],
    ['max(a, b)', 'max(a, b, c)', false],
    ['limit("x")', "limit('x')", true],
    ['limit("x")', 'limit("y")', false],
    ['!a', '-a', false],
    ['a ? b : c', 'a ? c : b', false],
    ['1', '1.0', true],
    ['1', 'true', false],
    ['e == "x"', 'e == "y"', false],
  ])('%s and %s: %s', (a, b, same) => {
    expect(sameTree(tree(a), tree(b))).toBe(same);
  });
});

test('inlined puts values of let in place, also within one another, and ends in a circle', () => {
  const lets = new Map([
    ['x', tree('y + 1')],
    ['y', tree('z * 2')],
    ['c', tree('d + 0')],
    ['d', tree('c + 0')],
  ]);
  expect(sameTree(inlined(tree('abs(x) > 3'), lets), tree('abs(z * 2 + 1) > 3'))).toBe(true);
  expect(namesIn(inlined(tree('c'), lets)).every((n) => n === 'c' || n === 'd')).toBe(true);
  const plain = tree('z > 3');
  expect(inlined(plain, lets)).toBe(plain);
});

test('calls are exchanged with their arguments', () => {
  const swapped = mapCalls(tree('abs(headwind(d, s, r)) + headwind(1, 2, 3)'), (name, args) =>
    name === 'headwind' ? { call: 'crosswind', args } : null,
  );
  expect(sameTree(swapped, tree('abs(crosswind(d, s, r)) + crosswind(1, 2, 3)'))).toBe(true);
});

test('comparisons, wherever they stand', () => {
  expect(comparisonsOf(tree('(a > 1 && !(b <= 2)) || (c ? d == 3 : false)')).map((c) => c.op)).toEqual([
    '>',
    '<=',
    '==',
  ]);
});

test('printed: seen as it stands, not computed', () => {
  for (const text of ['a', '-a', '12', 'limit("x")']) expect(isPrinted(tree(text))).toBe(true);
  for (const text of ['a + 1', 'abs(a)', 'lookup("t", a)']) expect(isPrinted(tree(text))).toBe(false);
});

test('no value is null: a name not drawn, a limit that is none, a kind that does not fit', () => {
  for (const text of ['a + 1', 'limit("x") + 1', '1 / 0', 'sqrt(-1)'])
    expect(evaluate(tree(text), {}, NONE)).toBeNull();
  expect(evaluate(tree('a > 1'), { a: 'word' }, NONE)).toBeNull();
  expect(evaluate(tree('a + 1'), { a: 1 }, NONE)).toBe(2);
});

test('values of a grid are the decimals they are written as', () => {
  expect([0, 1, 2, 3].map((i) => gridValue(0, i, 0.1))).toEqual([0, 0.1, 0.2, 0.3]);
  expect([0, 1, 2].map((i) => gridValue(29.5, i, 0.01))).toEqual([29.5, 29.51, 29.52]);
  expect([0, 3].map((i) => gridValue(10, i, 10))).toEqual([10, 40]);
  expect(gridValue(4, 2)).toBe(6);
});
