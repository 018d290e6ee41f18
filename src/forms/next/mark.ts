import type { ChipFinding, ChoiceGiven, Marked, NextDetail, NextShown } from '../../model/form.ts';
import type { Resolved } from '../../subjects/resolved.ts';
import type { Question } from '../contract.ts';
import { compact } from '../look-up.ts';
import { otherAnswers, rightThere } from '../other-answers.ts';
import { askedIn } from '../run/draw.ts';
import { findingsOf } from '../run/finding.ts';

/**
 * Marks which step was chosen to come next. `g` is one in as many as were shown.
 * @returns no marks where the deck no longer holds what was asked
 */
export function markNext(resolved: Resolved, question: Question, shown: NextShown, given: ChoiceGiven | null): Marked {
  const asked = askedIn(resolved, question.variant, question.about);
  const k = asked?.part[0];
  if (!asked || k === undefined || asked.part.length !== 1) return { marks: {}, g: 0, flawed: true, detail: nothing() };
  const { steps, order } = asked.situation;
  const step = steps[k];
  const isRight = given !== null && given.choice === step?.step.id;
  const finding = findingsOf(resolved, asked, steps, order, shown.drawn);
  const wrongOf = (choice: string): ChipFinding => {
    const i = steps.findIndex(({ step: { id } }) => id === choice);
    if (i >= 0) return compact({ ...finding(i, 'misplaced'), note: nextOnce(choice) }) as ChipFinding;
    const n = Number(/^stranger-(\d+)$/.exec(choice)?.[1] ?? Number.NaN);
    const text = shown.choices.find(({ id }) => id === choice)?.text ?? '';
    const note = asked.p.strangers[n]?.note;
    return compact({ id: choice, text, state: 'stranger', after: [], before: [], note }) as ChipFinding;
  };
  // By an older revision it came just after the last step that was given.
  const nextOnce = (choice: string): string | undefined => {
    const last = k === 0 ? undefined : steps[k - 1]?.step.id;
    const { part: _, ...about } = question.about;
    const [found] = otherAnswers(resolved, question.variant, (other, view) => {
      const old = askedIn(other, view, about)?.situation;
      if (old === undefined) return null;
      const at = (id: string) => old.steps.findIndex((one) => one.step.id === id);
      const [c, p] = [at(choice), last === undefined ? null : at(last)];
      const isNext = old.order.covers.some(([a, b]) => b === c && a === p);
      const isFirst = p === null && old.order.covers.every(([, b]) => b !== c);
      return c >= 0 && (isNext || isFirst) ? true : null;
    });
    return found && rightThere(found.of, step?.step ?? {}, asked.p.procedure);
  };
  const detail: NextDetail = {
    form: 'next',
    right: finding(k, given === null ? 'omitted' : 'right'),
    ...(given !== null && !isRight && { wrong: wrongOf(given.choice) }),
  };
  const mark = given === null ? 'told' : isRight ? 'right' : 'wrong';
  return {
    marks: step?.place == null ? {} : { [step.place]: mark },
    g: 1 / Math.max(1, shown.choices.length),
    flawed: !isRight,
    detail,
  };
}

const nothing = (): NextDetail => ({
  form: 'next',
  right: { id: '', text: '', state: 'omitted', after: [], before: [] },
});
