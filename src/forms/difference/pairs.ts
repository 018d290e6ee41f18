import { foldText } from '../../lib/fold-text.ts';
import type { Id } from '../../model/deck.ts';
import type { Resolved, View } from '../../subjects/resolved.ts';
import { viewOf } from '../look-up.ts';

/** Two views that differ in one axis alone: both options are told. */
export interface Pair {
  readonly first: View;
  readonly second: View;
  readonly axis: Id;
  /** Their options, by id and in words. */
  readonly options: readonly [PairOption, PairOption];
}
interface PairOption {
  readonly id: Id;
  readonly text: string;
}

/** Stands in no view id. */
const BETWEEN = '|';

/** `about.way`: the ids of both views, such as `engine=tk11,operator=calder|engine=tk14,operator=calder`. */
export const wayOf = ({ first, second }: Pair): string => `${first.id}${BETWEEN}${second.id}`;

/** null where the learner does not fly both, or they differ in more than one axis. */
export function pairOf(resolved: Resolved, way: string | undefined): Pair | null {
  const [a, b, ...rest] = (way ?? '').split(BETWEEN);
  const first = a === undefined ? undefined : viewOf(resolved, a);
  const second = b === undefined ? undefined : viewOf(resolved, b);
  return first && second && rest.length === 0 ? paired(resolved, first, second) : null;
}

/** Every two views that differ in one axis, in authored order. */
export function* pairsOf(resolved: Resolved): Generator<Pair> {
  const { views } = resolved;
  for (const [i, first] of views.entries())
    for (const second of views.slice(i + 1)) {
      const pair = paired(resolved, first, second);
      if (pair !== null) yield pair;
    }
}

function paired({ deck }: Resolved, first: View, second: View): Pair | null {
  const [axis, ...more] = (deck.variants ?? []).filter(({ id }) => first.pick[id] !== second.pick[id]);
  if (axis === undefined || more.length > 0) return null;
  const option = (view: View): PairOption | null => {
    const id = view.pick[axis.id] ?? null;
    const text = id === null ? undefined : axis.options[id];
    return id === null || text === undefined ? null : { id, text };
  };
  const [one, two] = [option(first), option(second)];
  // Two rows that read alike could not be told apart.
  if (one === null || two === null || foldText(one.text) === foldText(two.text)) return null;
  return { first, second, axis: axis.id, options: [one, two] };
}
