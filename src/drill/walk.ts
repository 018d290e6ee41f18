import { type Extras, extrasOf } from '../forms/run/extras.ts';
import { isNumberAsk } from '../model/deck.ts';
import { tradeForm } from '../model/trade-form.ts';
import { bandOf } from '../subjects/band.ts';
import { withLabels } from '../subjects/fill.ts';
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
      return { title: 'Limits', scene: named, lines: limits.map((limit) => limitLine(resolved, limit)) };
    }
    case 'scenario': {
      const scenarios = view.scenarios.filter(({ scenario }) => asked(scenario.id));
      const [only] = scenarios;
      return {
        title: scenarios.length === 1 && only?.scenario.title !== undefined ? only.scenario.title : 'Scenarios',
        scene: named,
        lines: scenarios.flatMap((scenario) => scenarioLines(resolved, scenario)),
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
  const fill = (text: string) => withLabels(resolved.deck, text);
  const lines = situation.steps.flatMap((step, i): WalkLine[] => {
    if (things !== undefined && !things.includes(step.step.id)) return [];
    const before = situation.steps[i - 1];
    const shown = before !== undefined && (things === undefined || things.includes(before.step.id));
    return [
      {
        ...labelled(resolved, extrasOf(resolved, view, found, step, {})),
        id: step.step.id,
        text: fill(step.text),
        critical: step.critical,
        answers: [],
        beside: shown && situation.order.before[i - 1]?.[i] !== true,
        together: shown && step.together !== null && before.together === step.together,
      },
    ];
  });
  const why = procedure.why;
  return {
    title: procedure.title,
    scene: [...(procedure.starts === undefined ? [] : [fill(procedure.starts)]), ...named],
    ...(why === undefined ? {} : { why: fill(why) }),
    lines,
  };
};

/** Extras without drawn values: places are filled with the labels of the day's values. */
const labelled = (resolved: Resolved, extras: { [K in keyof Extras]: Extras[K] | undefined }): Extras =>
  Object.fromEntries(
    Object.entries(extras).flatMap(([name, text]) =>
      text === undefined ? [] : [[name, withLabels(resolved.deck, text)]],
    ),
  );

const limitLine = (resolved: Resolved, found: ResolvedLimit): WalkLine => {
  const { limit, cases } = found;
  const fill = (text: string) => withLabels(resolved.deck, text);
  const source = sourceLine(resolved.deck, limit.source);
  return {
    id: limit.id,
    text: fill(limit.ask),
    critical: cases.some(({ critical }) => critical),
    answers: cases.map((one) => ({ given: one.given, answer: caseWords(found, one) })),
    ...(limit.why === undefined ? {} : { why: fill(limit.why) }),
    ...(limit.slip === undefined ? {} : { slip: fill(limit.slip) }),
    ...(source === null ? {} : { source }),
    beside: false,
    together: false,
  };
};

const scenarioLines = (resolved: Resolved, { scenario, asks }: ResolvedScenario): WalkLine[] => {
  const { deck } = resolved;
  const fill = (text: string) =>
    withLabels(deck, text).replace(/\{([a-z][A-Za-z0-9]*)\}/g, (_, name: string) => {
      const draw = scenario.draw[name];
      return draw !== undefined && 'label' in draw && draw.label !== undefined ? draw.label : '…';
    });
  return asks.map(({ ask }): WalkLine => {
    const answers = isNumberAsk(ask)
      ? [{ given: '', answer: `${workings(scenario, ask.number)}${bandWords(ask.accept, ask.unit)}` }]
      : ask.choose.rules.map((rule) => ({
          given: rule.if === undefined ? 'Otherwise' : `If ${readable(rule.if)}`,
          answer: rule.then.map((id) => fill(ask.choose.options[id] ?? id)).join(' or '),
        }));
    const why = ask.why ?? scenario.why;
    const source = sourceLine(deck, ask.source ?? scenario.source);
    return {
      id: `${scenario.id}.${ask.id}`,
      text: fill(ask.ask),
      critical: ask.critical ?? scenario.critical ?? false,
      answers,
      ...(why === undefined ? {} : { why: fill(why) }),
      ...(source === null ? {} : { source }),
      beside: false,
      together: false,
    };
  });
};

/** Formulas as people write them. */
const readable = (formula: string): string =>
  formula
    .replace(/&&/g, 'and')
    .replace(/\|\|/g, 'or')
    .replace(/>=/g, '≥')
    .replace(/<=/g, '≤')
    .replace(/==/g, '=')
    .replace(/!=/g, '≠')
    .replace(/!/g, 'not ')
    .replace(/\*/g, '×')
    .replace(/limit\("([^"]+)"\)/g, (_, id: string) => id.replace(/-/g, ' '));

const workings = (scenario: ResolvedScenario['scenario'], formula: string): string => {
  const own = scenario.let?.[formula];
  return own === undefined ? readable(formula) : readable(own);
};

const bandWords = (accept: Parameters<typeof bandOf>[0], unit: Parameters<typeof tradeForm>[1]): string => {
  const { plus, minus } = bandOf(accept);
  if (plus === 0 && minus === 0) return '';
  return plus === minus
    ? ` (within ${tradeForm(plus, unit)})`
    : ` (within +${tradeForm(plus, unit)}, −${tradeForm(minus, unit)})`;
};
