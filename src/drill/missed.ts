import { crewLabel } from '../forms/run/extras.ts';
import { type Comparison, compare } from '../memory/calibration/reliability.ts';
import { FORECAST_ANSWERS } from '../memory/forecast.ts';
import type { Memory } from '../memory/types.ts';
import type { Id } from '../model/deck.ts';
import type { Item, ItemKey } from '../model/item.ts';
import { formulaWords } from '../subjects/formula-words.ts';
import type { Resolved, ResolvedScenario, View } from '../subjects/resolved.ts';
import { wordsIn } from './walk-line.ts';

/** What can be missed in the simulator or at a check: a step, a case of a limit, a rule or a computed number. */
export interface Missable {
  /** Unique among all decks. */
  readonly name: string;
  readonly label: string;
  readonly by?: string;
  readonly critical: boolean;
  /** Its items: of a step its place in each variant and situation that is flown. */
  readonly keys: readonly ItemKey[];
}

export interface MissableGroup {
  readonly name: string;
  readonly deck: string;
  readonly title: string;
  readonly kind: Item['groupKind'];
  readonly things: readonly Missable[];
}

/** All that is asked of these decks: each procedure, then the limits and the scenarios of each deck. */
export const missableOf = (decks: readonly Resolved[]): MissableGroup[] => {
  const groups = [...decks.flatMap(procedures), ...decks.flatMap(limits), ...decks.flatMap(scenarios)];
  return groups.filter(({ things }) => things.length > 0);
};

/** Things by their names, in the order in which they were met. */
const gather = () => {
  const things = new Map<string, { one: Omit<Missable, 'keys'>; keys: Set<ItemKey> }>();
  return {
    add: (key: ItemKey, one: Omit<Missable, 'keys'>) => {
      const before = things.get(one.name);
      if (before === undefined) things.set(one.name, { one, keys: new Set([key]) });
      else before.keys.add(key);
    },
    list: (): Missable[] => [...things.values()].map(({ one, keys }) => ({ ...one, keys: [...keys] })),
  };
};

const procedures = (resolved: Resolved): MissableGroup[] => {
  const { deck, views } = resolved;
  const found = new Map<Id, { title: string; steps: ReturnType<typeof gather> }>();
  for (const { procedures } of views)
    for (const { procedure, situations } of procedures)
      for (const { steps } of situations)
        for (const { step, place, text, critical } of steps) {
          if (place === null) continue;
          const group = found.get(procedure.id) ?? { title: procedure.title, steps: gather() };
          found.set(procedure.id, group);
          group.steps.add(place, {
            name: `${deck.id}#${step.id}`,
            label: wordsIn(resolved, text),
            ...(step.by !== undefined && { by: crewLabel(resolved, step.by) }),
            critical,
          });
        }
  return [...found].map(([id, { title, steps }]) => ({
    name: `${deck.id}#${id}`,
    deck: deck.id,
    title,
    kind: 'procedure',
    things: steps.list(),
  }));
};

const limits = ({ deck, views, items }: Resolved): MissableGroup => {
  const things = gather();
  for (const { limits } of views)
    for (const { cases } of limits)
      for (const { key, critical } of cases)
        things.add(key, { name: key, label: items.get(key)?.label ?? key, critical });
  return { name: `${deck.id} limits`, deck: deck.id, title: 'Limits', kind: 'limit', things: things.list() };
};

const scenarios = (resolved: Resolved): MissableGroup => {
  const { deck, views, items } = resolved;
  const things = gather();
  for (const view of views)
    for (const scenario of view.scenarios)
      for (const ask of scenario.asks) {
        const { title } = scenario.scenario;
        const words = wordsIn(resolved, title === undefined ? ask.ask.ask : `${title}: ${ask.ask.ask}`);
        const add = (key: ItemKey, label: string) =>
          things.add(key, { name: key, label, critical: items.get(key)?.critical ?? false });
        if ('number' in ask) add(ask.key, words);
        else for (const rule of ask.rules) add(rule.key, `${words}: ${where(resolved, view, scenario, rule.if)}`);
      }
  return { name: `${deck.id} scenarios`, deck: deck.id, title: 'Scenarios', kind: 'scenario', things: things.list() };
};

/** The circumstances of a rule, which were met there; not what it gives. */
const where = (
  { deck }: Resolved,
  view: View,
  scenario: ResolvedScenario,
  tree: Parameters<typeof formulaWords>[3] | null,
): string => (tree === null ? 'where no other rule holds' : `where ${formulaWords(deck, view, scenario, tree)}`);

/** Items that are missed with a thing: those met before; all of them where none was. */
export const keysMissed = (thing: Pick<Missable, 'keys'>, memory: Pick<Memory, 'items'>): ItemKey[] => {
  const met = thing.keys.filter((key) => memory.items.has(key));
  return met.length > 0 ? met : [...thing.keys];
};

/** What was known before a day, and how it was predicted for it. Crosses out of a worker. */
export interface Before {
  /** Recall chance on the day of each item met before it. */
  readonly chances: readonly (readonly [ItemKey, number])[];
  /** Answers and study days until then. */
  readonly answers: number;
  readonly days: number;
}

/** The forecast for the day against what was missed there, of things that were met before. */
export interface Against extends Comparison {
  readonly missed: number;
  /** Missed, but never practised before: nothing was predicted of them. */
  readonly unpractised: number;
}

/**
 * What was not tapped counts as recalled, asked there or not.
 * @param groups those that came up there
 * @param missed names of things
 * @returns null where there was no forecast for that day: before 30 answers on two days, or nothing met of it
 */
export const againstForecast = (
  groups: readonly MissableGroup[],
  missed: ReadonlySet<string>,
  before: Before,
): Against | null => {
  if (before.answers < FORECAST_ANSWERS || before.days < 2) return null;
  const chances = new Map(before.chances);
  const things = new Map(groups.flatMap(({ things }) => things.map((one) => [one.name, one] as const)));
  const predictions: { p: number; right: boolean }[] = [];
  let unpractised = 0;
  for (const [name, { keys }] of things) {
    // As in the forecast: of a step that was met in several places the weakest.
    const met = keys.flatMap((key) => chances.get(key) ?? []);
    if (met.length > 0) predictions.push({ p: Math.min(...met), right: !missed.has(name) });
    else if (missed.has(name)) unpractised += 1;
  }
  if (predictions.length === 0) return null;
  const told = compare(predictions);
  return { ...told, missed: told.of - told.right, unpractised };
};
