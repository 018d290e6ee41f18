import { valueAt } from '../../draft/change.ts';
import type { Json } from '../../lib/canonical-json.ts';

const placeIn = (value: Json | undefined, ids: ReadonlySet<string>, at: string): string | null => {
  if (Array.isArray(value)) return first(value.map((one, i) => () => placeIn(one as Json, ids, `${at}/${i}`)));
  if (typeof value !== 'object' || value === null) return null;
  const { id, steps, lanes } = value as { readonly [key: string]: Json | undefined };
  if (typeof id === 'string' && ids.has(id)) return at;
  return placeIn(steps, ids, `${at}/steps`) ?? placeIn(lanes, ids, `${at}/lanes`);
};

const first = (tries: readonly (() => string | null)[]): string | null => {
  for (const one of tries) {
    const found = one();
    if (found !== null) return found;
  }
  return null;
};

/**
 * Where one of the things stands in a draft, as a JSON Pointer: `/procedures/0/steps/2`.
 * @param things ids of steps, limits and scenarios
 * @returns null where the draft is of another deck, or none of them is in it
 */
export const placeOfThing = (draft: Json, deck: string, things: readonly string[]): string | null => {
  if (valueAt(draft, '/id') !== deck) return null;
  const ids = new Set(things);
  return first(
    ['procedures', 'limits', 'scenarios'].map((section) => () => {
      const list = valueAt(draft, `/${section}`);
      return Array.isArray(list) ? placeIn(list as Json, ids, `/${section}`) : null;
    }),
  );
};

/** Page of a draft on which a place of `placeOfThing` stands: `procedures/0`. */
export const pageOfPlace = (place: string): string => place.split('/').slice(1, 3).join('/');
