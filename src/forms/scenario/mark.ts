import type { Tree } from '../../formula/tree.ts';
import type { Show, Unit } from '../../model/deck.ts';
import type { AnswerDetail, Drawn, Marked, ScenarioGiven, ScenarioShown } from '../../model/form.ts';
import { tradeForm } from '../../model/trade-form.ts';
import { UNIT_PLACES } from '../../model/unit-places.ts';
import { UNIT_FACTS } from '../../model/units.ts';
import { bandOf, type Width } from '../../subjects/band.ts';
import { fillWith } from '../../subjects/fill.ts';
import { isTrue } from '../../subjects/formulas.ts';
import type { Resolved, ResolvedAsk } from '../../subjects/resolved.ts';
import { numberSlips } from '../../subjects/scenario/slips.ts';
import { numberOf, ruleThatHolds, withLets } from '../../subjects/scenario/values.ts';
import { sourceLine } from '../../subjects/things.ts';
import type { Question } from '../contract.ts';
import { countedLine, countedWords, eitherLine } from '../counted.ts';
import { compact } from '../look-up.ts';
import { offWords } from '../off.ts';
import { datedAnswers, otherAnswers, pastCandidates, rightThere } from '../other-answers.ts';
import { isRight } from '../right.ts';
import { type Candidate, machineSlips, nameSlip } from '../slip.ts';
import { type AskedScenario, askedScenario, wordsOf } from './draw.ts';
import { computedGuess } from './guess.ts';
import { choiceGuess } from './offers.ts';
import { type Working, workingOf } from './working.ts';

type NumberAsked = AskedScenario & { readonly ask: Extract<ResolvedAsk, { number: unknown }> };
type ChooseAsked = AskedScenario & { readonly ask: Extract<ResolvedAsk, { rules: unknown }> };

const GONE: Marked = {
  marks: {},
  g: 0,
  flawed: true,
  detail: { form: 'scenario', right: '', given: '', working: [] },
};

/** Marks from the drawn values alone: nothing is drawn again. No marks where the deck no longer holds the question. */
export function markScenario(
  resolved: Resolved,
  question: Question,
  shown: ScenarioShown,
  given: ScenarioGiven | null,
): Marked {
  const asked = askedScenario(resolved, question.variant, question.about);
  const values = asked && withLets(asked.scenario, shown.drawn, asked.view);
  if (!asked || !values) return GONE;
  return 'number' in asked.ask
    ? markNumber(resolved, question, asked as NumberAsked, values, shown, given)
    : markChoice(resolved, question, asked as ChooseAsked, values, shown, given);
}

/** What another revision asks by the same id, with what was drawn; null where it cannot be worked out from that. */
function sameAsk(other: Resolved, view: string, { about }: Question, shown: ScenarioShown) {
  const asked = askedScenario(other, view, about);
  const values = asked && withLets(asked.scenario, shown.drawn, asked.view);
  return asked && values ? { asked, values } : null;
}

