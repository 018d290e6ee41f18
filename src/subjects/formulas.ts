/** What subjects and forms do with formulas, over src/formula: evaluate, look inside, put one into another. */

import { comparisonsIn } from '../formula/comparisons.ts';
import { compile } from '../formula/evaluate.ts';
import { parse } from '../formula/parse.ts';
import type { Tree } from '../formula/tree.ts';
import { childrenOf, nodesOf } from '../formula/walk.ts';
import type { Json } from '../lib/canonical-json.ts';
import type { Id } from '../model/deck.ts';
import type { Drawn } from '../model/form.ts';
import { limitMeaning } from './limit/cases.ts';
import type { ResolvedLimit } from './resolved.ts';

export interface Lookups {
  /** NaN where there is none. */
  limitValue(id: Id): number;
  lookup(id: Id, x: number): number;
}

/** null where it cannot be parsed. */
export function parseFormula(text: string): Tree | null {
  const result = parse(text);
  return result.ok ? result.tree : null;
}

type Compiled = ReturnType<typeof compile>;
const compiled = new WeakMap<Tree, Compiled>();
function runOf(tree: Tree): Compiled {
  const known = compiled.get(tree);
  if (known) return known;
  const run = compile(tree);
  compiled.set(tree, run);
  return run;
}

/** null where it has no value: a name not drawn, NaN, infinity, a limit that is not one number. */
export function evaluate(tree: Tree, names: Drawn, lookups: Lookups): number | boolean | string | null {
  try {
    return runOf(tree)({
      names,
      limit: (id: Id) => lookups.limitValue(id),
      lookup: (id: Id, x: number) => lookups.lookup(id, x),
    });
  } catch {
    // Whatever a formula of an unchecked deck does wrong, it has no value.
    return null;
  }
}

/** null where it has no truth value. */
export function isTrue(tree: Tree, names: Drawn, lookups: Lookups): boolean | null {
  const value = evaluate(tree, names, lookups);
  return typeof value === 'boolean' ? value : null;
}

/** null where it is no finite number. */
export function numberIn(tree: Tree, names: Drawn, lookups: Lookups): number | null {
  const value = evaluate(tree, names, lookups);
  return typeof value === 'number' && Number.isFinite(value) ? value : null;
}

const isTree = (x: unknown): x is Tree => typeof x === 'object' && x !== null && 'kind' in x;

/** A copy with each node replaced where `f` gives another, from the outside in. */
function mapTree(tree: Tree, f: (tree: Tree) => Tree | null): Tree {
  const other = f(tree);
  if (other) return other;
  const member = (v: unknown): unknown => (Array.isArray(v) ? v.map(member) : isTree(v) ? mapTree(v, f) : v);
  return Object.fromEntries(Object.entries(tree).map(([k, v]) => [k, member(v)])) as unknown as Tree;
}

const names = new WeakMap<Tree, readonly string[]>();
/** Names in a formula, repeats left out. */
export function namesIn(tree: Tree): readonly string[] {
  const known = names.get(tree);
  if (known) return known;
  const found = [...new Set([...nodesOf(tree)].flatMap((t) => (t.kind === 'name' ? [t.name] : [])))];
  names.set(tree, found);
  return found;
}

export interface Call {
  readonly name: string;
  readonly args: readonly Tree[];
}
export const asCall = (tree: Tree): Call | null => (tree.kind === 'call' ? { name: tree.name, args: tree.args } : null);
export const callsIn = (tree: Tree): Call[] => [...nodesOf(tree)].flatMap((t) => asCall(t) ?? []);

/** Names of `let` replaced by what they stand for, also within one another. */
export function inlined(tree: Tree, lets: ReadonlyMap<string, Tree>, depth = 0): Tree {
  // A circle of names is refused by the checker; here it must only end.
  if (depth > 32) return tree;
  if (lets.size === 0 || !namesIn(tree).some((n) => lets.has(n))) return tree;
  return mapTree(tree, (t) => {
    const put = t.kind === 'name' ? lets.get(t.name) : undefined;
    return put ? inlined(put, lets, depth + 1) : null;
  });
}

/** Calls replaced: by a call of another function on the same arguments, or by a tree; null keeps one. */
export function mapCalls(
  tree: Tree,
  f: (name: string, args: readonly Tree[]) => Tree | { readonly call: string; readonly args: readonly Tree[] } | null,
): Tree {
  return mapTree(tree, (t) => {
    if (t.kind !== 'call') return null;
    const put = f(t.name, t.args);
    if (!put) return null;
    return 'call' in put ? ({ ...t, name: put.call } as Tree) : put;
  });
}

/** Two numbers or words compared: `left op right`. */
export interface Comparison {
  readonly op: string;
  readonly left: Tree;
  readonly right: Tree;
}
export const comparisonsOf = (tree: Tree): Comparison[] =>
  comparisonsIn(tree).map(({ op, left, right }) => ({ op, left, right }));

/** A drawn value, a number or a limit as it stands: seen or known, not computed. After `inlined`. */
export function isPrinted(tree: Tree): boolean {
  if (tree.kind === 'number' || tree.kind === 'name') return true;
  if (tree.kind === 'unary') return isPrinted(childrenOf(tree)[0] as Tree);
  return tree.kind === 'call' && tree.name === 'limit';
}

/** Where a formula stands in its text is no part of what it says. */
const WHERE = new Set(['at', 'end', 'pos', 'start']);

/** A formula as what must be recalled: limits and tables looked up, places in the text left out. */
export function meaningOf(
  tree: Tree,
  context: { readonly limits: ReadonlyMap<Id, ResolvedLimit>; readonly lookup?: unknown },
): Json {
  const call = asCall(tree);
  const first = call?.args[0];
  if (call && first && (call.name === 'limit' || call.name === 'lookup') && first.kind === 'string') {
    const resolved = context.limits.get(first.value);
    const table = resolved && 'table' in resolved.limit ? resolved.limit.table : undefined;
    return {
      [call.name]: table ? { method: table.method, rows: table.rows as unknown as Json } : limitMeaning(resolved),
      ...(call.args[1] && { of: meaningOf(call.args[1], context) }),
    };
  }
  const member = (v: unknown): Json =>
    Array.isArray(v) ? v.map(member) : isTree(v) ? meaningOf(v, context) : (v as Json);
  return Object.fromEntries(
    Object.entries(tree)
      .filter(([k]) => !WHERE.has(k))
      .map(([k, v]) => [k, member(v)]),
  );
}

/** The same formula, wherever it stands in a text. Calls of limits are compared by name. */
export function sameTree(a: Tree, b: Tree): boolean {
  if (a === b) return true;
  if (a.kind !== b.kind) return false;
  const parts = childrenOf(a);
  const others = childrenOf(b);
  return (
    parts.length === others.length && headOf(a) === headOf(b) && parts.every((t, i) => sameTree(t, others[i] as Tree))
  );
}

/** What a node says besides its parts. */
function headOf(tree: Tree): number | string | boolean | null {
  switch (tree.kind) {
    case 'number':
    case 'string':
    case 'boolean':
      return tree.value;
    case 'name':
    case 'call':
      return tree.name;
    case 'unary':
    case 'binary':
      return tree.op;
    case 'choose':
      return null;
  }
}
