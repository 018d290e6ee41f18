import type { Checking } from '../subjects/check.ts';
import { isTrue } from '../subjects/formulas.ts';
import type { View } from '../subjects/resolved.ts';
import { axisOfName, spaceOf } from '../subjects/space.ts';

/** Values of the day that can never stand together: no procedure that shows one could be asked. */
export function checkDay(c: Checking, [view]: readonly View[]): void {
  const { day = [] } = c.deck;
  if (!view || view.requires.length === 0) return;
  const space = spaceOf(day.flatMap((d) => axisOfName(c.deck, d.id) ?? []));
  const drawn: Record<string, number | string | boolean> = {};
  for (let i = 0; i < space.count; i++) {
    space.put(i, drawn);
    if (view.requires.every((r) => isTrue(r, drawn, view) === true)) return;
  }
  c.add(space.exact ? 'scenario-never' : 'scenario-rare', '/day', { tried: space.count, what: '' });
}
