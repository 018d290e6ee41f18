import { FUNCTIONS } from './functions.ts';
import { type Token, tokensOf } from './tokens.ts';
import type { BinaryOp, FormulaError, FormulaErrorCode, Tree } from './tree.ts';
import { childrenOf } from './walk.ts';

export type Parsed =
  | { readonly ok: true; readonly tree: Tree; readonly places: Places }
  | { readonly ok: false; readonly error: FormulaError };

export const MOST_LENGTH = 2000;
export const MOST_DEPTH = 64;

/** Where each part of a formula stands in its text: its operator, or its first character. Kept apart from the tree. */
export type Places = { get(part: Tree): number | undefined };

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

/**
 * The grammar of CEL (github.com/google/cel-spec, doc/langdef.md) confined to numbers, truth values, words, names and
 * calls from the closed list. At most 2,000 UTF-16 units, and 64 levels of brackets as well as of the tree itself, so
 * that nobody who walks a tree runs out of stack.
 */
export function parse(text: string): Parsed {
  if (text.length > MOST_LENGTH) return fail('too-long', MOST_LENGTH, { most: MOST_LENGTH });
  const read = tokensOf(text);
  if (!read.ok) return read;
  if (read.tokens.length === 1) return fail('empty', 0);
  const parser = new Parser(read.tokens);
  try {
    return { ok: true, tree: parser.whole(), places: parser.places };
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
  readonly places = new WeakMap<Tree, number>();
  readonly #heights = new WeakMap<Tree, number>();
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
  #take(value: string): boolean {
    const token = this.#peek();
    if (token.type !== 'sign' || token.value !== value) return false;
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
  #deeper(work: () => Tree): Tree {
    this.#depth += 1;
    if (this.#depth > MOST_DEPTH) throw new Fault('too-deep', this.#peek().at, { most: MOST_DEPTH });
    const tree = work();
    this.#depth -= 1;
    return tree;
  }
  /** A long chain of operators is a deep tree too, without any bracket. */
  #made(tree: Tree, at: number): Tree {
    const height = 1 + Math.max(0, ...childrenOf(tree).map((child) => this.#heights.get(child) ?? 0));
    if (height > MOST_DEPTH) throw new Fault('too-deep', at, { most: MOST_DEPTH });
    this.#heights.set(tree, height);
    this.places.set(tree, at);
    return tree;
  }

  /** Expr = ConditionalOr ["?" ConditionalOr ":" Expr] */
  #choose(): Tree {
    return this.#deeper(() => {
      const condition = this.#binary(0);
      const { at } = this.#peek();
      if (!this.#take('?')) return condition;
      const yes = this.#binary(0);
      this.#must(':');
      return this.#made({ kind: 'choose', if: condition, yes, no: this.#choose() }, at);
    });
  }

  #binary(level: number): Tree {
    const ops = LEVELS[level];
    if (ops === undefined) return this.#unary();
    let left = this.#binary(level + 1);
    for (;;) {
      const token = this.#peek();
      if (token.type !== 'sign' || !ops.includes(token.value)) return left;
      this.#next += 1;
      const right = this.#binary(level + 1);
      left = this.#made({ kind: 'binary', op: token.value as BinaryOp, left, right }, token.at);
    }
  }

  /** Unary = Member | "!" {"!"} Member | "-" {"-"} Member: the two do not mix. */
  #unary(): Tree {
    for (const op of ['-', '!'] as const) {
      const places: number[] = [];
      for (let { at } = this.#peek(); this.#take(op); { at } = this.#peek()) places.push(at);
      if (places.length === 0) continue;
      return places.reduceRight((of, at) => this.#made({ kind: 'unary', op, of }, at), this.#primary());
    }
    return this.#primary();
  }

  #primary(): Tree {
    const token = this.#peek();
    if (token.type === 'number' || token.type === 'string' || token.type === 'name') {
      this.#next += 1;
      if (token.type === 'number') return this.#made({ kind: 'number', value: token.value }, token.at);
      if (token.type === 'string') return this.#made({ kind: 'string', value: token.value }, token.at);
      return this.#named(token.value, token.at);
    }
    if (!this.#take('(')) this.#expected('value');
    const tree = this.#choose();
    this.#must(')');
    return tree;
  }

  #named(name: string, at: number): Tree {
    if (name === 'true' || name === 'false') return this.#made({ kind: 'boolean', value: name === 'true' }, at);
    if (RESERVED.has(name)) throw new Fault('reserved', at, { name });
    if (!this.#take('(')) {
      if (!NAME.test(name)) throw new Fault('name', at, { name });
      return this.#made({ kind: 'name', name }, at);
    }
    const facts = FUNCTIONS.get(name);
    if (facts === undefined) throw new Fault('function', at, { name });
    const args: Tree[] = [];
    if (!this.#take(')')) {
      do args.push(this.#choose());
      while (this.#take(','));
      this.#must(')');
    }
    const least = facts.takes.length;
    if (args.length < least || (args.length > least && !facts.more))
      throw new Fault('arguments', at, { name, takes: least, found: args.length });
    const first = args[0];
    if (facts.takes[0] === 'string' && first?.kind !== 'string')
      throw new Fault('literal', (first && this.places.get(first)) ?? at, { name });
    return this.#made({ kind: 'call', name, args }, at);
  }
}
