import type { Marked } from '../../model/form.ts';
import type { PacedDetail, PacedFinding, PacedGiven, PacedShown } from '../../model/form-paced.ts';
import type { ItemKey, Mark } from '../../model/item.ts';
import { extrasOf, type Judged, judge } from '../../paced/judge.ts';
import { pacedIn } from '../../paced/plan.ts';
import { type Timed, timelineOf } from '../../paced/timeline.ts';
import type { Resolved, View } from '../../subjects/resolved.ts';
import type { Question } from '../contract.ts';
import { viewOf } from '../look-up.ts';
import { askedIn } from '../run/draw.ts';
import { findingsOf } from '../run/finding.ts';
import { markScenario } from '../scenario/mark.ts';

/**
 * Marks the learner's own steps that came up. In time: right. Too early or too late: the cue is wrong where the step has
 * one that speed, height, a clock or a call gives, else the words; what was said is right even so, and the place wherever
 * the order held. Missing: all of them wrong. A step that never came up, and what others do, is not marked.
 *
 * `g`: each pick is one of the buttons shown, whatever the moment; a faultless run is as many picks in a row.
 * @returns no marks where the deck no longer holds what was played
 */
export function markPaced(resolved: Resolved, question: Question, shown: PacedShown, given: PacedGiven | null): Marked {
  const view = viewOf(resolved, question.variant);
  const paced = pacedIn(resolved, question.about.thing);
  const steps = view && paced && timelineOf(resolved, view, paced, shown);
  if (!view || !steps) return { marks: {}, g: 0, flawed: true, detail: nothing() };
  const own = steps.filter(({ who }) => who === 'own');
  const pick = 1 / Math.max(1, shown.buttons);
  if (given === null) {
    const marks = Object.fromEntries(own.flatMap(keysOf).map((key) => [key, 'told' as Mark]));
    return { marks, g: pick, flawed: true, detail: { ...nothing(), never: own.map(({ text }) => text) } };
  }

  const judged = judge(steps, given);
  const marks: Record<ItemKey, Mark> = {};
  for (const one of judged) if (one.step.who === 'own') Object.assign(marks, marksOf(one));
  const rule = ruleOf(resolved, question, shown, given, judged);
  Object.assign(marks, rule?.marks);

  const extra = extrasOf(steps, given);
  const decision = decisionOf(paced.failure?.speed, shown, given);
  const mine = judged.filter(({ step }) => step.who === 'own');
  const isFaultless =
    mine.length > 0 &&
    mine.every(({ timing, inOrder }) => timing === 'in-time' && inOrder) &&
    extra.length === 0 &&
    (decision === undefined || decision.given === decision.right) &&
    (rule === null || !rule.flawed);
  const never = own
    .filter(({ id }) => !judged.some(({ step }) => step.id === id) && !extra.some((one) => one.id === id))
    .map(({ text }) => text);
  const detail: PacedDetail = {
    form: 'paced',
    steps: asDone(judged, given).map((one) => told(resolved, view, shown, given, steps, one)),
    extra: extra.map(({ text, at }) => ({ text, at })),
    never,
    ...(decision !== undefined && { decision }),
    ...(rule !== null && rule.detail.form === 'scenario' && { rule: rule.detail }),
  };
  return { marks, g: isFaultless ? pick ** Math.max(1, mine.length) : pick, flawed: !isFaultless, detail };
}

/** Is the cue the learner's to know here? Where the program tells what is seen it is not asked. */
const asksCue = ({ sign, run }: Timed): boolean =>
  run.cue !== null && (sign === 'figures' || sign === 'clock' || sign === 'heard');

const keysOf = (step: Timed): ItemKey[] =>
  [step.run.place, asksCue(step) ? step.run.cue : null, step.run.words].filter((key) => key !== null);

