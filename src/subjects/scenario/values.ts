import type { Tree } from '../../formula/tree.ts';
import type { Drawn } from '../../model/form.ts';
import { evaluate, isTrue, type Lookups } from '../formulas.ts';
import type { ResolvedAsk, ResolvedRule, ResolvedScenario } from '../resolved.ts';

/**
 * Drawn values with those of `let`, in the order of the text.
 * @returns null where one of them is not a number or cannot be computed
 */
export function withLets(scenario: ResolvedScenario, drawn: Drawn, lookups: Lookups): Drawn | null {
  const values: Record<string, number | string | boolean> = { ...drawn };
  for (const { name, tree } of scenario.lets) {
    const value = evaluate(tree, values, lookups);
    if (value === null) return null;
    values[name] = value;
  }
  return values;
}

/** The first rule that holds; null where none does, or one before it cannot be decided. */
export function ruleThatHolds(
  ask: Extract<ResolvedAsk, { rules: unknown }>,
  values: Drawn,
  lookups: Lookups,
): ResolvedRule | null {
  for (const rule of ask.rules) {
    if (!rule.if) return rule;
    const truth = isTrue(rule.if, values, lookups);
    if (truth === null) return null;
    if (truth) return rule;
  }
  return null;
}

/** A computed number; null where it is none. */
export function numberOf(tree: Tree, values: Drawn, lookups: Lookups): number | null {
  const value = evaluate(tree, values, lookups);
  return typeof value === 'number' && Number.isFinite(value) ? value : null;
}
