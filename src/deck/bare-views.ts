import type { Tree } from '../formula/tree.ts';
import type { Id, Scenario } from '../model/deck.ts';
import type { ViewContext } from '../subjects/context.ts';
import { parseFormula } from '../subjects/formulas.ts';
import { resolveLimit, soleValue, tableValue } from '../subjects/limit/cases.ts';
import type { Pick, ResolvedLimit, ResolvedScenario, View } from '../subjects/resolved.ts';
import { resolveScenario } from '../subjects/scenario/compile.ts';
import type { Things } from '../subjects/things.ts';
import { optionWords } from '../subjects/view-names.ts';
import { holds } from '../subjects/when.ts';
import { picksOf } from './resolve.ts';

/** A variant combination without items and situations, which take most of the time of `resolve`. */
export interface BareView extends View {
  /** null where the view does not hold it, or one of its formulas cannot be read. */
  scenario(scenario: Scenario): ResolvedScenario | null;
}

/** A formula read once, however often it is asked for. */
export function formulaReader(): (text: string) => Tree | null {
  const trees = new Map<string, Tree | null>();
  return (text) => {
    const known = trees.get(text);
    if (known !== undefined) return known;
    const tree = parseFormula(text);
    trees.set(text, tree);
    return tree;
  };
}

/**
 * Every variant combination of a deck, at most 16, as far as the checker and the survey of draws need it: limits and
 * what formulas ask for; procedures by name alone; scenarios one by one.
 */
export function bareViews(things: Things, parse: ViewContext['parse']): BareView[] {
  const { deck } = things;
  const every = Object.fromEntries((deck.variants ?? []).map((a) => [a.id, Object.keys(a.options)]));
  const requires = (deck.day ?? []).flatMap((d) => d.require ?? []).flatMap((text) => parse(text) ?? []);
  return picksOf(deck, every).map((pick) => bareView(things, pick, parse, requires));
}

function bareView(things: Things, pick: Pick, parse: ViewContext['parse'], requires: readonly Tree[]): BareView {
  const { deck } = things;
  const axes = deck.variants ?? [];
  const base = { things, pick, axes, leftOut: new Set<string>(), parse, register: () => '' };
  const limits = new Map<Id, ResolvedLimit>();
  for (const l of deck.limits ?? []) if (!limits.has(l.id)) limits.set(l.id, resolveLimit(base, l));
  const context: ViewContext = {
    ...base,
    limits,
    limitValue: (limit) => soleValue(limits.get(limit)),
    lookup: (limit, x) => tableValue(things.limits.get(limit), x),
  };
  const here = (deck.procedures ?? []).filter((p) => holds(p.when, pick, axes) === true);
  return {
    id: Object.entries(pick)
      .flatMap(([axis, option]) => (option === null ? [] : `${axis}=${option}`))
      .join(','),
    pick,
    label: optionWords(
      pick,
      axes.map((a) => a.id),
      axes,
    ),
    procedures: here.map((procedure) => ({
      procedure,
      done: procedure.done,
      situations: [],
      conditions: [],
      calls: null,
      strangers: [],
    })),
    limits: [...limits.values()],
    scenarios: [],
    requires,
    limitValue: context.limitValue,
    lookup: context.lookup,
    scenario: (scenario) => resolveScenario(context, scenario, requires),
  };
}
