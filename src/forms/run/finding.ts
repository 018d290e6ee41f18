import type { ChipFinding, Drawn } from '../../model/form.ts';
import type { PartialOrder, Resolved, RunStep } from '../../subjects/resolved.ts';
import { compact } from '../look-up.ts';
import type { Asked } from './draw.ts';
import { extrasOf, fillerFor } from './extras.ts';

/**
 * What is said of a step with the verdict: its place among the others (in a partial order never one place, but what it
 * must come after and before), and all that was hidden.
 * @param order of the steps, numbered alike
 */
export function findingsOf(
  resolved: Resolved,
  { view, p }: Asked,
  steps: readonly RunStep[],
  order: PartialOrder,
  drawn: Drawn,
): (i: number, state: ChipFinding['state']) => ChipFinding {
  const fill = fillerFor(resolved, drawn);
  const text = (i: number): string => fill((steps[i] as RunStep).text);
  return (i, state) => {
    const s = steps[i] as RunStep;
    return compact({
      id: s.step.id,
      text: text(i),
      state,
      after: order.covers.filter(([, b]) => b === i).map(([a]) => text(a)),
      before: order.covers.filter(([a]) => a === i).map(([, b]) => text(b)),
      together: s.together !== null && steps.some((o) => o !== s && o.together === s.together) ? true : undefined,
      ...extrasOf(resolved, view, p, s, drawn),
    }) as ChipFinding;
  };
}
