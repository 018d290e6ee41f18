import { foldText } from '../../lib/fold-text.ts';
import type { Cited } from '../../model/deck.ts';
import type { ChipFinding, Marked, RunDetail, RunGiven, RunShown } from '../../model/form.ts';
import type { ItemKey, Mark } from '../../model/item.ts';
import { fewestMoves, scoreOf } from '../../subjects/procedure/moves.ts';
import { restrict } from '../../subjects/procedure/order.ts';
import type { Resolved, RunStep } from '../../subjects/resolved.ts';
import type { Blame, Question } from '../contract.ts';
import { compact } from '../look-up.ts';
import { otherAnswers, rightThere } from '../other-answers.ts';
import { askedIn } from './draw.ts';
import { findingsOf } from './finding.ts';
import { faultlessRate, guessRate } from './guess.ts';

/**
 * Marks a run against the partial order of its steps. `g` is the chance that a guess does as well: of a faultless run
 * that of guessing the whole, else the share of steps that a guess leaves right. Where less than that stands, as in a run
 * from back to front, no step counts as only moved.
 * @returns no marks where the deck no longer holds what was asked
 */
export function markRun(
  resolved: Resolved,
  question: Question,
  shown: RunShown,
  given: RunGiven | null,
  blame?: Blame,
): Marked {
  const asked = askedIn(resolved, question.variant, question.about);
  if (!asked) return { marks: {}, g: 0, flawed: true, detail: nothing() };
  const { p, situation, part } = asked;
  const steps = part.map((i) => situation.steps[i] as RunStep);
  const order = restrict(situation.order, part);
  const strangers = shown.chips.filter((c) => !steps.some((s) => s.step.id === c.id));

  const placed = given === null ? [] : readOrder(steps, shown, given.order);
  const arrangement = placed.filter((x) => typeof x === 'number');
  const chance = (i: number): number => {
    const key = (steps[i] as RunStep).place;
    return key !== null && blame ? blame(key) : 0;
  };
  const moves = fewestMoves(order, arrangement, chance);
  const score = scoreOf(order, arrangement);
  const taken = new Set(placed.filter((x) => typeof x === 'string'));
  const flawed = moves.count > 0 || moves.omitted.length > 0 || taken.size > 0;

  // A guess that gives a faultless run is far rarer than one that leaves a step right.
  const g = flawed || given === null ? guessRate(order, strangers.length) : faultlessRate(order, strangers.length);
  // Fewer steps stand, alone or with their block, than a blind guess keeps: which of those in dispute is right is chance.
  const stand = moves.marks.filter((mark) => mark !== 'wrong').length;
  const isBlind = stand < g * steps.length - 1e-9;
  const stepMarks = moves.marks.map((mark) => (isBlind && mark === 'moved' ? 'wrong' : mark));

  const marks: Record<ItemKey, Mark> = {};
  steps.forEach((s, i) => {
    if (s.place !== null) marks[s.place] = given === null ? 'told' : (stepMarks[i] as Mark);
  });

  const number = new Map(placed.map((x, i) => [x, i + 1]));
  const finding = findingsOf(resolved, asked, steps, order, shown.drawn);
  const chips: ChipFinding[] = steps.map((_, i) => {
    const at = number.get(i);
    const state =
      at === undefined
        ? 'omitted'
        : stepMarks[i] === 'wrong'
          ? 'misplaced'
          : stepMarks[i] === 'moved'
            ? 'moved'
            : 'right';
    return { ...finding(i, state), ...(at !== undefined && { given: at }) };
  });
  for (const c of strangers) {
    const at = number.get(c.id);
    const n = Number(/^stranger-(\d+)$/.exec(c.id)?.[1] ?? Number.NaN);
    chips.push(
      compact({
        id: c.id,
        text: c.text,
        state: at === undefined ? 'left-out' : 'stranger',
        given: at,
        after: [],
        before: [],
        note: p.strangers[n]?.note,
      }) as ChipFinding,
    );
  }
  const slip = flawed && given !== null ? orderOnce(resolved, question, steps, given, p.procedure) : undefined;
  const detail: RunDetail = {
    form: 'run',
    ...(slip !== undefined && { slip }),
    chips,
    violated: score.violated,
    pairs: score.pairs,
    score: score.score,
    moves: moves.count,
  };
  return { marks, g, flawed, detail };
}

/** Nothing wrong by another revision, which need not know all of these steps. */
function orderOnce(
  resolved: Resolved,
  question: Question,
  steps: readonly RunStep[],
  given: RunGiven,
  procedure: Cited,
): string | undefined {
  const { part: _, ...about } = question.about;
  const ids = steps.map(({ step }) => step.id);
  const [found] = otherAnswers(resolved, question.variant, (other, view) => {
    const old = askedIn(other, view, about)?.situation;
    if (old === undefined) return null;
    const part = [...old.steps.keys()].filter((i) => ids.includes((old.steps[i] as RunStep).step.id));
    const placed = given.order.map((id) => part.findIndex((i) => old.steps[i]?.step.id === id));
    if (part.length < 2 || placed.includes(-1)) return null;
    const moves = fewestMoves(restrict(old.order, part), placed, () => 0);
    return moves.count === 0 && moves.omitted.length === 0 ? true : null;
  });
  return found && rightThere(found.of, procedure);
}

/**
 * What was numbered: indices of steps, ids of strangers. Steps that read the same are taken in order: the first
 * one placed counts as the first. Repeats and unknown ids are passed over.
 */
function readOrder(steps: readonly RunStep[], shown: RunShown, order: readonly string[]): (number | string)[] {
  const onScreen = new Map(shown.chips.map((c) => [c.id, c]));
  const index = new Map(steps.map((s, i) => [s.step.id, i]));
  const waiting = new Map<string, number[]>();
  steps.forEach((s, i) => {
    const key = foldText(s.text);
    waiting.set(key, [...(waiting.get(key) ?? []), i]);
  });
  const out: (number | string)[] = [];
  for (const id of new Set(order)) {
    if (!onScreen.has(id)) continue;
    const i = index.get(id);
    out.push(i === undefined ? id : (waiting.get(foldText((steps[i] as RunStep).text))?.shift() as number));
  }
  return out;
}

const nothing = (): RunDetail => ({ form: 'run', chips: [], violated: 0, pairs: 0, score: 0, moves: 0 });
