/** A formula as read: JSON without places in the text, since item stamps are made of it. */
export type Tree =
  | { readonly kind: 'number'; readonly value: number }
  | { readonly kind: 'string'; readonly value: string }
  | { readonly kind: 'boolean'; readonly value: boolean }
  | { readonly kind: 'name'; readonly name: string }
  | { readonly kind: 'unary'; readonly op: '-' | '!'; readonly of: Tree }
  | { readonly kind: 'binary'; readonly op: BinaryOp; readonly left: Tree; readonly right: Tree }
  | { readonly kind: 'choose'; readonly if: Tree; readonly yes: Tree; readonly no: Tree }
  | { readonly kind: 'call'; readonly name: string; readonly args: readonly Tree[] };

export type ComparisonOp = '<' | '<=' | '>' | '>=' | '==' | '!=';
export type BinaryOp = '||' | '&&' | ComparisonOp | '+' | '-' | '*' | '/';

export type Value = number | boolean | string;
export type Kind = 'number' | 'boolean' | 'string';

/** Where a formula meets the deck. */
export interface Environment {
  readonly names: Readonly<Record<string, Value>>;
  /** NaN where there is none. */
  limit(id: string): number;
  lookup(id: string, x: number): number;
}

export interface FormulaError {
  readonly code: FormulaErrorCode;
  /** Offset in the text, UTF-16 units from 0. */
  readonly at: number;
  readonly args: Readonly<Record<string, string | number>>;
}
export type FormulaErrorCode =
  | 'empty'
  | 'too-long'
  | 'too-deep'
  | 'character'
  | 'number'
  | 'string'
  | 'expected'
  | 'reserved'
  | 'name'
  | 'function'
  | 'arguments'
  /** `limit` and `lookup` name theirs as a word in quotes: what a formula stands on is seen without evaluating it. */
  | 'literal'
  | 'end';

const COMPARISONS: readonly ComparisonOp[] = ['<', '<=', '>', '>=', '==', '!='];
export const isComparison = (op: BinaryOp): op is ComparisonOp => (COMPARISONS as readonly string[]).includes(op);
