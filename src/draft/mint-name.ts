import type { Json } from '../lib/canonical-json.ts';
import { keysOf, valueAt } from './change.ts';
import { mint } from './mint.ts';

/** A name for formulas from words, `transitionAltitude`: `[a-z][A-Za-z0-9]*`. */
export const mintName = (words: string, taken: ReadonlySet<string>, plain = 'value'): string => {
  const base =
    mint(words, new Set(), plain)
      .replace(/^[^a-z]+/, '')
      .replaceAll(/-+([a-z0-9])/g, (_, letter: string) => letter.toUpperCase()) || plain;
  if (!taken.has(base)) return base;
  for (let n = 2; ; n++) if (!taken.has(`${base}${n}`)) return `${base}${n}`;
};

/**
 * Names that formulas may use at a place: values of the day, conditions, what scenarios draw and work out.
 * @param path within a scenario: of scenarios that one alone, since the names of others are not known in it
 */
export const namesIn = (doc: Json, path = ''): Set<string> => {
  const names = new Set<string>();
  const list = (path: string): readonly Json[] => {
    const there = valueAt(doc, path);
    return Array.isArray(there) ? (there as readonly Json[]) : [];
  };
  for (const one of [...list('/day'), ...list('/conditions')]) {
    const id = valueAt(one, '/id');
    if (typeof id === 'string') names.add(id);
  }
  const [section, own] = keysOf(path);
  for (const [i, scenario] of list('/scenarios').entries()) {
    if (section === 'scenarios' && String(i) !== own) continue;
    for (const record of [valueAt(scenario, '/draw'), valueAt(scenario, '/let')])
      if (typeof record === 'object' && record !== null && !Array.isArray(record))
        for (const name of Object.keys(record)) names.add(name);
  }
  return names;
};
