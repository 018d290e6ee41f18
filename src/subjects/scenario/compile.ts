import type { Tree } from '../../formula/tree.ts';
import { foldText } from '../../lib/fold-text.ts';
import type { Ask, NumberAsk, Scenario } from '../../model/deck.ts';
import { isNumberAsk } from '../../model/deck.ts';
import type { ViewContext } from '../context.ts';
import { placesIn } from '../fill.ts';
import { inlined, meaningOf, namesIn } from '../formulas.ts';
import type { ResolvedAsk, ResolvedScenario } from '../resolved.ts';
import { holds } from '../when.ts';

/**
 * A scenario for one view, its rules and computed numbers registered as items.
 * @param dayRequires what the values of the day require of one another: those that concern this scenario are added
 * @returns null where the view does not hold it, or one of its formulas cannot be read
 */
export function resolveScenario(
  context: ViewContext,
  scenario: Scenario,
  dayRequires: readonly Tree[],
): ResolvedScenario | null {
  if (holds(scenario.when, context.pick, context.axes) !== true) return null;
  let broken = false;
  const parse = (text: string): Tree => {
    const tree = context.parse(text);
    if (!tree) broken = true;
    return tree as Tree;
  };
  const lets = Object.entries(scenario.let ?? {}).map(([name, text]) => ({ name, tree: parse(text) }));
  const own = (scenario.require ?? []).map(parse);
  if (broken) return null;
  const table = new Map(lets.map((l) => [l.name, l.tree]));
  const asks = scenario.asks.map((ask) => resolveAsk(context, scenario, ask, table, parse));
  if (broken) return null;

  const texts = [scenario.situation, ...scenario.asks.map((a) => a.ask)];
  const used = new Set([
    ...texts.flatMap(placesIn),
    ...[...table.values(), ...own, ...asks.flatMap(treesOf)].flatMap(namesIn),
  ]);
  const day = dayRequires.filter((r) => namesIn(r).some((n) => used.has(n)));
  return { scenario, lets, require: [...own, ...day], asks };
}

const treesOf = (ask: ResolvedAsk | null): Tree[] => {
  if (!ask) return [];
  const own = 'number' in ask ? [ask.number, ...ask.slips.map((s) => s.number)] : ask.rules.flatMap((r) => r.if ?? []);
  return ask.if ? [...own, ask.if] : own;
};

function resolveAsk(
  context: ViewContext,
  scenario: Scenario,
  ask: Ask,
  lets: ReadonlyMap<string, Tree>,
  parse: (text: string) => Tree,
): ResolvedAsk {
  const when = ask.if === undefined ? null : parse(ask.if);
  const group = { thing: scenario.id, group: scenario.id, groupKind: 'scenario' } as const;
  const label = scenario.title === undefined ? ask.ask : `${scenario.title}: ${ask.ask}`;
  // Formulas are recalled with what they stand on: values of `let` put in place, limits looked up.
  const meaning = (tree: Tree | null) => (tree ? meaningOf(inlined(tree, lets), context) : null);
  if (isNumberAsk(ask)) {
    const number = parse(ask.number);
    const slips = (ask.slips ?? []).map((s) => ({ number: parse(s.number), note: s.note }));
    return {
      ask,
      number,
      if: when,
      slips,
      key: context.register({
        ...group,
        facet: 'number',
        facetKey: `${ask.id}.number`,
        meaning: { number: meaning(number), unit: (ask as NumberAsk).unit },
        critical: ask.critical ?? scenario.critical ?? false,
        label,
      }),
    };
  }
  const { options, rules } = ask.choose;
  return {
    ask,
    if: when,
    rules: rules.map((rule, i) => {
      const tree = rule.if === undefined ? null : parse(rule.if);
      return {
        rule,
        if: tree,
        key: context.register({
          ...group,
          facet: 'rule',
          facetKey: `${ask.id}.${rule.id}`,
          meaning: { if: meaning(tree), gives: rule.then.map((o) => foldText(options[o] ?? o)).sort() },
          critical: rule.critical ?? ask.critical ?? scenario.critical ?? false,
          // The rule itself would be the answer: a number tells them apart.
          label: rules.length > 1 ? `${label} (rule ${i + 1} of ${rules.length})` : label,
        }),
      };
    }),
  };
}
