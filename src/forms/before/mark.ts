import type { BeforeShown, ChipFinding, ChoiceGiven, Marked, NextDetail } from '../../model/form.ts';
import type { Resolved } from '../../subjects/resolved.ts';
import type { Question } from '../contract.ts';
import { compact } from '../look-up.ts';
import { askedIn } from '../run/draw.ts';
import { findingsOf } from '../run/finding.ts';

/**
 * Right is whatever must be done before the step, directly or not. `g` is one in as many as were shown.
 * @returns no marks where the deck no longer holds what was asked
 */
export function markBefore(
  resolved: Resolved,
  question: Question,
  shown: BeforeShown,
  given: ChoiceGiven | null,
): Marked {
  const asked = askedIn(resolved, question.variant, question.about);
  const k = asked?.part[0];
  if (!asked || k === undefined || asked.part.length !== 1) return { marks: {}, g: 0, flawed: true, detail: nothing };
  const { steps, order } = asked.situation;
  const finding = findingsOf(resolved, asked, steps, order, shown.drawn);
  const at = (id: string): number => steps.findIndex(({ step }) => step.id === id);
  const isBefore = (id: string): boolean => order.before[at(id)]?.[k] === true;
  const isRight = given !== null && isBefore(given.choice);
  const right = isRight ? given.choice : shown.choices.find(({ id }) => isBefore(id))?.id;
  const wrongOf = (choice: string): ChipFinding => {
    const i = at(choice);
    if (i >= 0) return finding(i, 'misplaced');
    const n = Number(/^stranger-(\d+)$/.exec(choice)?.[1] ?? Number.NaN);
    const text = shown.choices.find(({ id }) => id === choice)?.text ?? '';
    const note = asked.p.strangers[n]?.note;
    return compact({ id: choice, text, state: 'stranger', after: [], before: [], note }) as ChipFinding;
  };
  const place = steps[k]?.place ?? null;
  const detail: NextDetail = {
    form: 'before',
    right: right === undefined ? nothing.right : finding(at(right), given === null ? 'omitted' : 'right'),
    ...(given !== null && !isRight && { wrong: wrongOf(given.choice) }),
  };
  return {
    marks: place === null ? {} : { [place]: given === null ? 'told' : isRight ? 'right' : 'wrong' },
    g: 1 / Math.max(1, shown.choices.length),
    flawed: !isRight,
    detail,
  };
}

const nothing: NextDetail = {
  form: 'before',
  right: { id: '', text: '', state: 'omitted', after: [], before: [] },
};
