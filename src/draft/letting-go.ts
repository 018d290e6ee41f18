import type { Json } from '../lib/canonical-json.ts';
import { isList, isMembers } from '../lib/json.ts';
import { apply, type Change, put, valueAt } from './change.ts';
import { moveNode, nodesUnder, type Place, pathOf, removeNode, textOf } from './nodes.ts';
import { comesBefore } from './order.ts';

/** A rearrangement, and how many steps it let go of something that no longer fits. */
export interface Rearranged {
  readonly changes: readonly Change[];
  readonly letGo: number;
}

/** Changes to `needs`, so that a list which loses its last name goes with it. */
const less = (doc: Json, path: string, isGone: (id: string) => boolean): Change[] => {
  const needs = valueAt(doc, `${path}/needs`);
  if (!isList(needs)) return [];
  const left = needs.filter((id) => typeof id !== 'string' || !isGone(id));
  return left.length === needs.length ? [] : [put(doc, `${path}/needs`, left.length === 0 ? undefined : left)];
};

/**
 * What steps of a procedure need although their place no longer has it so: a `needs` that only repeated the order of
 * the text (an order that was confirmed) is let go of. One that the text never held, and one that an answer or a wait
 * stands for as well, stays for the checker to tell of.
 * @param changes what was rearranged
 * @param free also what the place neither has before nor behind any more: any order is wanted
 */
export const lettingGo = (
  doc: Json,
  procedure: string,
  changes: readonly Change[],
  free: 'free' | 'held' = 'held',
): Rearranged => {
  if (changes.length === 0) return { changes, letGo: 0 };
  const after = apply(doc, changes);
  const dropped = [...nodesUnder(after, procedure)].flatMap(({ path, node }) => {
    const second = textOf(node, 'id');
    const also = isMembers(node) ? [node.answers, valueAt(node as Json, '/after/step')] : [];
    return less(after, path, (first) => {
      if (second === '' || also.includes(first) || !comesBefore(doc, procedure, { first, second })) return false;
      return free === 'free'
        ? !comesBefore(after, procedure, { first, second })
        : comesBefore(after, procedure, { first: second, second: first });
    });
  });
  return { changes: [...changes, ...dropped], letGo: dropped.length };
};

/** Moves a step or block. @returns `path`: where it stands then; null where it stays */
export const moveLettingGo = (
  doc: Json,
  procedure: string,
  path: string,
  to: Place,
): Rearranged & { readonly path: string | null } => {
  const node = valueAt(doc, path);
  const moved = moveNode(doc, path, to);
  if (node === undefined || moved.length === 0) return { changes: [], letGo: 0, path: null };
  return { ...lettingGo(doc, procedure, moved), path: pathOf(apply(doc, moved), procedure, node) ?? path };
};

/** Names of steps and blocks of all procedures. */
const namesOf = (doc: Json): Set<string> => {
  const procedures = valueAt(doc, '/procedures');
  const names = (isList(procedures) ? procedures : []).flatMap((_, i) =>
    [...nodesUnder(doc, `/procedures/${i}`)].map(({ node }) => textOf(node, 'id')),
  );
  return new Set(names.filter((id) => id !== ''));
};

/** Removes a step or block; what other steps of the deck need, answer or wait for in it is let go of. */
export const removeLettingGo = (doc: Json, path: string): Rearranged => {
  const removed = removeNode(doc, path);
  if (removed.length === 0) return { changes: removed, letGo: 0 };
  let now = apply(doc, removed);
  const left = namesOf(now);
  const gone = new Set([...namesOf(doc)].filter((id) => !left.has(id)));
  const dropped: Change[] = [];
  let letGo = 0;
  const procedures = valueAt(now, '/procedures');
  for (const [i] of (isList(procedures) ? procedures : []).entries())
    for (const { path: at, node } of [...nodesUnder(now, `/procedures/${i}`)]) {
      const changes = less(now, at, (id) => gone.has(id));
      if (isMembers(node) && gone.has(textOf(node, 'answers'))) changes.push(put(now, `${at}/answers`, undefined));
      const wait = valueAt(node, '/after/step');
      if (typeof wait === 'string' && gone.has(wait)) changes.push(put(now, `${at}/after`, undefined));
      if (changes.length > 0) letGo++;
      // Each takes the place of a member into account: one after the other.
      for (const { path: place, after } of changes) {
        const change = put(now, place, after);
        dropped.push(change);
        now = apply(now, [change]);
      }
    }
  return { changes: [...removed, ...dropped], letGo };
};
