import { allOffers, itemsOf, type World } from '../../../src/drill/world.ts';
import { itemSeconds, planRows } from '../../../src/memory/plan/input.ts';
import { solvePlan } from '../../../src/memory/plan/solve.ts';
import type { Plan } from '../../../src/memory/plan/types.ts';

/** The plan of a world for its check day, as the app makes it. */
export const planFor = (world: World, minutes: number): Plan => {
  const { decks, memory, day, checkDay } = world;
  const seconds = itemSeconds(allOffers(world).map(({ offer }) => offer));
  const { items } = planRows(itemsOf(decks), memory, seconds, day);
  const plan = solvePlan({ items, day, checkDay: checkDay ?? day, minutes });
  if (plan === null) throw new Error('The plan was stopped.');
  return plan;
};
