import type { Id, Procedure, Step } from '../../model/deck.ts';
import type { CrewGiven, CrewShown, DealtDetail, DealtRow, Marked } from '../../model/form.ts';
import type { ItemKey, Mark } from '../../model/item.ts';
import type { Resolved, RunStep } from '../../subjects/resolved.ts';
import type { Question } from '../contract.ts';
import { compact } from '../look-up.ts';
import { otherAnswers, rightThere } from '../other-answers.ts';
import { type Asked, askedIn } from '../run/draw.ts';
import { crewLabel, extrasOf } from '../run/extras.ts';

/**
 * Marks who was named for each step. `g`: of a faultless deal the chance to guess the whole, else that of one row.
 * @returns no marks where the deck no longer holds what was asked
 */
export function markCrew(resolved: Resolved, question: Question, shown: CrewShown, given: CrewGiven | null): Marked {
  const asked = askedIn(resolved, question.variant, question.about);
  if (!asked) return { marks: {}, g: 0, flawed: true, detail: { form: 'crew', rows: [] } };
  const steps = asked.part.map((i) => asked.situation.steps[i] as RunStep);
  const marks: Record<ItemKey, Mark> = {};
  const rows = steps.map((one): DealtRow => {
    const row = rowOf(resolved, question, asked, one, shown, given?.deal[one.step.id]);
    if (one.crew !== null) marks[one.crew] = given === null ? 'told' : row.isRight ? 'right' : 'wrong';
    return row;
  });
  const flawed = given === null || rows.some(({ isRight }) => !isRight);
  const one = 1 / Math.max(1, shown.seats.length);
  const detail: DealtDetail = { form: 'crew', rows };
  return { marks, g: flawed ? one : one ** rows.length, flawed, detail };
}

/** A row with all that was hidden of its step, where it was not known. */
function rowOf(
  resolved: Resolved,
  question: Question,
  { view, p }: Asked,
  one: RunStep,
  shown: CrewShown,
  seat: string | undefined,
): DealtRow {
  const { id, by } = one.step;
  const labelOf = (seatId: string): string =>
    shown.seats.find((each) => each.id === seatId)?.text ?? crewLabel(resolved, seatId);
  const isRight = seat !== undefined && seat === by;
  const { why, slip, source } = extrasOf(resolved, view, p, one, shown.drawn);
  const past = seat === undefined || isRight ? [] : doneThere(resolved, question, p.procedure, one.step, seat);
  return compact({
    id,
    text: shown.rows.find((row) => row.id === id)?.text ?? one.text,
    given: seat === undefined ? '' : labelOf(seat),
    right: by === undefined ? '' : labelOf(by),
    isRight,
    ...(!isRight && { why, usualSlip: slip, source, notes: past.length === 0 ? undefined : past }),
  }) as DealtRow;
}

/** The revision by which the seat named was right. */
function doneThere(resolved: Resolved, { variant, about }: Question, p: Procedure, step: Step, seat: Id): string[] {
  const [found] = otherAnswers(resolved, variant, (other, view) => {
    const old = askedIn(other, view, { ...about, part: [step.id] });
    return old?.situation.steps[old.part[0] as number]?.step.by === seat ? true : null;
  });
  return found === undefined ? [] : [rightThere(found.of, step, p)];
}
