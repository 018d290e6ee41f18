import { describe, expect, it } from 'vitest';
import { isName, MOST_DEPTH, MOST_LENGTH, parse } from '../../../src/formula/parse.ts';
import type { FormulaErrorCode, Tree } from '../../../src/formula/tree.ts';
import { canonicalJson, type Json } from '../../../src/lib/canonical-json.ts';

/** A tree with every bracket written out. */
const show = (tree: Tree): string => {
  switch (tree.kind) {
    case 'number':
    case 'boolean':
      return String(tree.value);
    case 'string':
      return `"${tree.value}"`;
    case 'name':
      return tree.name;
    case 'unary':
      return `(${tree.op}${show(tree.of)})`;
    case 'binary':
      return `(${show(tree.left)} ${tree.op} ${show(tree.right)})`;
    case 'choose':
      return `(${show(tree.if)} ? ${show(tree.yes)} : ${show(tree.no)})`;
    case 'call':
      return `${tree.name}(${tree.args.map(show).join(', ')})`;
  }
};
const treeOf = (text: string): Tree => {
  const parsed = parse(text);
  if (!parsed.ok) throw new Error(`${text}: ${parsed.error.code} at ${parsed.error.at}`);
  return parsed.tree;
};
const errorOf = (text: string) => {
  const parsed = parse(text);
  if (parsed.ok) throw new Error(`${text} was taken for ${show(parsed.tree)}`);
  return parsed.error;
};

describe('what binds to what (CEL language definition, Syntax)', () => {
  it.each([
    ['a - b - c', '((a - b) - c)'],
    ['a / b * c', '((a / b) * c)'],
    ['a + b * c', '(a + (b * c))'],
    ['(a + b) * c', '((a + b) * c)'],
    ['-a * b', '((-a) * b)'],
    ['a - -b', '(a - (-b))'],
    ['--a', '(-(-a))'],
    ['!!p', '(!(!p))'],
    ['!p && q', '((!p) && q)'],
    ['a < b && c >= d || p', '(((a < b) && (c >= d)) || p)'],
    ['p || q && r', '(p || (q && r))'],
    ['a + 1 > b - 1', '((a + 1) > (b - 1))'],
    // Relations group from the left: the grammar allows it, the check of kinds refuses it.
    ['a < b < c', '((a < b) < c)'],
    ['a == b != c', '((a == b) != c)'],
    ['p ? a : q ? b : c', '(p ? a : (q ? b : c))'],
    ['p || q ? a : b', '((p || q) ? a : b)'],
    ['p ? (q ? a : b) : c', '(p ? (q ? a : b) : c)'],
    ['max(1, 2, -a)', 'max(1, 2, (-a))'],
    ['lookup("t", x + 1)', 'lookup("t", (x + 1))'],
    ["event == 'fire'", '(event == "fire")'],
    [' \t\r\n1\n', '1'],
  ])('%s', (text, expected) => {
    expect(show(treeOf(text))).toBe(expected);
  });

  it.each([
    ['0', 0],
    ['007', 7],
    ['1.50', 1.5],
    ['.5', 0.5],
    ['1e3', 1000],
    ['2.5E-1', 0.25],
  ])('the number %s', (text, value) => {
    expect(treeOf(text)).toEqual({ kind: 'number', value });
  });
});

