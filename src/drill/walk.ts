import { crewLabel, extrasOf } from '../forms/run/extras.ts';
import type { Memory } from '../memory/types.ts';
import type { Procedure } from '../model/deck.ts';
import { startsUndrawn } from '../subjects/fill.ts';
import { branchWords } from '../subjects/formula-words.ts';
import { caseWords, pitchOf } from '../subjects/limit/words.ts';
import type { Resolved, ResolvedLimit, ResolvedProcedure, View } from '../subjects/resolved.ts';
import { sourceLine } from '../subjects/things.ts';
import { labelled, type WalkLine, wordsIn } from './walk-line.ts';
import { scenarioLines, situationWords } from './walk-scenario.ts';
import { readKey } from './world.ts';

export type { WalkLine };

export interface Walk {
  readonly title: string;
  /** Which part of it this is, what it starts with, which variant is meant. */
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
      const all = view.limits.filter(({ cases }) => cases.length > 0);
      const limits = all.filter(({ limit: { id } }) => asked(id));
      if (limits.length === 0) return null;
      const lines = limits.map(({ limit: { id } }) => limitLine(resolved, view, id));
      const scene = partWords(
        'Limit',
        limits.map((one) => all.indexOf(one)),
        all.length,
      );
      return { title: lines.length === 1 ? 'Limit' : 'Limits', scene: lines.length === 1 ? [] : scene, lines };
    }
    case 'scenario': {
      const scenarios = view.scenarios.filter(({ scenario }) => asked(scenario.id));
      const [only] = scenarios;
      if (only === undefined) return null;
      const alone = scenarios.length === 1;
      return {
        title: (alone ? only.scenario.title : undefined) ?? 'Scenarios',
        scene: [...(alone ? [situationWords(resolved, view, only)] : []), ...named],
        ...(alone && only.scenario.why !== undefined && { why: wordsIn(resolved, only.scenario.why) }),
        lines: scenarios.flatMap(({ scenario: { id } }) => scenarioLines(resolved, view, id, alone)),
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
        ...(step.step.where !== undefined && { where: step.step.where }),
      },
    ];
  });
  if (lines.length === 0) return null;
  return {
    title: procedure.title,
    scene: [
      ...partWords('Step', [...situation.steps.keys()].filter(isShown), situation.steps.length),
      ...(procedure.starts === undefined
        ? []
        : [startsUndrawn(resolved.deck, procedure.starts)].filter((said) => said !== '')),
      ...calledWords(resolved, procedure, fill),
      ...circumstances(resolved, view, found, situation.id),
      ...named,
    ],
    ...(procedure.why !== undefined && { why: fill(procedure.why) }),
    lines,
  };
};

/**
 * A procedure under other circumstances repeats most of its steps: ids of the lines that this learner has not read.
 * Empty where none was read before, so that everything is new.
 */
export const freshLines = (
  { lines }: Walk,
  { deck }: Resolved,
  { read }: Pick<Memory, 'read'>,
): ReadonlySet<string> => {
  const fresh = lines.flatMap(({ id }) => (read.has(readKey(deck.id, id)) ? [] : [id]));
  return new Set(fresh.length < lines.length ? fresh : []);
};

/** Which of them are read, where not all are: several readings have one title. */
const partWords = (what: string, shown: readonly number[], of: number): string[] => {
  const [first = 0, last = first] = [shown[0], shown.at(-1)];
  if (shown.length === of) return [];
  if (shown.length === 1) return [`${what} ${first + 1} of ${of}`];
  return last - first === shown.length - 1
    ? [`${what}s ${first + 1} to ${last + 1} of ${of}`]
    : [`${shown.length} of ${of} ${what.toLowerCase()}s`];
};

/** With which words a list is called for, and by whom. */
const calledWords = (resolved: Resolved, { called, calledBy }: Procedure, fill: (text: string) => string): string[] => {
  const by = calledBy === undefined ? '' : crewLabel(resolved, calledBy);
  if (called !== undefined) return [`Called for${by === '' ? '' : ` by ${by}`}: “${fill(called)}”`];
  return by === '' ? [] : [`Called for by ${by}`];
};

/**
 * The circumstances of one situation of a procedure, in words: what each of its branches hangs on, as it is there.
 * Empty where nothing is conditional.
 */
export const circumstances = (
  { deck }: Resolved,
  view: View,
  procedure: ResolvedProcedure,
  situation: string,
): string[] =>
  branchWords(deck, view, procedure, situation).map((words) => `${words[0]?.toUpperCase() ?? ''}${words.slice(1)}`);

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
      if (found === undefined || answers.has(one.key)) continue;
      const pitch = pitchOf(found, one);
      answers.set(one.key, {
        given: [...named, one.given].filter((words) => words !== '').join(', '),
        answer: caseWords(found, one),
        ...(pitch !== undefined && { pitch }),
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
      source: source ?? sourceLine(resolved.deck, limit) ?? undefined,
    }),
    beside: false,
    together: false,
  };
};
