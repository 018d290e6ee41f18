import { describe, expect, it } from 'vitest';
import { callsOf, typeOf } from '../../../src/formula/check.ts';
import { comparisonsIn } from '../../../src/formula/comparisons.ts';
import { treeOf } from '../../../src/formula/evaluate.ts';
import { parse } from '../../../src/formula/parse.ts';
import type { Kind } from '../../../src/formula/tree.ts';
import { namesIn } from '../../../src/subjects/formulas.ts';

const KINDS: Readonly<Record<string, Kind>> = { a: 'number', b: 'number', p: 'boolean', event: 'string' };
const kindOf = (name: string): Kind | undefined => (Object.hasOwn(KINDS, name) ? KINDS[name] : undefined);
const tree = (text: string) => treeOf(parse(text));

describe('the kind of a formula', () => {
  it.each<[string, Kind]>([
    ['a + 1', 'number'],
    ['-a', 'number'],
    ['a < b', 'boolean'],
    ['event == "fire"', 'boolean'],
    ['p != (a > b)', 'boolean'],
    ['!p || a == b', 'boolean'],
    ['p ? a : 2', 'number'],
    ['p ? event : "none"', 'string'],
    ['max(a, b, 1)', 'number'],
    ['limit("x") + lookup("t", a)', 'number'],
  ])('%s', (text, kind) => {
    expect(typeOf(tree(text), kindOf)).toEqual({ ok: true, kind });
  });

  // [text, code, where the part stands]
  it.each<[string, string, number]>([
    ['a + gone', 'unknown-name', 4],
    ['constructor', 'unknown-name', 0],
    ['a + p', 'kind', 4],
    ['a < b < a', 'kind', 2],
    ['event < "x"', 'kind', 0],
    ['event == 1', 'kind', 9],
    ['a && p', 'kind', 0],
    ['p || a', 'kind', 5],
    ['!a', 'kind', 1],
    ['-p', 'kind', 1],
    ['a ? 1 : 2', 'kind', 0],
    ['p ? 1 : "x"', 'kind', 8],
    ['max(1, 2, p)', 'kind', 10],
    ['lookup("t", p)', 'kind', 12],
    ['abs("x")', 'kind', 4],
  ])('%s: %s at %i', (text, code, at) => {
    const parsed = parse(text);
    if (!parsed.ok) throw new Error(parsed.error.code);
    const typed = typeOf(parsed.tree, kindOf);
    if (typed.ok) throw new Error(`${text} was taken for a ${typed.kind}`);
    expect({ code: typed.code, at: parsed.places.get(typed.part) }).toEqual({ code, at });
  });

  it('says which kind was wanted', () => {
    expect(typeOf(tree('a + p'), kindOf)).toMatchObject({ args: { wanted: 'number', found: 'boolean' } });
    expect(typeOf(tree('gone'), kindOf)).toMatchObject({ args: { name: 'gone' } });
  });
});

describe('what is in a formula', () => {
  it('names, once each; functions and words are none', () => {
    expect(namesIn(tree('max(a, b) > a && event == "p"'))).toEqual(['a', 'b', 'event']);
  });
  it('calls, outer before inner', () => {
    const calls = callsOf(tree('max(abs(a), limit("x")) + abs(b)'));
    expect(calls.map((c) => c.name)).toEqual(['max', 'abs', 'limit', 'abs']);
  });
  it('comparisons, outer before inner, with both sides', () => {
    const text = 'p && a + 1 > b || (a != 2 ? b <= 3 : event == "fire")';
    expect(comparisonsIn(tree(text))).toEqual(
      ['a + 1 > b', 'a != 2', 'b <= 3', 'event == "fire"'].map((part) => {
        const { kind: _, ...compared } = tree(part) as unknown as Record<string, unknown>;
        return compared;
      }),
    );
  });
});
