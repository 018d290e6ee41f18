import type { Node, Step } from '../../model/deck.ts';
import { cellOf, type FIELD_WORDS } from './fields.ts';
import { type Slot, slotsOf, stepsIn } from './tree.ts';

/** Headings of what `toRows` writes, in this order; all are read back. */
const COLUMNS: readonly (readonly [heading: string, key: keyof typeof FIELD_WORDS])[] = [
  ['crew', 'by'],
  ['action', 'do'],
  ['callout', 'say'],
  ['cue', 'cue'],
  ['limit', 'limit'],
  ['why', 'why'],
  ['slip', 'slip'],
  ['where', 'where'],
  ['critical', 'critical'],
  ['condition', 'if'],
  ['source', 'source'],
  ['answers', 'answers'],
];

/**
 * The steps of a procedure as a table with headings, one row a step, in the order in which they stand. `id` matches a row
 * with its step when the table is pasted again, `lane` is block and lane (`2.1`) of lanes that hold steps alone. Conditions
 * of blocks, blocks within blocks and what has no column stay in the deck: pasted onto the procedure they are kept.
 */
export const toRows = (nodes: readonly Node[]): string[][] => {
  let block = 0;
  const rows = slotsOf(nodes).flatMap((slot) => {
    if (!isLanes(slot)) return stepsIn([slot]).map((step) => row(step, ''));
    block += 1;
    return slot.lists.flatMap((list, lane) => stepsIn(list).map((step) => row(step, `${block}.${lane + 1}`)));
  });
  return [['id', 'lane', ...COLUMNS.map(([heading]) => heading)], ...rows];
};

const isLanes = (slot: Slot): slot is Slot & { readonly kind: 'block' } =>
  slot.kind === 'block' &&
  slot.key === 'lanes' &&
  slot.lists.every((list) => list.every(({ kind }) => kind === 'step'));

const row = (step: Step, lane: string): string[] => [step.id, lane, ...COLUMNS.map(([, key]) => cellOf(step, key))];
