import { FUNCTIONS } from './functions.ts';
import { isComparison, type Kind, type Tree } from './tree.ts';
import { nodesOf } from './walk.ts';

export type Typed =
  | { readonly ok: true; readonly kind: Kind }
  | {
      readonly ok: false;
      readonly code: 'unknown-name' | 'kind';
      /** The part that does not fit: `places` of `parse` say where it stands. */
      readonly part: Tree;
      readonly args: Readonly<Record<string, string>>;
    };

/**
 * The kind of a formula's value, found without evaluating it; or its first part that does not fit.
 * @param kindOf the kind of a name; undefined where there is none
 */
export function typeOf(tree: Tree, kindOf: (name: string) => Kind | undefined): Typed {
  const is = (kind: Kind): Typed => ({ ok: true, kind });
  const need = (part: Tree, wanted: Kind): Typed => {
    const found = typeOf(part, kindOf);
    return !found.ok || found.kind === wanted
      ? found
      : { ok: false, code: 'kind', part, args: { wanted, found: found.kind } };
  };
  /** Parts, each with the kind it must have, in the order of the text. */
  const all = (parts: readonly Tree[], wanted: (i: number) => Kind, kind: Kind): Typed => {
    for (const [i, part] of parts.entries()) {
      const typed = need(part, wanted(i));
      if (!typed.ok) return typed;
    }
    return is(kind);
  };

  switch (tree.kind) {
    case 'number':
    case 'string':
    case 'boolean':
      return is(tree.kind);
    case 'name': {
      const kind = kindOf(tree.name);
      return kind === undefined ? { ok: false, code: 'unknown-name', part: tree, args: { name: tree.name } } : is(kind);
    }
    case 'unary':
      return need(tree.of, tree.op === '!' ? 'boolean' : 'number');
    case 'choose': {
      const condition = need(tree.if, 'boolean');
      if (!condition.ok) return condition;
      const yes = typeOf(tree.yes, kindOf);
      return yes.ok ? need(tree.no, yes.kind) : yes;
    }
    case 'binary': {
      const { op, left, right } = tree;
      if (op === '&&' || op === '||') return all([left, right], () => 'boolean', 'boolean');
      if (op === '==' || op === '!=') {
        const first = typeOf(left, kindOf);
        return first.ok ? all([right], () => first.kind, 'boolean') : first;
      }
      return all([left, right], () => 'number', isComparison(op) ? 'boolean' : 'number');
    }
    case 'call': {
      const takes = FUNCTIONS.get(tree.name)?.takes ?? [];
      return all(tree.args, (i) => takes[Math.min(i, takes.length - 1)] ?? 'number', 'number');
    }
  }
}

/** Every call in a formula, outer before inner. */
export const callsOf = (tree: Tree): Extract<Tree, { kind: 'call' }>[] =>
  [...nodesOf(tree)].filter((t) => t.kind === 'call');
