import { FUNCTIONS } from './functions.ts';
import { type Token, tokensOf } from './tokens.ts';
import type { BinaryOp, FormulaError, FormulaErrorCode, Tree } from './tree.ts';

export type Parsed = { readonly ok: true; readonly tree: Tree } | { readonly ok: false; readonly error: FormulaError };

export const MOST_LENGTH = 2000;
export const MOST_DEPTH = 64;

/** CEL's reserved words (language definition, "RESERVED") and the names of its constants. */
const RESERVED: ReadonlySet<string> = new Set(
  'as break const continue else for function if import in let loop package namespace return var void while null true false'.split(
    ' ',
  ),
);
const NAME = /^[a-z][A-Za-z0-9]*$/;

/** May a drawn value, a `let`, a value of the day or a condition be called so? */
export const isName = (text: string): boolean => NAME.test(text) && !RESERVED.has(text);

/** From loose to tight; each level groups from the left. */
const LEVELS: readonly (readonly string[])[] = [
  ['||'],
  ['&&'],
  ['<', '<=', '>', '>=', '==', '!='],
  ['+', '-'],
  ['*', '/'],
];

class Fault extends Error {
  readonly error: FormulaError;
  constructor(code: FormulaErrorCode, at: number, args: FormulaError['args'] = {}) {
    super(code);
    this.error = { code, at, args };
  }
}

/** The grammar of CEL (github.com/google/cel-spec, doc/langdef.md) confined to numbers, truth values, words and calls. */
export function parse(text: string): Parsed {
  if (text.length > MOST_LENGTH) return fail('too-long', MOST_LENGTH, { most: MOST_LENGTH });
  const tokens = tokensOf(text);
  if (!Array.isArray(tokens)) return { ok: false, error: tokens as FormulaError };
  if (tokens.length === 1) return fail('empty', 0);
  try {
    return { ok: true, tree: new Parser(tokens as readonly Token[]).whole() };
  } catch (error) {
    if (error instanceof Fault) return { ok: false, error: error.error };
    throw error;
  }
}

const fail = (code: FormulaErrorCode, at: number, args: FormulaError['args'] = {}): Parsed => ({
  ok: false,
  error: { code, at, args },
});

class Parser {
  readonly #tokens: readonly Token[];
  #next = 0;
  #depth = 0;

  constructor(tokens: readonly Token[]) {
    this.#tokens = tokens;
  }

  whole(): Tree {
    const tree = this.#choose();
    const left = this.#peek();
    if (left.type !== 'end') throw new Fault('end', left.at, { found: String(left.value) });
    return tree;
  }

  #peek(): Token {
    return this.#tokens[this.#next] as Token;
  }
  #isSign(value: string): boolean {
    const token = this.#peek();
    return token.type === 'sign' && token.value === value;
  }
  #take(value: string): boolean {
    if (!this.#isSign(value)) return false;
    this.#next += 1;
    return true;
  }
  #must(value: string): void {
    if (!this.#take(value)) this.#expected(value);
  }
  #expected(what: string): never {
    const token = this.#peek();
    throw new Fault('expected', token.at, { what, found: String(token.value) });
  }
  #deeper<T>(work: () => T): T {
    this.#depth += 1;
    if (this.#depth > MOST_DEPTH) throw new Fault('too-deep', this.#peek().at, { most: MOST_DEPTH });
    const result = work();
    this.#depth -= 1;
    return result;
  }

  /** Expr = ConditionalOr ["?" ConditionalOr ":" Expr] */
  #choose(): Tree {
    return this.#deeper(() => {
      const condition = this.#binary(0);
      if (!this.#take('?')) return condition;
      const yes = this.#binary(0);
      this.#must(':');
      return { kind: 'choose', if: condition, yes, no: this.#choose() };
    });
  }

  #binary(level: number): Tree {
    const ops = LEVELS[level];
    if (ops === undefined) return this.#unary();
    let left = this.#binary(level + 1);
    let chain = 0;
    for (;;) {
      const token = this.#peek();
      if (token.type !== 'sign' || !ops.includes(token.value)) return left;
      this.#next += 1;
      chain += 1;
      // A long chain is a deep tree for whoever walks it.
      if (chain > MOST_DEPTH) throw new Fault('too-deep', token.at, { most: MOST_DEPTH });
      left = { kind: 'binary', op: token.value as BinaryOp, left, right: this.#binary(level + 1) };
    }
  }

  /** Unary = Member | "!" {"!"} Member | "-" {"-"} Member: the two do not mix. */
  #unary(): Tree {
    for (const op of ['-', '!'] as const) {
      let count = 0;
      while (this.#take(op)) count += 1;
      if (count > MOST_DEPTH) throw new Fault('too-deep', this.#peek().at, { most: MOST_DEPTH });
      if (count === 0) continue;
      let tree = this.#primary();
      for (let i = 0; i < count; i++) tree = { kind: 'unary', op, of: tree };
      return tree;
    }
    return this.#primary();
  }

  #primary(): Tree {
    const token = this.#peek();
    if (token.type === 'number' || token.type === 'string') {
      this.#next += 1;
      return token.type === 'number' ? { kind: 'number', value: token.value } : { kind: 'string', value: token.value };
    }
    if (token.type === 'name') {
      this.#next += 1;
      return this.#named(token.value, token.at);
    }
    if (!this.#take('(')) this.#expected('a value');
    const tree = this.#choose();
    this.#must(')');
    return tree;
  }

  #named(name: string, at: number): Tree {
    if (name === 'true' || name === 'false') return { kind: 'boolean', value: name === 'true' };
    if (RESERVED.has(name)) throw new Fault('reserved', at, { name });
    if (!this.#take('(')) {
      if (!NAME.test(name)) throw new Fault('name', at, { name });
      return { kind: 'name', name };
    }
    const facts = FUNCTIONS.get(name);
    if (facts === undefined) throw new Fault('function', at, { name });
    const args: Tree[] = [];
    if (!this.#take(')')) {
      do args.push(this.#choose());
      while (this.#take(','));
      this.#must(')');
    }
    const fits = facts.more ? args.length >= facts.takes.length : args.length === facts.takes.length;
    if (!fits) throw new Fault('arguments', at, { name, takes: facts.takes.length, found: args.length });
    return { kind: 'call', name, args };
  }
}
