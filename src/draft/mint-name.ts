import type { Json } from '../lib/canonical-json.ts';
import { valueAt } from './change.ts';
import { mint } from './mint.ts';

/** A name for formulas from words, `transitionAltitude`: `[a-z][A-Za-z0-9]*`. */
export const mintName = (words: string, taken: ReadonlySet<string>, plain = 'value'): string => {
  const base =
    mint(words, new Set(), plain)
      .replaceAll(/-+([a-z0-9])/g, (_, letter: string) => letter.toUpperCase())
      .replace(/^[^a-z]+/, '') || plain;
  if (!taken.has(base)) return base;
  for (let n = 2; ; n++) if (!taken.has(`${base}${n}`)) return `${base}${n}`;
};

/** Every name that formulas of the draft may use: values of the day, conditions, what scenarios draw and work out. */
export const namesIn = (doc: Json): Set<string> => {
  const names = new Set<string>();
  const list = (path: string): readonly Json[] => {
    const there = valueAt(doc, path);
    return Array.isArray(there) ? (there as readonly Json[]) : [];
  };
  for (const one of [...list('/day'), ...list('/conditions')]) {
    const id = valueAt(one, '/id');
    if (typeof id === 'string') names.add(id);
  }
  for (const scenario of list('/scenarios'))
    for (const record of [valueAt(scenario, '/draw'), valueAt(scenario, '/let')])
      if (typeof record === 'object' && record !== null && !Array.isArray(record))
        for (const name of Object.keys(record)) names.add(name);
  return names;
};
