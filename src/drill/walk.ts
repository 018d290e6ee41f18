import { type Extras, extrasOf } from '../forms/run/extras.ts';
import type { Tree } from '../formula/tree.ts';
import type { Band, Unit } from '../model/deck.ts';
import { tradeForm } from '../model/trade-form.ts';
import { bandOf } from '../subjects/band.ts';
import { withLabels } from '../subjects/fill.ts';
import { formulaWords, opposite, stepsOfComputation } from '../subjects/formula-words.ts';
import { caseWords } from '../subjects/limit/words.ts';
import type { Resolved, ResolvedLimit, ResolvedProcedure, ResolvedScenario, View } from '../subjects/resolved.ts';
import { sourceLine } from '../subjects/things.ts';

/** One line to read, with its answer: of a procedure a step, else a limit or a scenario. */
export interface WalkLine extends Extras {
  readonly id: string;
  readonly text: string;
  readonly critical: boolean;
  /** Answers in trade form: a limit's cases, a scenario's rules, one each. */
  readonly answers: readonly { readonly given: string; readonly answer: string }[];
  /** May be done in any order with the line before: side by side. */
  readonly beside: boolean;
  readonly together: boolean;
}

export interface Walk {
  readonly title: string;
  /** What it starts with, which variant is meant. */
  readonly scene: readonly string[];
  readonly why?: string;
  readonly lines: readonly WalkLine[];
}

export interface WalkWanted {
  readonly variant: string;
  readonly group: string;
  readonly groupKind: 'procedure' | 'limit' | 'scenario';
  readonly situation?: string;
  /** Ids; absent: all. */
  readonly things?: readonly string[];
}

/** What is read before it is asked, and any time after. @returns null where the deck no longer holds it */
export const walkOf = (resolved: Resolved, wanted: WalkWanted): Walk | null => {
  const view = resolved.views.find(({ id }) => id === wanted.variant) ?? resolved.views[0];
  if (view === undefined) return null;
  const asked = (id: string) => wanted.things?.includes(id) ?? true;
  const named = view.label === '' || resolved.views.length < 2 ? [] : [view.label];
  switch (wanted.groupKind) {
    case 'procedure': {
      const procedure = view.procedures.find(({ procedure: { id } }) => id === wanted.group);
      return procedure === undefined ? null : procedureWalk(resolved, view, procedure, wanted, named);
    }
    case 'limit': {
      const limits = view.limits.filter(({ limit, cases }) => asked(limit.id) && cases.length > 0);
      if (limits.length === 0) return null;
      const lines = limits.map(({ limit: { id } }) => limitLine(resolved, view, id));
      return { title: lines.length === 1 ? 'Limit' : 'Limits', scene: [], lines };
    }
    case 'scenario': {
      const scenarios = view.scenarios.filter(({ scenario }) => asked(scenario.id));
      const [only] = scenarios;
      if (only === undefined) return null;
      const alone = scenarios.length === 1;
      return {
        title: (alone ? only.scenario.title : undefined) ?? 'Scenarios',
        scene: [...(alone ? [situationWords(resolved, only)] : []), ...named],
        ...(alone && only.scenario.why !== undefined && { why: wordsIn(resolved, only.scenario.why) }),
        lines: scenarios.flatMap((scenario) => scenarioLines(resolved, view, scenario, alone)),
      };
    }
  }
};

const procedureWalk = (
  resolved: Resolved,
  view: View,
  found: ResolvedProcedure,
  { things, situation: wanted }: WalkWanted,
  named: readonly string[],
): Walk | null => {
  const { procedure, situations } = found;
  const situation = situations.find(({ id }) => id === wanted) ?? situations[0];
  if (situation === undefined) return null;
  const fill = (text: string) => wordsIn(resolved, text);
  const isShown = (i: number) => things?.includes(situation.steps[i]?.step.id ?? '') ?? true;
  const lines = situation.steps.flatMap((step, i): WalkLine[] => {
    if (!isShown(i)) return [];
    const before = i > 0 && isShown(i - 1) ? situation.steps[i - 1] : undefined;
    return [
      {
        ...labelled(resolved, extrasOf(resolved, view, found, step, {})),
        id: step.step.id,
        text: fill(step.text),
        critical: step.critical,
        answers: [],
        beside: before !== undefined && situation.order.before[i - 1]?.[i] !== true,
        together: before !== undefined && step.together !== null && before.together === step.together,
      },
    ];
  });
  if (lines.length === 0) return null;
  return {
    title: procedure.title,
    scene: [
      ...(procedure.starts === undefined ? [] : [fill(procedure.starts)]),
      ...circumstances(resolved, view, found, situation.id),
      ...named,
    ],
    ...(procedure.why !== undefined && { why: fill(procedure.why) }),
    lines,
  };
};

/**
 * The circumstances of one situation of a procedure, in words: what each of its branches hangs on, as it is there.
 * Empty where nothing is conditional.
 */
export const circumstances = (
  { deck }: Resolved,
  view: View,
  { conditions }: ResolvedProcedure,
  situation: string,
): string[] =>
  conditions.map((tree, i) => {
    const words = formulaWords(deck, view, null, situation[i] === '0' ? opposite(tree) : tree);
    return `${words[0]?.toUpperCase() ?? ''}${words.slice(1)}`;
  });