function markNumber(
  resolved: Resolved,
  question: Question,
  { view, scenario, ask: resolvedAsk }: NumberAsked,
  values: Drawn,
  shown: ScenarioShown,
  given: ScenarioGiven | null,
): Marked {
  const right = numberOf(resolvedAsk.number, values, view);
  if (right === null) return GONE;
  const { ask } = resolvedAsk;
  const exact = bandOf(ask.accept);
  const typed = given !== null && 'value' in given ? given.value[0] : undefined;
  const said = rounded(right, ask.unit, exact, ask.show);
  const band = widened(exact, said - right);
  // The number as it is said is right too, also where no band was given to round in.
  const hit = typed !== undefined && (isRight(typed, right, band, ask.show) || isRight(typed, said, NO_BAND, ask.show));
  const mark = given === null ? 'told' : hit ? 'right' : 'wrong';
  const fill = (text: string): string => fillWith(text, wordsOf(resolved.deck, scenario, shown.drawn));

  const shownAs = tradeForm(said, ask.unit, ask.show);
  const others = otherAnswers(resolved, question.variant, (other, otherView) => {
    const found = sameAsk(other, otherView, question, shown);
    const own = found?.asked.ask;
    if (!found || !own || !('number' in own) || own.ask.unit !== ask.unit) return null;
    const value = numberOf(own.number, found.values, found.asked.view);
    return value === null ? null : rounded(value, ask.unit, exact, ask.show);
  });
  const dated = datedAnswers(
    others.map(({ of, answer }) => ({ of, answer: tradeForm(answer, ask.unit, ask.show) })),
    shownAs,
  );
  let slip: string | undefined;
  let off: string | undefined;
  if (typed !== undefined && !hit) {
    off = offWords({ typed, right: said, unit: ask.unit, show: ask.show, sense: 'exactly' });
    const lets = new Map(scenario.lets.map((l) => [l.name, l.tree]));
    const slack = Math.max(exact.plus, exact.minus, rounding(ask.unit));
    const wrongWays = numberSlips(resolvedAsk, lets).flatMap((s): Candidate[] => {
      const value = numberOf(s.number, values, view);
      return value === null ? [] : [{ value, note: s.authored ? fill(s.note) : s.note, authored: s.authored, slack }];
    });
    // What is computed the wrong way goes before digits and decimal places, which may hit the same number by chance.
    const explained = wrongWays.some((w) => Math.abs(typed - w.value) <= w.slack);
    const past = pastCandidates(others, slack, ask, scenario.scenario);
    slip = nameSlip(typed, right, exact, [...past, ...(explained ? wrongWays : roundedSlips(said, ask.unit))]);
  }
  return {
    marks: { [resolvedAsk.key]: mark },
    g: computedGuess(resolved.deck, view, scenario, resolvedAsk),
    flawed: mark !== 'right',
    detail: compact({
      form: 'scenario' as const,
      right: shownAs,
      given: typed === undefined ? '' : tradeForm(typed, ask.unit, ask.show),
      off,
      counted: countedLine([countedWords(right, band, ask.unit, ask.show)]),
      slip,
      working: numberLines(workingOf(resolved.deck, view, scenario, values), scenario, resolvedAsk.number, shownAs),
      why: (ask.why ?? scenario.scenario.why) ? fill((ask.why ?? scenario.scenario.why) as string) : undefined,
      source: sourceLine(resolved.deck, ask, scenario.scenario) ?? undefined,
      dated: dated.length === 0 ? undefined : dated,
    }) as AnswerDetail,
  };
}

/** Of the number as it is said: nobody exchanges digits that are never written. */
const roundedSlips = (said: number, unit: Unit): Candidate[] =>
  machineSlips(said, unit).map((m) => ({ ...m, slack: Math.max(m.slack, rounding(unit)) }));

