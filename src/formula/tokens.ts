import type { FormulaError } from './tree.ts';

export type Token =
  | { readonly type: 'number'; readonly value: number; readonly at: number }
  | { readonly type: 'string'; readonly value: string; readonly at: number }
  | { readonly type: 'name'; readonly value: string; readonly at: number }
  | { readonly type: 'sign'; readonly value: string; readonly at: number }
  | { readonly type: 'end'; readonly value: ''; readonly at: number };

export type Tokens =
  | { readonly ok: true; readonly tokens: readonly Token[] }
  | { readonly ok: false; readonly error: FormulaError };

/** CEL's FLOAT_LIT and INT_LIT without hexadecimal and unsigned; every number is a double here. */
const NUMBER = /(?:\d+\.\d+(?:[eE][+-]?\d+)?|\d+[eE][+-]?\d+|\.\d+(?:[eE][+-]?\d+)?|\d+)/y;
const NAME = /[A-Za-z_][A-Za-z0-9_]*/y;
const SIGN = /\|\||&&|<=|>=|==|!=|[-+*/<>!?:(),]/y;
const SPACE = /[ \t\n\f\r]+/y;

/** Splits a formula. Strings stand in ' or " without escapes: ids and choice words need none. */
export function tokensOf(text: string): Tokens {
  const tokens: Token[] = [];
  let at = 0;
  const take = (pattern: RegExp): string | undefined => {
    pattern.lastIndex = at;
    return pattern.exec(text)?.[0];
  };
  while (at < text.length) {
    const space = take(SPACE);
    if (space !== undefined) {
      at += space.length;
      continue;
    }
    const number = take(NUMBER);
    if (number !== undefined) {
      const value = Number(number);
      const after = text[at + number.length];
      if (!Number.isFinite(value) || (after !== undefined && /[A-Za-z0-9_.]/.test(after))) return bad('number', at);
      tokens.push({ type: 'number', value, at });
      at += number.length;
      continue;
    }
    const name = take(NAME);
    if (name !== undefined) {
      // r"", b"" and the like are strings of another kind in CEL.
      const next = text[at + name.length];
      if (next === '"' || next === "'") return bad('string', at);
      tokens.push({ type: 'name', value: name, at });
      at += name.length;
      continue;
    }
    const quote = text[at];
    if (quote === '"' || quote === "'") {
      const end = text.indexOf(quote, at + 1);
      const value = text.slice(at + 1, end);
      if (end < 0 || /[\\\n\r]/.test(value) || text[end + 1] === quote) return bad('string', at);
      tokens.push({ type: 'string', value, at });
      at = end + 1;
      continue;
    }
    const sign = take(SIGN);
    if (sign === undefined) return bad('character', at, { found: String.fromCodePoint(text.codePointAt(at) ?? 0) });
    tokens.push({ type: 'sign', value: sign, at });
    at += sign.length;
  }
  tokens.push({ type: 'end', value: '', at });
  return { ok: true, tokens };
}

const bad = (code: FormulaError['code'], at: number, args: FormulaError['args'] = {}): Tokens => ({
  ok: false,
  error: { code, at, args },
});
