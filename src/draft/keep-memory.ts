import type { Json } from '../lib/canonical-json.ts';
import { type Change, put, valueAt } from './change.ts';

const keptAt = (value: Json, path: string): readonly string[] => {
  const kept = valueAt(value, `${path}/keeps`);
  return Array.isArray(kept) ? kept.filter((one) => typeof one === 'string') : [];
};

/** Are the old stamps joined to what the thing asks today? */
export const keepsMemory = (value: Json, path: string, stamps: readonly string[]): boolean => {
  const kept = keptAt(value, path);
  return stamps.length > 0 && stamps.every((stamp) => kept.includes(stamp));
};

/**
 * The author's word that a changed answer is the same in other words: old stamps are joined to the thing's answer of
 * today, and what learners remember of it goes on.
 * @param path of the step, limit or ask
 * @param stamps `facet~stamp` of the items before (`Difference.keeps`)
 */
export const keepMemory = (value: Json, path: string, stamps: readonly string[]): Change[] => {
  const kept = keptAt(value, path);
  const more = stamps.filter((stamp) => !kept.includes(stamp));
  return more.length === 0 ? [] : [put(value, `${path}/keeps`, [...kept, ...more])];
};

/** Takes that word back: the answer is another, and memory of it starts afresh. */
export const forgetMemory = (value: Json, path: string, stamps: readonly string[]): Change[] => {
  const kept = keptAt(value, path);
  const left = kept.filter((stamp) => !stamps.includes(stamp));
  return left.length === kept.length ? [] : [put(value, `${path}/keeps`, left.length === 0 ? undefined : left)];
};
