import type { Id, Step } from '../../model/deck.ts';
import { isBefore, type Place, placesOf, type Slot, stepsIn } from './tree.ts';
import type { Lane } from './types.ts';

/** A row that is taken, as a step. */
export interface Taken {
  readonly step: Step;
  readonly lane: Lane | null;
  readonly row: number;
}

/** How the columns of a table with one for each pilot are meant. */
export type Order = 'columns' | 'rows';

/** Does the list say that the one is before the other? Of two columns side by side it says nothing. */
const saysBefore = (a: Taken, b: Taken, i: number, j: number, order: Order): boolean => {
  if (i >= j) return false;
  if (a.lane === null || b.lane === null || a.lane.column === b.lane.column) return true;
  return order === 'columns' ? a.lane.section !== b.lane.section : a.row !== b.row;
};

/**
 * Which of the steps that stay must move, so that the order of the procedure is that of the list: again and again the one
 * that stands against most others, of equals the later. Steps that the procedure leaves without an order stay.
 */
export const movers = (slots: readonly Slot[], taken: readonly Taken[], order: Order): Set<Id> => {
  const at = new Map(taken.map(({ step }, i) => [step.id, i]));
  const places = placesOf(slots).filter(({ step }) => at.has(step.id));
  const rank = (place: Place) => at.get(place.step.id) as number;
  const against = places.map(() => new Set<number>());
  for (const [i, a] of places.entries())
    for (let j = i + 1; j < places.length; j++) {
      const b = places[j] as Place;
      if (!isBefore(a, b) || rank(b) > rank(a)) continue;
      if (!saysBefore(taken[rank(b)] as Taken, taken[rank(a)] as Taken, rank(b), rank(a), order)) continue;
      against[i]?.add(j);
      against[j]?.add(i);
    }
  const moving = new Set<Id>();
  for (;;) {
    let worst = -1;
    for (const [i, others] of against.entries())
      if (others.size > 0 && others.size >= (against[worst]?.size ?? 0)) worst = i;
    if (worst < 0) return moving;
    for (const other of against[worst] as Set<number>) against[other]?.delete(worst);
    against[worst]?.clear();
    moving.add((places[worst] as Place).step.id);
  }
};

/** Takes steps out. */
export const without = (slots: Slot[], ids: ReadonlySet<Id>): void => {
  for (let i = slots.length - 1; i >= 0; i--) {
    const slot = slots[i] as Slot;
    if (slot.kind === 'step' && ids.has(slot.step.id)) slots.splice(i, 1);
    else if (slot.kind === 'block') for (const list of slot.lists) without(list, ids);
  }
};

interface Found {
  /** Lists from the one that holds the step to the whole procedure. */
  readonly lists: readonly Slot[][];
  /** In each the member that holds it. */
  readonly members: readonly Slot[];
}

const found = (list: Slot[], id: Id): Found | null => {
  for (const slot of list) {
    if (slot.kind === 'step' && slot.step.id === id) return { lists: [list], members: [slot] };
    if (slot.kind !== 'block') continue;
    for (const inner of slot.lists) {
      const deeper = found(inner, id);
      if (deeper !== null) return { lists: [...deeper.lists, list], members: [...deeper.members, slot] };
    }
  }
  return null;
};

/**
 * Puts a step where the list has it: behind the one before it, in the innermost list that holds that one and the next that
 * stayed; among lanes of one pilot each, in that pilot's.
 * @param before ids of the rows before it, in order; all are there
 * @param next the next row's that is there
 */
export const placed = (root: Slot[], row: Taken, before: readonly Id[], next: Id | null): void => {
  const slot: Slot = { kind: 'step', step: row.step };
  const last = before.at(-1);
  const a = last === undefined ? null : found(root, last);
  const b = next === null ? null : found(root, next);
  if (inLane(slot, row, a, b, before)) return;
  if (a === null) {
    root.splice(b === null ? 0 : root.indexOf(b.members.at(-1) as Slot), 0, slot);
    return;
  }
  let depth = b === null ? a.lists.length - 1 : a.lists.findIndex((list) => b.lists.includes(list));
  // Side by side in lanes of one block: it goes on with the lane of the one before it.
  if (depth > 0 && b?.members.includes(a.members[depth] as Slot)) depth -= 1;
  const list = a.lists[depth] as Slot[];
  list.splice(list.indexOf(a.members[depth] as Slot) + 1, 0, slot);
};

const inLane = (
  slot: Slot,
  { step, lane }: Taken,
  a: Found | null,
  b: Found | null,
  before: readonly Id[],
): boolean => {
  const one = a ?? b;
  if (one === null || step.by === undefined) return false;
  const block = one.members.find(
    (member) =>
      member.kind === 'block' &&
      member.key === 'lanes' &&
      ((a?.members.includes(member) && b?.members.includes(member)) || lane !== null),
  );
  if (block?.kind !== 'block') return false;
  const isOf = (list: readonly Slot[]) => list.length > 0 && stepsIn(list).every(({ by }) => by === step.by);
  const own = block.lists.find((list) => isOf(list) && one.lists.includes(list)) ?? block.lists.find(isOf);
  if (own === undefined) return false;
  const there = new Set(before);
  const isBehind = own.map((member) => stepsIn([member]).some(({ id }) => there.has(id)));
  own.splice(isBehind.lastIndexOf(true) + 1, 0, slot);
  return true;
};

/** A list without a procedure to fit into: steps in order, and lanes where the table has them. */
export const arranged = (taken: readonly Taken[], order: Order): Slot[] => {
  const key = ({ lane, row }: Taken): number | null =>
    lane === null ? null : order === 'columns' ? lane.section : row;
  const slots: Slot[] = [];
  for (let i = 0; i < taken.length; ) {
    const first = taken[i] as Taken;
    let end = i + 1;
    while (key(first) !== null && end < taken.length && key(taken[end] as Taken) === key(first)) end++;
    const group = taken.slice(i, end);
    const columns = [...new Set(group.map(({ lane }) => lane?.column ?? 0))].sort((a, b) => a - b);
    const lists = columns.map((column) =>
      group.filter(({ lane }) => (lane?.column ?? 0) === column).map(({ step }): Slot => ({ kind: 'step', step })),
    );
    const [only = []] = lists;
    if (lists.length === 1) slots.push(...only);
    else
      slots.push({
        kind: 'block',
        node: { lanes: [] },
        key: 'lanes',
        lists,
        isLoose: false,
        wasEmpty: lists.map(() => false),
      });
    i = end;
  }
  return slots;
};

/** Steps that stay although the list no longer has them: behind the one that was before them. */
export const stayed = (root: Slot[], old: readonly Step[], staying: ReadonlySet<Id>): void => {
  for (const [i, step] of old.entries()) {
    if (!staying.has(step.id)) continue;
    const at = old.slice(0, i).reduce<Found | null>((last, { id }) => found(root, id) ?? last, null);
    const list = at?.lists[0] ?? root;
    list.splice(at === null ? 0 : list.indexOf(at.members[0] as Slot) + 1, 0, { kind: 'step', step });
  }
};