/** Values of the day and conditions by their labels: nothing is drawn where a thing is read. */
const wordsIn = ({ deck }: Resolved, text: string): string => {
  // "V1 {v1} kt" is a label, its value and its unit; of a value that is not drawn the label is left.
  const bare = (deck.day ?? []).reduce((said, { id, label, unit }) => {
    const place = `{${id}}`;
    return said.replaceAll(`${label} ${place}`, place).replaceAll(`${place} ${unit}`, place);
  }, text);
  return withLabels(deck, bare);
};

const labelled = (resolved: Resolved, extras: { [K in keyof Extras]: Extras[K] | undefined }): Extras =>
  Object.fromEntries(
    Object.entries(extras).flatMap(([name, text]) => (text === undefined ? [] : [[name, wordsIn(resolved, text)]])),
  );

/** Of all views that are flown: whoever read it in one may be asked it in another. */
const limitLine = (resolved: Resolved, view: View, id: string): WalkLine => {
  const views = [view, ...resolved.views.filter((other) => other !== view)];
  const answers = new Map<string, WalkLine['answers'][number]>();
  let critical = false;
  let source: string | null = null;
  for (const { label, limits } of views) {
    const found = limits.find(({ limit }) => limit.id === id);
    for (const one of found?.cases ?? []) {
      critical ||= one.critical;
      source ??= one.source;
      const named = resolved.namesView(one.key) ? [label] : [];
      if (found !== undefined && !answers.has(one.key))
        answers.set(one.key, {
          given: [...named, one.given].filter((words) => words !== '').join(', '),
          answer: caseWords(found, one),
        });
    }
  }
  const { limit } = view.limits.find((one) => one.limit.id === id) as ResolvedLimit;
  return {
    id,
    text: wordsIn(resolved, limit.ask),
    critical,
    answers: [...answers.values()],
    ...labelled(resolved, {
      why: limit.why,
      slip: limit.slip,
      source: source ?? sourceLine(resolved.deck, limit.source) ?? undefined,
    }),
    beside: false,
    together: false,
  };
};

const situationWords = (resolved: Resolved, { scenario }: ResolvedScenario): string =>
  drawnWords(resolved, scenario, scenario.situation);

/** Drawn values by their labels, or left open. */
const drawnWords = (resolved: Resolved, { draw }: ResolvedScenario['scenario'], text: string): string =>
  wordsIn(resolved, text).replace(/\{([a-z][A-Za-z0-9]*)\}/g, (_, name: string) => {
    const one = draw[name];
    return one !== undefined && 'label' in one && one.label !== undefined ? one.label : '…';
  });

const scenarioLines = (resolved: Resolved, view: View, found: ResolvedScenario, alone: boolean): WalkLine[] => {
  const { deck } = resolved;
  const { scenario } = found;
  const say = (tree: Tree) => formulaWords(deck, view, found, tree);
  const fill = (text: string) => drawnWords(resolved, scenario, text);
  return found.asks.map((one): WalkLine => {
    const { ask } = one;
    const rules = 'number' in one ? [] : one.rules;
    const tree = 'number' in one ? ownTree(found, one.number) : null;
    const answers =
      tree === null
        ? rules.map(({ rule, if: holds }, i) => ({
            given: holds === null ? (i === 0 ? '' : 'Otherwise') : `${i === 0 ? 'If' : 'Else if'} ${say(holds)}`,
            answer: rule.then
              .map((id) => fill(('choose' in ask ? ask.choose.options[id] : undefined) ?? id))
              .join(' or '),
          }))
        : [
            {
              given: '',
              answer: `${WIND[say(tree)] ?? say(tree)}${'number' in ask ? bandWords(ask.accept, ask.unit) : ''}`,
            },
          ];
    const steps = stepsOfComputation(
      deck,
      view,
      found,
      tree === null ? rules.flatMap((rule) => rule.if ?? []) : [tree],
    );
    const reasons = [ask.why ?? (alone ? undefined : scenario.why), ...rules.map(({ rule }) => rule.why)];
    return {
      id: `${scenario.id}.${ask.id}`,
      text: fill(ask.ask),
      critical: (ask.critical ?? scenario.critical ?? false) || rules.some(({ rule }) => rule.critical === true),
      answers,
      ...labelled(resolved, {
        value: steps.length === 0 ? undefined : steps.join('; '),
        why: joined(reasons),
        slip: joined(rules.map(({ rule }) => rule.slip)),
        source: sourceLine(deck, ask.source ?? scenario.source) ?? undefined,
      }),
      beside: false,
      together: false,
    };
  });
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

const joined = (texts: readonly (string | undefined)[]): string | undefined => {
  const said = [...new Set(texts.filter((text) => text !== undefined))];
  return said.length === 0 ? undefined : said.join(' ');
};

const bandWords = (accept: Band | undefined, unit: Unit): string => {
  const { plus, minus } = bandOf(accept);
  if (plus === 0 && minus === 0) return '';
  return plus === minus
    ? ` (within ${tradeForm(plus, unit)})`
    : ` (within +${tradeForm(plus, unit)}, −${tradeForm(minus, unit)})`;
};
