import type { Id, Paced } from '../model/deck.ts';
import type { PacedShown } from '../model/form-paced.ts';
import { loaded } from '../subjects/paced/force.ts';
import type { Resolved, View } from '../subjects/resolved.ts';
import { type Plan, rehearsed } from './course.ts';
import { timelineOf } from './timeline.ts';

export const pacedIn = ({ deck }: Pick<Resolved, 'deck'>, id: Id): Paced | undefined =>
  deck.paced?.find((one) => one.id === id);

/** @returns null where the deck no longer holds what is played */
export function planOf(
  resolved: Pick<Resolved, 'deck'>,
  view: View,
  paced: Paced,
  shown: Pick<PacedShown, 'runs' | 'seat' | 'drawn' | 'fails' | 'headwind'>,
): Plan | null {
  const steps = timelineOf(resolved, view, paced, shown);
  if (steps === null) return null;
  const v1 = shown.drawn[paced.failure?.speed ?? ''];
  const plan: Plan = {
    paced: { ...paced, aeroplane: loaded(paced.aeroplane, shown.drawn) },
    steps,
    expected: [],
    fails: shown.fails ?? null,
    v1: typeof v1 === 'number' ? v1 : null,
    headwind: shown.headwind,
  };
  const { cues } = rehearsed(plan);
  const own = steps.filter(({ who }) => who === 'own').map(({ id }) => id);
  // Those that never come even then stand last, in authored order.
  const at = (id: Id): number => cues[id] ?? Number.MAX_SAFE_INTEGER;
  return { ...plan, expected: [...own].sort((a, b) => at(a) - at(b)) };
}