function markChoice(
  resolved: Resolved,
  question: Question,
  { view, scenario, ask: resolvedAsk }: ChooseAsked,
  values: Drawn,
  shown: ScenarioShown,
  given: ScenarioGiven | null,
): Marked {
  const rule = ruleThatHolds(resolvedAsk, values, view);
  if (!rule) return GONE;
  const { ask } = resolvedAsk;
  const choice = given !== null && 'choice' in given ? given.choice : undefined;
  const hit = choice !== undefined && rule.rule.then.includes(choice);
  const mark = given === null ? 'told' : hit ? 'right' : 'wrong';
  const fill = (text: string): string => fillWith(text, wordsOf(resolved.deck, scenario, shown.drawn));
  const option = (id: string): string => fill(ask.choose.options[id] ?? id);
  const outcome = rule.rule.then.map(option).join(' or ');
  const first = resolvedAsk.rules.indexOf(rule);
  const earlier = resolvedAsk.rules.slice(0, first).flatMap((r) => r.if ?? []);
  const working = workingOf(resolved.deck, view, scenario, values);
  // What the chosen option would have been right for: the rule that was taken for the one that holds.
  // Where several give it, the one that gives it alone.
  const taken =
    choice === undefined || hit
      ? undefined
      : resolvedAsk.rules
          .filter((r) => r.rule.then.includes(choice))
          .sort((a, b) => a.rule.then.length - b.rule.then.length)[0];
  const others = otherAnswers(resolved, question.variant, (other, otherView) => {
    const found = sameAsk(other, otherView, question, shown);
    if (!found || !('rules' in found.asked.ask)) return null;
    const own = ruleThatHolds(found.asked.ask, found.values, found.asked.view);
    return own && { chosen: own.rule.then, options: found.asked.ask.ask.choose.options };
  });
  const past = choice === undefined || hit ? undefined : others.find(({ answer }) => answer.chosen.includes(choice));
  const dated = datedAnswers(
    others.map(({ of, answer }) => ({
      of,
      answer: answer.chosen.map((id) => fill(answer.options[id] ?? id)).join(' or '),
    })),
    outcome,
  );
  const why = rule.rule.why ?? ask.why ?? scenario.scenario.why;
  return {
    marks: { [rule.key]: mark },
    g: choiceGuess(rule, shown.choices.length),
    flawed: mark !== 'right',
    detail: compact({
      form: 'scenario' as const,
      right: outcome,
      counted: eitherLine(rule.rule.then),
      given: choice === undefined ? '' : (shown.choices.find((c) => c.id === choice)?.text ?? option(choice)),
      slip: past
        ? rightThere(past.of, rule.rule, ask, scenario.scenario)
        : taken?.if
          ? isTrue(taken.if, values, view) === true
            ? 'That holds here, too, but the rule of the answer goes before it.'
            : `That is right where this holds: ${working.say(taken.if)}.`
          : undefined,
      working: [
        ...working.values([...earlier, ...(rule.if ? [rule.if] : [])]),
        ...earlier.map((tree) => `Not here: ${working.say(tree)}`),
        rule.if
          ? `Here: ${working.say(rule.if)}. So: ${outcome}`
          : `${earlier.length > 0 ? 'None of these' : 'Always'}: ${outcome}`,
      ],
      why: why === undefined ? undefined : fill(why),
      usualSlip: rule.rule.slip === undefined ? undefined : fill(rule.rule.slip),
      source: sourceLine(resolved.deck, rule.rule, ask, scenario.scenario) ?? undefined,
      dated: dated.length === 0 ? undefined : dated,
    }) as AnswerDetail,
  };
}

/** The values that a number stands on; its own formula, where it is more than the name of one of them. */
function numberLines(working: Working, { lets }: AskedScenario['scenario'], number: Tree, said: string): string[] {
  const lines = working.values([number]);
  const named = number.kind === 'name' && lets.some((l) => l.name === number.name);
  return named ? lines : [...lines, `${working.say(number)} = ${said}`];
}

/** Half of the last place that is written by hand. */
const rounding = (unit: Unit): number => (UNIT_FACTS[unit].whole ? 0.5 : 0.05);

const NO_BAND: Width = { plus: 0, minus: 0 };

/**
 * What counts is so far from the number as it is said, too: within 2 kt of "15 kt" is 13 kt, though 15.03 kt was worked out.
 * @param off of the number as it is said from the one worked out; across north it is no rounding
 */
const widened = ({ plus, minus }: Width, off: number): Width =>
  (plus === 0 && minus === 0) || Math.abs(off) > 1
    ? { plus, minus }
    : { plus: plus + Math.max(0, off), minus: minus + Math.max(0, -off) };

/** A computed number as it is said: in its trade form, whole where the unit is, or one place finer than the band. */
function rounded(value: number, unit: Unit, band: Width, show?: Show): number {
  if (show === 'direction') return ((Math.round(value) % 360) + 360) % 360 || 360;
  if (show === 'runway') return (((Math.round(value / 10) * 10) % 360) + 360) % 360 || 360;
  if (show === 'flight-level') return unit === 'ft' ? Math.round(value / 100) * 100 : Math.round(value);
  const wide = Math.max(band.plus, band.minus);
  const whole = UNIT_FACTS[unit].whole;
  const places = wide >= 0.5 && whole ? 0 : wide > 0 ? Math.max(0, Math.ceil(-Math.log10(wide)) + 1) : 2;
  return Number(value.toFixed(Math.max(places, UNIT_PLACES[unit] ?? 0)));
}
