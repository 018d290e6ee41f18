import { valueAt } from '../../draft/change.ts';
import type { Json } from '../../lib/canonical-json.ts';

const holds = (value: Json | undefined, ids: ReadonlySet<string>): boolean => {
  if (Array.isArray(value)) return value.some((one) => holds(one as Json, ids));
  if (typeof value !== 'object' || value === null) return false;
  const { id, steps, lanes } = value as { readonly [key: string]: Json | undefined };
  return (typeof id === 'string' && ids.has(id)) || holds(steps, ids) || holds(lanes, ids);
};

/**
 * Page of a draft on which one of the things stands: `procedures/0`.
 * @param things ids of steps, limits and scenarios
 * @returns null where the draft is of another deck, or none of them is in it
 */
export const pageOfThing = (draft: Json, deck: string, things: readonly string[]): string | null => {
  if (valueAt(draft, '/id') !== deck) return null;
  const ids = new Set(things);
  for (const section of ['procedures', 'limits', 'scenarios']) {
    const list = valueAt(draft, `/${section}`);
    const index = Array.isArray(list) ? list.findIndex((one) => holds(one as Json, ids)) : -1;
    if (index >= 0) return `${section}/${index}`;
  }
  return null;
};
