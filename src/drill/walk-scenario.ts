import { situationFilled } from '../forms/scenario/draw.ts';
import type { Tree } from '../formula/tree.ts';
import type { Band, Unit } from '../model/deck.ts';
import type { ItemKey } from '../model/item.ts';
import { tradeForm } from '../model/trade-form.ts';
import { bandOf } from '../subjects/band.ts';
import { placesIn } from '../subjects/fill.ts';
import { formulaWords, stepsOfComputation } from '../subjects/formula-words.ts';
import type { Resolved, ResolvedAsk, ResolvedScenario, View } from '../subjects/resolved.ts';
import { drawScenario, planDraw } from '../subjects/scenario/draw.ts';
import { sourceLine } from '../subjects/things.ts';
import { labelled, type WalkLine, wordsIn } from './walk-line.ts';

/** One draw serves as well as another. */
const DRAW = 1;

/** The situation with numbers of one draw: with gaps in their place nobody reads it as a sentence. */
export const situationWords = (resolved: Resolved, view: View, found: ResolvedScenario): string => {
  const { scenario } = found;
  if (placesIn(scenario.situation).length === 0) return scenario.situation;
  const example = exampleOf(resolved, view, found);
  return example === null ? drawnWords(resolved, scenario, scenario.situation) : `For example: ${example}`;
};

const examples = new WeakMap<ResolvedScenario, string | null>();

/** @returns null where no ask of it can be drawn */
const exampleOf = (resolved: Resolved, view: View, found: ResolvedScenario): string | null => {
  const known = examples.get(found);
  if (known !== undefined) return known;
  let example: string | null = null;
  for (const { ask } of found.asks) {
    const plan = planDraw(resolved.deck, found, ask.id, null, view);
    const draw = plan && drawScenario(plan, DRAW);
    if (!draw) continue;
    example = situationFilled(resolved.deck, found, draw.drawn, found.scenario.situation);
    break;
  }
  examples.set(found, example);
  return example;
};

/** What is drawn is left open, where it must be. */
const drawnWords = (resolved: Resolved, { draw }: ResolvedScenario['scenario'], text: string): string =>
  wordsIn(resolved, text)
    .replace(/\{([a-z][A-Za-z0-9]*)\}/g, (whole, name: string) => (Object.hasOwn(draw, name) ? '…' : whole))
    .replace(/…(?: …)+/g, '…');

/**
 * The asks of a scenario with their rules, in the view that is read, and once more in those other views flown in which
 * they differ: whoever read it in one may be asked it in another.
 * @param alone nothing else is read with it: its own reason stands above
 */
export const scenarioLines = (resolved: Resolved, view: View, id: string, alone: boolean): WalkLine[] => {
  const seen = new Set<ItemKey>();
  const lines: WalkLine[] = [];
  for (const one of [view, ...resolved.views.filter((other) => other !== view)]) {
    const found = one.scenarios.find(({ scenario }) => scenario.id === id);
    for (const ask of found?.asks ?? []) {
      const keys = 'number' in ask ? [ask.key] : ask.rules.map(({ key }) => key);
      if (found === undefined || keys.every((key) => seen.has(key))) continue;
      for (const key of keys) seen.add(key);
      const line = askLine(resolved, one, found, ask, alone);
      const differs = keys.some((key) => resolved.namesView(key)) && one.label !== '';
      lines.push(differs ? { ...line, id: `${line.id}@${one.id}`, text: `${line.text} (${one.label})` } : line);
    }
  }
  return lines;
};

const askLine = (
  resolved: Resolved,
  view: View,
  found: ResolvedScenario,
  one: ResolvedAsk,
  alone: boolean,
): WalkLine => {
  const { deck } = resolved;
  const { scenario } = found;
  const { ask } = one;
  const rules = 'number' in one ? [] : one.rules;
  const trees = 'number' in one ? [ownTree(found, one.number)] : one.rules.flatMap((rule) => rule.if ?? []);
  const steps = stepsOfComputation(deck, view, found, trees);
  // Two rules that have one reason give it once.
  const given = new Set(rules.flatMap(({ rule }) => rule.why ?? []));
  const why = ask.why ?? (alone ? undefined : scenario.why);
  return {
    id: `${scenario.id}.${ask.id}`,
    text: drawnWords(resolved, scenario, ask.ask),
    critical: (ask.critical ?? scenario.critical ?? false) || rules.some(({ rule }) => rule.critical === true),
    answers: answersOf(resolved, view, found, one),
    ...labelled(resolved, {
      value: steps.length === 0 ? undefined : steps.join('; '),
      why: why !== undefined && given.has(why) ? undefined : why,
      source: sourceLine(deck, ask, scenario) ?? undefined,
    }),
    beside: false,
    together: false,
  };
};

const answersOf = (resolved: Resolved, view: View, found: ResolvedScenario, one: ResolvedAsk): WalkLine['answers'] => {
  const say = (tree: Tree) => formulaWords(resolved.deck, view, found, tree);
  if ('number' in one) {
    const words = say(ownTree(found, one.number));
    return [{ given: '', answer: `${WIND[words] ?? words}${bandWords(one.ask.accept, one.ask.unit)}` }];
  }
  const { options } = one.ask.choose;
  return one.rules.map(({ rule, if: holds }, i) => ({
    given: holds === null ? (i === 0 ? '' : 'Otherwise') : `${i === 0 ? 'If' : 'If not, and'} ${say(holds)}, then`,
    answer: rule.then.map((id) => drawnWords(resolved, found.scenario, options[id] ?? id)).join(' or '),
    ...labelled(resolved, { why: rule.why, slip: rule.slip }),
  }));
};

/** A component that is asked is not explained by its name. */
const WIND: Readonly<Record<string, string>> = {
  headwind: 'wind speed × cosine of the angle between wind and runway',
  crosswind: 'wind speed × sine of the angle between wind and runway',
  tailwind: 'wind speed × cosine of the angle between wind and runway, from behind',
};

/** A number that is a step of the computation says that step. */
const ownTree = ({ lets }: ResolvedScenario, tree: Tree): Tree =>
  tree.kind === 'name' ? (lets.find(({ name }) => name === tree.name)?.tree ?? tree) : tree;

const bandWords = (accept: Band | undefined, unit: Unit): string => {
  const { plus, minus } = bandOf(accept);
  if (plus === 0 && minus === 0) return '';
  return plus === minus
    ? ` (within ${tradeForm(plus, unit)})`
    : ` (within +${tradeForm(plus, unit)}, −${tradeForm(minus, unit)})`;
};
