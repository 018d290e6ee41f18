import type { Id } from '../../model/deck.ts';
import { asksOrder } from '../../subjects/procedure/words.ts';
import type { Resolved, ResolvedProcedure, RunStep, View } from '../../subjects/resolved.ts';

/** Something that is said: a callout, a response, or what calls for a list. */
export interface Said {
  /** Step, or the list that it calls for. */
  readonly id: Id;
  /** As authored: values of the day not filled in. */
  readonly text: string;
  readonly by?: string;
  readonly p: ResolvedProcedure;
  /** Absent: it calls for the list. */
  readonly step?: RunStep;
}

const known = new WeakMap<View, readonly Said[]>();

/** All that is said in a view, each once, in authored order. */
export function saidIn(view: View): readonly Said[] {
  const before = known.get(view);
  if (before !== undefined) return before;
  const list: Said[] = [];
  const seen = new Set<Id>();
  for (const p of view.procedures) {
    const { id, called, calledBy } = p.procedure;
    if (called !== undefined && !asksOrder(p.procedure))
      list.push({ id, text: called, p, ...(calledBy !== undefined && { by: calledBy }) });
    for (const step of p.situations.flatMap(({ steps }) => steps)) {
      const { say, by, id: own } = step.step;
      if (say === undefined || seen.has(own)) continue;
      seen.add(own);
      list.push({ id: own, text: say, p, step, ...(by !== undefined && { by }) });
    }
  }
  known.set(view, list);
  return list;
}

/** The same over all views that are flown, one view's first: words of another variant are another callout. */
export function saidOf({ views }: Resolved, first: View): Said[] {
  const found = new Map<string, Said>();
  for (const view of [first, ...views])
    for (const one of saidIn(view)) {
      const key = `${one.step === undefined ? 'list' : 'step'} ${one.id}`;
      if (!found.has(key)) found.set(key, one);
    }
  return [...found.values()];
}
