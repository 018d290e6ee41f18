import { readdirSync, readFileSync } from 'node:fs';
import { celEnv, parse as celParse, plan } from '@bufbuild/cel';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { comparisonsIn } from '../../src/formula/comparisons.ts';
import { compile, NoValue } from '../../src/formula/evaluate.ts';
import { parse } from '../../src/formula/parse.ts';
import type { Environment, FormulaErrorCode, Tree, Value } from '../../src/formula/tree.ts';

/*
 * Against @bufbuild/cel, an implementation of CEL by others (https://cel.dev): the same texts are formulas, and they
 * have the same values. Numbers are written with a decimal point, since CEL takes others for integers.
 */

/** What binds how: 0 choice, 1 ||, 2 &&, 3 relations, 4 sums, 5 products, 6 signs, 7 what stands alone. */
interface Text {
  readonly text: string;
  readonly binds: number;
  /** The sign it begins with, as the two do not mix. */
  readonly sign?: '-' | '!';
  /** Texts of all parts that are numbers. */
  readonly numbers: readonly string[];
}

const alone = (text: string, number: boolean): Text => ({ text, binds: 7, numbers: number ? [text] : [] });
const put = (part: Text, least: number): string => (part.binds < least ? `(${part.text})` : part.text);
const numbersOf = (...parts: readonly Text[]): string[] => parts.flatMap((p) => p.numbers);
const space = fc.constantFrom('', ' ', '\t\n');

const infix = (side: fc.Arbitrary<Text>, ops: readonly string[], binds: number, number: boolean) =>
  fc.tuple(side, fc.constantFrom(...ops), side, space, space).map(([a, op, b, s, t]): Text => {
    // What groups from the left needs brackets on the right alone.
    const text = `${put(a, binds)}${s}${op}${t}${put(b, binds + 1)}`;
    return { text, binds, numbers: [...numbersOf(a, b), ...(number ? [text] : [])] };
  });
/** No space between signs of one kind: the grammar has them as tokens, but the library takes `- -a` for no formula. */
const signed = (side: fc.Arbitrary<Text>, sign: '-' | '!') =>
  fc.tuple(side, space).map(([a, s]): Text => {
    const text = a.sign === sign ? `${sign}${a.text}` : `${sign}${s}${put(a, 7)}`;
    return { text, binds: 6, sign, numbers: [...a.numbers, ...(sign === '-' ? [text] : [])] };
  });
const chosen = (condition: fc.Arbitrary<Text>, side: fc.Arbitrary<Text>, number: boolean) =>
  fc.tuple(condition, side, side, space).map(([c, a, b, s]): Text => {
    const text = `${put(c, 1)}${s}?${s}${put(a, 1)}${s}:${put(b, 0)}`;
    return { text, binds: 0, numbers: [...numbersOf(c, a, b), ...(number ? [text] : [])] };
  });
const bracketed = (side: fc.Arbitrary<Text>) => side.map((a): Text => ({ ...a, text: `(${a.text})`, binds: 7 }));
/** `sign` belongs to the text as it stands: in brackets it begins with one of those. */
const noSign = ({ sign: _, ...rest }: Text): Text => rest;

const NUMBERS = ['a', 'b', 'cross', 'x1', '0.0', '0.5', '1.0', '2.25', '10.0', '3e1', '.125'];
const { number, truth } = fc.letrec<{ number: Text; truth: Text; word: Text }>((tie) => ({
  number: fc.oneof(
    { depthSize: 'small', withCrossShrink: true },
    fc.constantFrom(...NUMBERS).map((t) => alone(t, true)),
    infix(tie('number'), ['+', '-'], 4, true),
    infix(tie('number'), ['*', '/'], 5, true),
    signed(tie('number'), '-'),
    chosen(tie('truth'), tie('number'), true),
    bracketed(tie('number')).map(noSign),
  ),
  word: fc.constantFrom('event', '"fire"', "'none'", '""').map((t) => alone(t, false)),
  truth: fc.oneof(
    { depthSize: 'small', withCrossShrink: true },
    fc.constantFrom('p', 'q', 'true', 'false').map((t) => alone(t, false)),
    infix(tie('number'), ['<', '<=', '>', '>=', '==', '!='], 3, false),
    infix(tie('word'), ['==', '!='], 3, false),
    infix(tie('truth'), ['==', '!='], 3, false),
    infix(tie('truth'), ['&&'], 2, false),
    infix(tie('truth'), ['||'], 1, false),
    signed(tie('truth'), '!'),
    chosen(tie('truth'), tie('truth'), false),
    bracketed(tie('truth')).map(noSign),
  ),
}));
const formula = fc.oneof(number, truth);

const drawn = fc.record({
  a: fc.integer({ min: -40, max: 40 }).map((n) => n / 4),
  b: fc.integer({ min: -360, max: 360 }),
  cross: fc.double({ min: -50, max: 50, noNaN: true }),
  x1: fc.constantFrom(0, 1, -1, 1e-12, 1e6),
  p: fc.boolean(),
  q: fc.boolean(),
  event: fc.constantFrom('fire', 'none', 'tyre'),
});
type Drawn = typeof drawn extends fc.Arbitrary<infer T> ? T : never;

