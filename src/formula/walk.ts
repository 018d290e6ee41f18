import type { Tree } from './tree.ts';

export const childrenOf = (tree: Tree): readonly Tree[] => {
  switch (tree.kind) {
    case 'unary':
      return [tree.of];
    case 'binary':
      return [tree.left, tree.right];
    case 'choose':
      return [tree.if, tree.yes, tree.no];
    case 'call':
      return tree.args;
    default:
      return [];
  }
};

/** Every subtree, the tree itself first. */
export function* nodesOf(tree: Tree): Generator<Tree> {
  yield tree;
  for (const child of childrenOf(tree)) yield* nodesOf(child);
}
