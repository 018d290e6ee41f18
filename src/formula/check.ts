import { FUNCTIONS } from './functions.ts';
import { isComparison, type Kind, type Tree } from './tree.ts';

export type Typed =
  | { readonly ok: true; readonly kind: Kind }
  | { readonly ok: false; readonly code: 'unknown-name' | 'kind'; readonly args: Readonly<Record<string, string>> };

/**
 * The kind of a formula's value, found without evaluating it.
 * @param kindOf the kind of a name; undefined where there is none
 */
export function typeOf(tree: Tree, kindOf: (name: string) => Kind | undefined): Typed {
  const need = (part: Tree, wanted: Kind): Typed => {
    const found = typeOf(part, kindOf);
    return !found.ok || found.kind === wanted
      ? found
      : { ok: false, code: 'kind', args: { wanted, found: found.kind } };
  };
  const all = (parts: readonly (readonly [Tree, Kind])[], kind: Kind): Typed =>
    parts.map(([part, wanted]) => need(part, wanted)).find((typed) => !typed.ok) ?? { ok: true, kind };

  switch (tree.kind) {
    case 'number':
    case 'string':
    case 'boolean':
      return { ok: true, kind: tree.kind };
    case 'name': {
      const kind = kindOf(tree.name);
      return kind === undefined ? { ok: false, code: 'unknown-name', args: { name: tree.name } } : { ok: true, kind };
    }
    case 'unary':
      return tree.op === '!' ? need(tree.of, 'boolean') : need(tree.of, 'number');
    case 'choose': {
      const condition = need(tree.if, 'boolean');
      if (!condition.ok) return condition;
      const yes = typeOf(tree.yes, kindOf);
      return yes.ok ? need(tree.no, yes.kind) : yes;
    }
    case 'binary': {
      const { op, left, right } = tree;
      if (op === '&&' || op === '||')
        return all(
          [
            [left, 'boolean'],
            [right, 'boolean'],
          ],
          'boolean',
        );
      if (op === '==' || op === '!=') {
        const first = typeOf(left, kindOf);
        return first.ok ? all([[right, first.kind]], 'boolean') : first;
      }
      return all(
        [
          [left, 'number'],
          [right, 'number'],
        ],
        isComparison(op) ? 'boolean' : 'number',
      );
    }
    case 'call': {
      const { takes = [] } = FUNCTIONS.get(tree.name) ?? {};
      return all(
        tree.args.map((arg, i) => [arg, takes[Math.min(i, takes.length - 1)] ?? 'number'] as const),
        'number',
      );
    }
  }
}
