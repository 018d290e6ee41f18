import type { Id, VariantAxis, When } from '../model/deck.ts';
import type { Pick } from './resolved.ts';

const isNot = (when: When): when is { readonly not: When } =>
  typeof when.not === 'object' && when.not !== null && !Array.isArray(when.not);

/**
 * Does `when` hold for a variant combination? Three-valued (Kleene's strong logic).
 * @returns null where an axis that matters is not told and its options differ
 */
export function holds(when: When | undefined, pick: Pick, axes: readonly VariantAxis[]): boolean | null {
  if (!when) return true;
  if (isNot(when)) {
    const inner = holds(when.not, pick, axes);
    return inner === null ? null : !inner;
  }
  let all: boolean | null = true;
  for (const [axis, wanted] of Object.entries(when)) {
    const one = axisHolds(
      wanted as Id | readonly Id[],
      pick[axis] ?? null,
      axes.find((a) => a.id === axis),
    );
    if (one === false) return false;
    if (one === null) all = null;
  }
  return all;
}

function axisHolds(wanted: Id | readonly Id[], told: Id | null, axis: VariantAxis | undefined): boolean | null {
  const list = typeof wanted === 'string' ? [wanted] : wanted;
  if (told !== null) return list.includes(told);
  // Not told, but every option is named: common to all.
  if (axis && Object.keys(axis.options).every((o) => list.includes(o))) return true;
  return list.length === 0 ? false : null;
}
