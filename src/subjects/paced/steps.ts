import type { Id, Node, Paced, Step } from '../../model/deck.ts';
import { isBlock, isUse } from '../../model/deck.ts';
import type { Things } from '../things.ts';

/** Every step that a paced run may come to, in any variant and situation, those of used blocks among them. */
export function stepsPlayed(things: Things, { procedures }: Pick<Paced, 'procedures'>): Map<Id, Step> {
  const steps = new Map<Id, Step>();
  const used = new Set<Id>();
  const visit = (nodes: readonly Node[]): void => {
    for (const node of nodes) {
      if (isUse(node)) {
        const named = things.blocks.get(node.use);
        if (!named || used.has(node.use)) continue;
        used.add(node.use);
        visit([named.block]);
      } else if (isBlock(node)) {
        for (const list of node.lanes ?? [node.steps ?? []]) visit(list);
      } else if (!steps.has(node.id)) steps.set(node.id, node);
    }
  };
  for (const id of procedures) visit(things.procedures.get(id)?.steps ?? []);
  return steps;
}
