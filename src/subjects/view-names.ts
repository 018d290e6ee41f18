import type { Id, VariantAxis } from '../model/deck.ts';
import type { Pick } from './resolved.ts';

/** A variant combination, as far as its name goes. */
interface Named {
  readonly id: string;
  readonly pick: Pick;
}

/**
 * The axes that decide whether a view is among those held: naming their options is enough. Of a learner who flies two
 * engines at two operators, a limit that differs by engine names the engine alone.
 * @param held ids of some of the views
 */
export function axesThatMatter(held: readonly string[], views: readonly Named[], axes: readonly VariantAxis[]): Id[] {
  const within = new Set(held);
  const matters = (axis: Id): boolean =>
    views.some((v) =>
      views.some(
        (w) =>
          within.has(v.id) !== within.has(w.id) && axes.every((a) => a.id === axis || v.pick[a.id] === w.pick[a.id]),
      ),
    );
  return axes.map((a) => a.id).filter((axis) => matters(axis));
}

/** "Engine A, Operator X": the options of some axes; '' where none is told. */
export const optionWords = (pick: Pick, only: readonly Id[], axes: readonly VariantAxis[]): string =>
  axes.flatMap((a) => (only.includes(a.id) ? (a.options[pick[a.id] ?? ''] ?? []) : [])).join(', ');
