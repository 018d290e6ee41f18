import type { Node, Step } from '../../model/deck.ts';

/**
 * Nodes of a procedure as they are moved about. A draft may hold anything: what is no step and no block (`use`, or
 * something not yet right) is kept as it is, where it is.
 */
export type Slot =
  | { readonly kind: 'step'; step: Step }
  | {
      readonly kind: 'block';
      readonly node: Node;
      readonly key: 'steps' | 'lanes';
      readonly lists: Slot[][];
      /** Whether its lists are side by side, or their members done at once: then no order holds among them. */
      readonly isLoose: boolean;
      /** Which of its lists were empty before. */
      readonly wasEmpty: readonly boolean[];
    }
  | { readonly kind: 'other'; readonly node: Node };

type Loose = { readonly [key: string]: unknown };

export const slotsOf = (nodes: unknown): Slot[] =>
  Array.isArray(nodes) ? nodes.map((node) => slotOf(node as Node & Loose)) : [];

const slotOf = (node: Node & Loose): Slot => {
  if (typeof node !== 'object' || node === null || 'use' in node) return { kind: 'other', node };
  const lanes = node.lanes;
  if (Array.isArray(lanes) && !('steps' in node)) return block(node, 'lanes', lanes.map(slotsOf));
  if (Array.isArray(node.steps) && !('lanes' in node)) return block(node, 'steps', [slotsOf(node.steps)]);
  if (typeof node.id === 'string' && !('steps' in node) && !('lanes' in node))
    return { kind: 'step', step: node as unknown as Step };
  return { kind: 'other', node };
};

const block = (node: Node & Loose, key: 'steps' | 'lanes', lists: Slot[][]): Slot => ({
  kind: 'block',
  node,
  key,
  lists,
  isLoose: node.together === true,
  wasEmpty: lists.map((list) => list.length === 0),
});

/** Back to nodes. Lists and blocks from which all went are gone too. */
export const nodesOf = (slots: readonly Slot[]): Node[] =>
  slots.flatMap((slot): Node[] => {
    if (slot.kind === 'step') return [slot.step];
    if (slot.kind === 'other') return [slot.node];
    const lists = slot.lists.map(nodesOf).filter((list, i) => list.length > 0 || slot.wasEmpty[i]);
    if (lists.length === 0 && slot.lists.length > 0) return [];
    return [{ ...slot.node, [slot.key]: slot.key === 'lanes' ? lists : lists[0] } as Node];
  });

export const stepsIn = (slots: readonly Slot[]): Step[] =>
  slots.flatMap((slot) =>
    slot.kind === 'step' ? [slot.step] : slot.kind === 'block' ? slot.lists.flatMap(stepsIn) : [],
  );

/** The way to a step: place in a list, list of the block, place in that list … */
export interface Place {
  readonly step: Step;
  readonly way: readonly number[];
  /** Of each block on the way, whether its members are done at once. */
  readonly loose: readonly boolean[];
}

export const placesOf = (
  slots: readonly Slot[],
  way: readonly number[] = [],
  loose: readonly boolean[] = [],
): Place[] =>
  slots.flatMap((slot, i) => {
    if (slot.kind === 'step') return [{ step: slot.step, way: [...way, i], loose }];
    if (slot.kind === 'other') return [];
    return slot.lists.flatMap((list, n) => placesOf(list, [...way, i, n], [...loose, slot.isLoose]));
  });

/** Must the first be done before the second, by where they stand? Lanes and what is done together have no order. */
export const isBefore = (a: Place, b: Place): boolean => {
  const n = a.way.findIndex((at, i) => at !== b.way[i]);
  // Odd: lanes side by side. Even: places in one list, of a block that may be loose.
  if (n < 0 || n % 2 === 1) return false;
  if (n > 0 && a.loose[n / 2 - 1]) return false;
  return (a.way[n] as number) < (b.way[n] as number);
};