describe('errors say what and where', () => {
  it.each<[string, FormulaErrorCode, number]>([
    ['', 'empty', 0],
    ['  ', 'empty', 0],
    ['a +', 'expected', 3],
    ['a + * b', 'expected', 4],
    ['(a', 'expected', 2],
    ['a)', 'end', 1],
    ['a b', 'end', 2],
    ['a ? b', 'expected', 5],
    ['a ? b ? c : d : e', 'expected', 6],
    ['-!p', 'expected', 1],
    ['!-a', 'expected', 1],
    ['max(1,)', 'expected', 6],
    ['max(1, 2', 'expected', 8],
    ['abs()', 'arguments', 0],
    ['1 + abs(1, 2)', 'arguments', 4],
    ['min(1)', 'arguments', 0],
    ['headwind(1, 2)', 'arguments', 0],
    ['1 + gcd(1)', 'function', 4],
    ['constructor(1)', 'function', 0],
    ['toString()', 'function', 0],
    ['limit(a)', 'literal', 6],
    ['limit(("a" == "b"))', 'literal', 11],
    ['lookup(1, 2)', 'literal', 7],
    ['a % b', 'character', 2],
    ['a.b', 'character', 1],
    ['a[0]', 'character', 1],
    ['a = b', 'character', 2],
    ['a & b', 'character', 2],
    ['a \u00a0b', 'character', 2],
    ['1 + \u{1f6e9}', 'character', 4],
    ['1.', 'number', 0],
    ['1.2.3', 'number', 0],
    ['2 * 3kt', 'number', 4],
    ['0x10', 'number', 0],
    ['1u', 'number', 0],
    ['1e999', 'number', 0],
    ['"open', 'string', 0],
    ['a == "x\\n"', 'string', 5],
    ['"two\nlines"', 'string', 0],
    ['"""x"""', 'string', 0],
    ['r"x"', 'string', 0],
    ['Head', 'name', 0],
    ['_a', 'name', 0],
    ['1 + wind_dir', 'name', 4],
  ])('%j: %s at %i', (text, code, at) => {
    expect(errorOf(text)).toMatchObject({ code, at });
  });

  // CEL language definition: RESERVED, and the keywords false in null true.
  it.each(
    'as break const continue else for function if import let loop package namespace return var void while null'.split(
      ' ',
    ),
  )('the reserved word %s is no name', (word) => {
    expect(errorOf(`1 + ${word}`)).toEqual({ code: 'reserved', at: 4, args: { name: word } });
    expect(isName(word)).toBe(false);
  });
  it('nor are in, true and false', () => {
    expect(errorOf('a in b')).toMatchObject({ code: 'end', at: 2 });
    expect(errorOf('in')).toMatchObject({ code: 'reserved', at: 0 });
    expect(['in', 'true', 'false', 'A', 'a_b', '1a', '', 'ä'].filter(isName)).toEqual([]);
    expect(['v1', 'windDir', 'constructor', 'limit'].filter(isName)).toHaveLength(4);
  });

  it('says what was expected, found and allowed', () => {
    expect(errorOf('(a + 1').args).toEqual({ what: ')', found: '' });
    expect(errorOf('a + )').args).toEqual({ what: 'value', found: ')' });
    expect(errorOf('trueAirspeed(1)').args).toEqual({ name: 'trueAirspeed', takes: 3, found: 1 });
  });
});

describe('limits', () => {
  it('takes 2,000 characters and no more', () => {
    const padded = (n: number) => `a${' '.repeat(n - 1)}`;
    expect(parse(padded(MOST_LENGTH)).ok).toBe(true);
    expect(errorOf(padded(MOST_LENGTH + 1))).toMatchObject({ code: 'too-long', at: MOST_LENGTH });
  });

  // Each grows by one level for one more n; the first level is the value itself.
  it.each<[string, (n: number) => string]>([
    ['brackets', (n) => `${'('.repeat(n - 1)}1${')'.repeat(n - 1)}`],
    ['minus', (n) => `${'-'.repeat(n - 1)}1`],
    ['not', (n) => `${'!'.repeat(n - 1)}p`],
    ['sums', (n) => Array(n).fill('1').join('+')],
    ['products', (n) => Array(n).fill('1').join('*')],
    ['or', (n) => Array(n).fill('p').join('||')],
    ['relations', (n) => Array(n).fill('1').join('<')],
    ['calls', (n) => `${'abs('.repeat(n - 1)}1${')'.repeat(n - 1)}`],
    ['choices', (n) => `${'p?1:'.repeat(n - 1)}1`],
  ])('64 levels of %s and no more', (_, text) => {
    expect(parse(text(MOST_DEPTH)).ok).toBe(true);
    expect(errorOf(text(MOST_DEPTH + 1)).code).toBe('too-deep');
  });

  it('levels of different kinds count together', () => {
    expect(errorOf(`${'-('.repeat(40)}${Array(40).fill('1').join('+')}${')'.repeat(40)}`).code).toBe('too-deep');
  });

  it('hostile texts of the greatest length end in an error, not in a full stack', () => {
    for (const piece of ['(', '-', '!', 'abs(', 'max(1,', 'p?', 'p?1:', '1+', '-(', '!(', '((-']) {
      const text = piece.repeat(Math.floor(MOST_LENGTH / piece.length));
      expect(errorOf(text).at, piece).toBeLessThanOrEqual(text.length);
    }
  });
});

describe('the tree goes into stamps', () => {
  it('is plain JSON without places: spaces and needless brackets leave no trace', () => {
    const a = treeOf('max(0, -head) > 10 && event == "fire" ? 1 : 2');
    const b = treeOf("(( max(0,-(head))>10 )&&(event=='fire')) ? 1.0 : 2e0");
    expect(canonicalJson(a as unknown as Json)).toBe(canonicalJson(b as unknown as Json));
    expect(JSON.parse(JSON.stringify(a))).toEqual(a);
  });
  it('places are told beside it', () => {
    const parsed = parse('a + max(b, 2)');
    if (!parsed.ok || parsed.tree.kind !== 'binary' || parsed.tree.right.kind !== 'call') throw new Error('shape');
    const { tree, places } = parsed;
    const { right } = parsed.tree;
    expect([tree, parsed.tree.left, right, ...right.args].map((part) => places.get(part))).toEqual([2, 0, 4, 8, 11]);
  });
});
