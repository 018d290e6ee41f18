import type { Given } from '../model/deck.ts';
import { isTable } from '../model/deck.ts';
import type { Drawn } from '../model/form.ts';
import type { ResolvedLimit } from '../subjects/resolved.ts';

/** The number of a limit in the circumstances drawn, of a range the lower one; null where none holds, or several do. */
export function numberIn({ limit, cases }: ResolvedLimit, drawn: Drawn): number | null {
  if (isTable(limit)) return null;
  const givenOf = (id: string): Given => limit.cases?.find((one) => one.id === id)?.given ?? {};
  const fits = cases.filter(({ id }) =>
    Object.entries(givenOf(id)).every(([name, wanted]) => isSo(wanted, drawn[name])),
  );
  // A case for these circumstances goes before the one that holds in all others.
  const named = fits.filter(({ id }) => Object.keys(givenOf(id)).length > 0);
  const [one, more] = named.length > 0 ? named : fits;
  const value = more === undefined && one !== undefined && typeof one.value !== 'string' ? one.value[0] : undefined;
  return value ?? null;
}

const isSo = (wanted: Given[string], value: Drawn[string] | undefined): boolean => {
  if (typeof wanted !== 'object') return value === wanted;
  const { from = Number.NEGATIVE_INFINITY, to = Number.POSITIVE_INFINITY } = wanted;
  return typeof value === 'number' && value >= from && value < to;
};
