import type { Deck, Id, Step } from '../../model/deck.ts';
import { type ItemKey, parseItemKey } from '../../model/item.ts';
import { withLabels } from '../../subjects/fill.ts';
import { formulaWords } from '../../subjects/formula-words.ts';
import { inlined } from '../../subjects/formulas.ts';
import { caseWords, cueWords } from '../../subjects/limit/words.ts';
import { stepText } from '../../subjects/procedure/words.ts';
import type { ResolvedScenario, RunStep, Situation, View } from '../../subjects/resolved.ts';
import { type Things, thingsOf } from '../../subjects/things.ts';

/** What must be recalled, in words. */
export interface Answer {
  readonly words: string;
  /** Of a place: the steps that it is said by. */
  readonly near?: readonly Id[];
}

/** `thing.facet` → stamp → answer: of one view. */
export type Answers = ReadonlyMap<string, ReadonlyMap<string, Answer>>;

/** All items of one view with their answers. Those of a step may have several: one for each situation. */
export function answersOf(deck: Deck, view: View): Answers {
  const found = new Map<string, Map<string, Answer>>();
  const put = (key: ItemKey | null, answer: () => Answer): void => {
    const parts = key === null ? undefined : parseItemKey(key);
    if (parts === undefined) return;
    const name = `${parts.thing}.${parts.facet}`;
    const stamps = found.get(name) ?? new Map<string, Answer>();
    found.set(name, stamps);
    if (!stamps.has(parts.stamp)) stamps.set(parts.stamp, answer());
  };
  const things = thingsOf(deck);
  for (const { situations, procedure, calls } of view.procedures) {
    put(calls?.words ?? null, () => ({ words: `“${procedure.called ?? ''}”` }));
    put(calls?.crew ?? null, () => ({ words: crewWords(things, procedure.calledBy ?? '') }));
    put(calls?.cue ?? null, () => ({ words: procedure.starts ?? '' }));
    for (const situation of situations)
      situation.steps.forEach((step, i) => {
        put(step.place, () => placeOf(deck, situation, i));
        put(step.cue, () => ({ words: cueWords(deck, view, step.step.cue) }));
        put(step.crew, () => ({ words: crewWords(things, step.step.by ?? '') }));
        put(step.words, () => ({ words: `“${step.step.say ?? ''}”` }));
      });
  }
  for (const limit of view.limits)
    for (const one of limit.cases)
      put(one.key, () => ({ words: `${one.given === '' ? '' : `${one.given}: `}${caseWords(limit, one)}` }));
  for (const scenario of view.scenarios) scenarioAnswers(deck, view, scenario, put);
  return found;
}

function placeOf(deck: Deck, { steps, order }: Situation, i: number): Answer {
  const before = order.covers.flatMap(([a, b]) => (b === i ? (steps[a] as RunStep).step : []));
  const after = order.covers.flatMap(([a, b]) => (a === i ? (steps[b] as RunStep).step : []));
  const said = (list: readonly Step[]): string => list.map((s) => quoted(deck, s)).join(' and ');
  return {
    words: [
      before.length === 0 ? 'first' : `after ${said(before)}`,
      after.length === 0 ? 'last' : `before ${said(after)}`,
    ].join(', '),
    near: [...before, ...after].map((s) => s.id),
  };
}

/** The words of a step in quotation marks of one kind. */
export const quoted = (deck: Deck, step: Step): string =>
  `“${withLabels(deck, stepText(step)).replace(/[“”]/g, '') || step.id}”`;

export const crewWords = (things: Things, by: string): string => things.crew.get(by)?.label ?? by;

function scenarioAnswers(
  deck: Deck,
  view: View,
  scenario: ResolvedScenario,
  put: (key: ItemKey, answer: () => Answer) => void,
): void {
  const lets = new Map(scenario.lets.map((l) => [l.name, l.tree]));
  // What a name stands for is part of the answer: it is said in full.
  const say = (tree: Parameters<typeof inlined>[0]): string => formulaWords(deck, view, scenario, inlined(tree, lets));
  for (const ask of scenario.asks) {
    if ('number' in ask) put(ask.key, () => ({ words: `${say(ask.number)} (${ask.ask.unit})` }));
    else
      for (const rule of ask.rules)
        put(rule.key, () => {
          const gives = rule.rule.then.map((o) => ask.ask.choose.options[o] ?? o).join(' or ');
          return { words: `${rule.if === null ? 'Otherwise' : `If ${say(rule.if)}`}: ${gives}` };
        });
  }
}
