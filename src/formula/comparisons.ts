import { type ComparisonOp, isComparison, type Tree } from './tree.ts';
import { nodesOf } from './walk.ts';

export interface Compared {
  readonly op: ComparisonOp;
  readonly left: Tree;
  readonly right: Tree;
}

/** Every comparison in a formula, outermost first: where its truth can change. */
export const comparisonsIn = (tree: Tree): Compared[] =>
  [...nodesOf(tree)].flatMap((node) =>
    node.kind === 'binary' && isComparison(node.op) ? [{ op: node.op, left: node.left, right: node.right }] : [],
  );
