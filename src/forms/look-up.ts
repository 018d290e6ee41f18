import type { Id } from '../model/deck.ts';
import type { ItemKey } from '../model/item.ts';
import type {
  Resolved,
  ResolvedCase,
  ResolvedLimit,
  ResolvedProcedure,
  ResolvedScenario,
  View,
} from '../subjects/resolved.ts';

export const viewOf = (resolved: Resolved, id: string): View | undefined => resolved.views.find((v) => v.id === id);
export const procedureIn = (view: View, id: Id): ResolvedProcedure | undefined =>
  view.procedures.find((p) => p.procedure.id === id);
export const limitIn = (view: View, id: Id): ResolvedLimit | undefined => view.limits.find((l) => l.limit.id === id);
export const caseIn = (limit: ResolvedLimit, id: Id | undefined): ResolvedCase | undefined =>
  limit.cases.find((c) => c.id === id);
export const scenarioIn = (view: View, id: Id): ResolvedScenario | undefined =>
  view.scenarios.find((s) => s.scenario.id === id);

/** The view's name, where one of the items asked differs among the views flown. */
export const viewLine = (resolved: Resolved, view: View, keys: readonly ItemKey[]): string[] =>
  view.label !== '' && keys.some((k) => resolved.namesView(k)) ? [view.label] : [];

export const wants = (wanted: ReadonlySet<ItemKey> | null, keys: readonly ItemKey[]): boolean =>
  wanted === null || keys.some((k) => wanted.has(k));

/** Leaves out undefined members: with `exactOptionalPropertyTypes` absent and undefined differ. */
export function compact<T extends object>(value: T): { [K in keyof T]: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(value).filter(([, v]) => v !== undefined)) as never;
}