function marksOf({ step, timing, inOrder }: Judged): Record<ItemKey, Mark> {
  const { place, cue, words } = step.run;
  const inTime = timing === 'in-time';
  const isDone = timing !== 'missing';
  const cueAsked = asksCue(step);
  const out: Record<ItemKey, Mark> = {};
  if (!isDone) return Object.fromEntries(keysOf(step).map((key) => [key, 'told']));
  if (place !== null) out[place] = inOrder && (inTime || cueAsked || words !== null) ? 'right' : 'wrong';
  if (cueAsked && cue !== null) out[cue] = inTime ? 'right' : 'wrong';
  if (words !== null) out[words] = inTime || cueAsked ? 'right' : 'wrong';
  return out;
}

/** What the wind asks for, marked as its question is; null where nobody was asked. */
function ruleOf(
  resolved: Resolved,
  { variant }: Question,
  { wind }: PacedShown,
  { acts }: PacedGiven,
  judged: readonly Judged[],
): Marked | null {
  const step = judged.find((one) => one.step.byWind && one.step.who === 'own')?.step;
  const act = acts.find(({ id }) => id === step?.id);
  const named = step?.run.step.rule;
  const choice = act?.choice;
  if (wind === undefined || named === undefined || (choice === undefined && act?.unknown !== true)) return null;
  const [thing = '', ask = ''] = named.split('#');
  const question: Question = { form: 'scenario', about: { thing, case: ask }, variant, proves: [] };
  const marked = markScenario(resolved, question, wind, choice === undefined ? null : { choice });
  return Object.keys(marked.marks).length === 0 ? null : marked;
}

function decisionOf(v1Name: string | undefined, { drawn }: PacedShown, given: PacedGiven): PacedDetail['decision'] {
  const v1 = drawn[v1Name ?? ''];
  if (given.failed === undefined || given.asked !== true || typeof v1 !== 'number') return undefined;
  const { speed } = given.failed;
  return {
    right: speed < v1 ? 'stop' : 'go',
    speed,
    ...(given.decision !== undefined && { given: given.decision }),
  };
}

function told(
  resolved: Resolved,
  view: View,
  { runs, drawn }: PacedShown,
  { acts }: PacedGiven,
  steps: readonly Timed[],
  one: Judged,
): PacedFinding {
  const { step, timing, cueAt, doneAt } = one;
  const act = timing === 'played' ? undefined : acts.find(({ id }) => id === step.id);
  const read = step.figure?.unit === 'ft' ? (act?.feet ?? (act?.knots === undefined ? undefined : 0)) : act?.knots;
  const run = runs.find(({ procedure }) => procedure === step.procedure);
  const situation = step.holds === 'failed' ? (run?.failed ?? run?.situation) : run?.situation;
  const asked = askedIn(resolved, view.id, { thing: step.procedure, situation: situation ?? '' });
  const state = timing === 'missing' ? 'omitted' : timing === 'in-time' || timing === 'played' ? 'right' : 'misplaced';
  const at = asked?.situation.steps.findIndex((other) => other.step.id === step.id) ?? -1;
  const found =
    asked === null || at < 0
      ? { id: step.id, text: step.text, state, after: [], before: [] }
      : findingsOf(resolved, asked, asked.situation.steps, asked.situation.order, drawn)(at, state);
  return {
    ...(found as PacedFinding),
    timing,
    cueAt,
    window: [step.early, step.late],
    inOrder: one.inOrder,
    behind: one.behind.flatMap((id) => steps.find((other) => other.id === id)?.text ?? []),
    called: step.said !== null,
    ...(step.figure !== null && { figure: step.figure, ...(read !== undefined && { read }) }),
    ...(doneAt !== null && { doneAt }),
  };
}

/** In the order of what was done, not of the cues; at the same moment what the learner tapped first goes first. */
function asDone(judged: readonly Judged[], { acts }: PacedGiven): readonly Judged[] {
  const tap = ({ step, timing }: Judged): number =>
    timing === 'played' ? -1 : timing === 'missing' ? acts.length : acts.findIndex(({ id }) => id === step.id);
  const at = ({ cueAt, doneAt }: Judged): number => doneAt ?? cueAt;
  return [...judged].sort((a, b) => at(a) - at(b) || tap(a) - tap(b));
}

const nothing = (): PacedDetail => ({ form: 'paced', steps: [], extra: [], never: [] });
