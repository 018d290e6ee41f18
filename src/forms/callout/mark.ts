import type { CalloutShown, ChipFinding, Marked, WordsDetail, WordsGiven } from '../../model/form.ts';
import type { Resolved } from '../../subjects/resolved.ts';
import type { Question } from '../contract.ts';
import { askedIn } from '../run/draw.ts';
import { fillerFor } from '../run/extras.ts';
import { findingsOf } from '../run/finding.ts';
import { markWords, saidFinding } from '../words/mark.ts';
import { saidOf } from '../words/said.ts';
import { TYPED_GUESS } from './offers.ts';

/**
 * Right are the words from the right seat, where that was asked: whoever says them is part of a callout.
 * @returns no marks where the deck no longer holds what was asked
 */
export function markCallout(
  resolved: Resolved,
  question: Question,
  shown: CalloutShown,
  given: WordsGiven | null,
): Marked {
  const asked = askedIn(resolved, question.variant, question.about);
  const k = asked?.part[0];
  const step = k === undefined ? undefined : asked?.situation.steps[k];
  if (!asked || k === undefined || step === undefined || asked.part.length !== 1 || step.words === null)
    return { marks: {}, g: 0, flawed: true, detail: nothing };
  const { say = '', alsoSay = [], by, id } = step.step;
  const fill = fillerFor(resolved, shown.drawn);
  const right = { id, text: fill(say), also: alsoSay.map(fill), by };
  const marked = markWords(resolved, shown, right, given, saidOf(resolved, asked.view), fill);
  const isRight = marked.wordsRight && marked.seatRight;
  const { steps, order } = asked.situation;
  const finding = findingsOf(resolved, asked, steps, order, shown.drawn)(k, given === null ? 'omitted' : 'right');
  return {
    marks: { [step.words]: given === null ? 'told' : isRight ? 'right' : 'wrong' },
    g: (shown.choices.length > 0 ? 1 / shown.choices.length : TYPED_GUESS) / Math.max(1, shown.seats.length),
    flawed: !isRight,
    detail: { form: 'callout', right: saidFinding(finding, right.text), ...marked.detail },
  };
}

const none: ChipFinding = { id: '', text: '', state: 'omitted', after: [], before: [] };
const nothing: WordsDetail = { form: 'callout', right: none, given: '', wordsRight: false };