const env = celEnv();
const celValue = (text: string, values: Drawn): unknown => plan(env, celParse(text))(values);
const celReads = (text: string): boolean => {
  try {
    celParse(text);
    return true;
  } catch {
    return false;
  }
};
const environment = (names: Drawn): Environment => ({ names, limit: () => Number.NaN, lookup: () => Number.NaN });
const ourValue = (tree: Tree, values: Drawn): Value | null => {
  try {
    return compile(tree)(environment(values));
  } catch (error) {
    if (error instanceof NoValue) return null;
    throw error;
  }
};
/** Numbers that differ by less than the slack, or hardly more, are equal for us and differ in CEL. */
const withinSlack = (tree: Tree, values: Drawn): boolean =>
  comparisonsIn(tree).some(({ left, right }) => {
    const [a, b] = [ourValue(left, values), ourValue(right, values)];
    return typeof a === 'number' && typeof b === 'number' && a !== b && Math.abs(a - b) < 1e-6;
  });

describe('against @bufbuild/cel', () => {
  test('what is a formula for both has one value', () => {
    let compared = 0;
    fc.assert(
      fc.property(formula, drawn, ({ text, numbers }, values) => {
        const cel = celValue(text, values);
        const ours = parse(text);
        if (!ours.ok) {
          // Only our own limits part us.
          expect(ours.error.code).toMatch(/^too-(deep|long)$/);
          return;
        }
        fc.pre(!withinSlack(ours.tree, values));
        const value = ourValue(ours.tree, values);
        if (value === null) {
          // NaN or infinity somewhere, though CEL may get past it.
          const odd = numbers.some((part) => !Number.isFinite(celValue(part, values)));
          expect(odd, `${text} has no value, but every part has one`).toBe(true);
          return;
        }
        compared += 1;
        if (typeof value !== 'number') expect(value).toBe(cel);
        else expect(Math.abs(value - (cel as number))).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(value)));
      }),
      { numRuns: 3000 },
    );
    // Else this would say little.
    expect(compared).toBeGreaterThan(2000);
  });

  /** Beyond the grammar: words and calls that CEL leaves to later. */
  const OURS: readonly FormulaErrorCode[] = ['function', 'arguments', 'literal', 'too-deep', 'too-long'];
  const agree = (pieces: readonly string[]): boolean => {
    // See `signed`.
    const text = pieces.join(' ').replace(/([-!]) (?=\1)/g, '$1');
    const ours = parse(text);
    if (!ours.ok && OURS.includes(ours.error.code)) return false;
    expect(ours.ok, text).toBe(celReads(text));
    return ours.ok;
  };

  test('a formula with one piece lost, doubled, put elsewhere or changed', () => {
    const pieces = /[A-Za-z]\w*|\d*\.?\d+(?:e\d+)?|"[^"]*"|'[^']*'|[<>=!]=|&&|\|\||\S/g;
    const signs = ['(', ')', '?', ':', '-', '!', '+', '*', '<', '==', '&&', '||', ',', 'a', '1.5', 'as', 'abs('];
    let [good, bad] = [0, 0];
    fc.assert(
      fc.property(formula, fc.nat(), fc.nat(), fc.nat(3), fc.constantFrom(...signs), ({ text }, m, n, how, sign) => {
        const all = text.match(pieces) ?? [];
        const [i, j] = [m % all.length, n % all.length];
        const [piece = ''] = how === 1 ? [all[i]] : how === 3 ? [] : all.splice(i, 1);
        if (how === 3) all[i] = sign;
        else if (how > 0) all.splice(j, 0, piece);
        if (agree(all)) good += 1;
        else bad += 1;
      }),
      { numRuns: 3000 },
    );
    expect(Math.min(good, bad)).toBeGreaterThan(200);
  });

  test('pieces in any order', () => {
    const some = fc.constantFrom('a', '1.5', '"w"', 'true', '(', ')', '+', '-', '*', '/', '<', '>=', '==', '!=');
    const rest = fc.constantFrom('&&', '||', '!', '?', ':', ',', 'abs(', 'min(', 'as', '1e', '..', '=', '&');
    fc.assert(
      fc.property(fc.array(fc.oneof({ weight: 3, arbitrary: some }, rest), { maxLength: 9 }), (all) => {
        agree(all);
      }),
      { numRuns: 3000 },
    );
  });

  test('no text whatever does more than fail', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 60 }), (text) => {
        const ours = parse(text);
        if (ours.ok) expect(ours.tree.kind).toBeTypeOf('string');
        else expect(ours.error.at >= 0 && ours.error.at <= text.length).toBe(true);
      }),
      { numRuns: 2000 },
    );
  });
});

describe('formulas of the decks', () => {
  const folder = new URL('../../decks/', import.meta.url);
  /** Formulas stand under these keys alone, in src/model/deck.ts: strings, lists (`require`), records (`let`). */
  const KEYS = new Set(['if', 'number', 'require', 'let']);
  const strings = (x: unknown): string[] =>
    typeof x === 'string' ? [x] : typeof x === 'object' && x !== null ? Object.values(x).flatMap(strings) : [];
  const formulasIn = (x: unknown): string[] =>
    typeof x !== 'object' || x === null
      ? []
      : Object.entries(x).flatMap(([key, part]) =>
          !Array.isArray(x) && KEYS.has(key) ? strings(part) : formulasIn(part),
        );
  const found = readdirSync(folder)
    .filter((name) => name.endsWith('.deck.json'))
    .flatMap((name) =>
      formulasIn(JSON.parse(readFileSync(new URL(name, folder), 'utf8'))).map((text) => [name, text] as const),
    );

  test('there are some', () => {
    expect(found.length).toBeGreaterThan(50);
  });
  test.each(found)('%s: %s', (_, text) => {
    expect(parse(text)).toMatchObject({ ok: true });
    expect(celReads(text)).toBe(true);
  });
});
