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
import { axesThatMatter, optionWords } from '../subjects/view-names.ts';

export const viewOf = (resolved: Resolved, id: string): View | undefined => resolved.views.find((v) => v.id === id);
export const procedureIn = (view: View, id: Id): ResolvedProcedure | undefined =>
  view.procedures.find((p) => p.procedure.id === id);
export const limitIn = (view: View, id: Id): ResolvedLimit | undefined => view.limits.find((l) => l.limit.id === id);
export const caseIn = (limit: ResolvedLimit, id: Id | undefined): ResolvedCase | undefined =>
  limit.cases.find((c) => c.id === id);
export const scenarioIn = (view: View, id: Id): ResolvedScenario | undefined =>
  view.scenarios.find((s) => s.scenario.id === id);

/** The view's name, where one of the items asked differs among the views flown: the options that it hangs on. */
export function viewLine({ deck, items, namesView, views }: Resolved, view: View, keys: readonly ItemKey[]): string[] {
  const axes = deck.variants ?? [];
  const matter = keys
    .filter((k) => namesView(k))
    .flatMap((k) => axesThatMatter(items.get(k)?.views ?? [], views, axes));
  const words = optionWords(view.pick, matter, axes);
  return words === '' ? [] : [words];
}

export const wants = (wanted: ReadonlySet<ItemKey> | null, keys: readonly ItemKey[]): boolean =>
  wanted === null || keys.some((k) => wanted.has(k));

/** Leaves out undefined members: with `exactOptionalPropertyTypes` absent and undefined differ. */
export function compact<T extends object>(value: T): { [K in keyof T]: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(value).filter(([, v]) => v !== undefined)) as never;
}
