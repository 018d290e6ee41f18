import type { ChipFinding, ChoiceGiven, CueShown, Marked, NextDetail } from '../../model/form.ts';
import type { Resolved } from '../../subjects/resolved.ts';
import type { Question } from '../contract.ts';
import { compact } from '../look-up.ts';
import { askedIn } from '../run/draw.ts';
import { fillerFor } from '../run/extras.ts';
import { findingsOf } from '../run/finding.ts';
import { cuesOf, cueWords } from './cues.ts';

/**
 * Marks which cue was chosen for a step, or which step for a cue. `g` is one in as many as were shown.
 * @returns no marks where the deck no longer holds what was asked
 */
export function markCue(resolved: Resolved, question: Question, shown: CueShown, given: ChoiceGiven | null): Marked {
  const asked = askedIn(resolved, question.variant, question.about);
  const k = asked?.part[0];
  const step = k === undefined ? undefined : asked?.situation.steps[k];
  if (!asked || k === undefined || step === undefined || asked.part.length !== 1 || step.cue === null)
    return { marks: {}, g: 0, flawed: true, detail: nothing };
  const { steps, order } = asked.situation;
  const isRight = given !== null && given.choice === step.step.id;
  const finding = findingsOf(resolved, asked, steps, order, shown.drawn)(k, given === null ? 'omitted' : 'right');
  const all = cuesOf(resolved, asked.view);
  const wrongOf = (choice: string): ChipFinding => {
    const other = all.find((cued) => cued.step.step.id === choice);
    const text = shown.choices.find(({ id }) => id === choice)?.text ?? '';
    const cue = other === undefined ? '' : cueWords(resolved, asked.view, other, shown.drawn);
    const words = other === undefined ? '' : fillerFor(resolved, shown.drawn)(other.step.text);
    // Of a wrong cue what it calls for, of a wrong step what it waits for.
    const note =
      other === undefined ? undefined : shown.way === 'trigger' ? `That calls for: ${words}` : `It waits for: ${cue}`;
    return compact({ id: choice, text, state: 'misplaced', after: [], before: [], note }) as ChipFinding;
  };
  const detail: NextDetail = {
    form: 'cue',
    right: finding,
    ...(given !== null && !isRight && { wrong: wrongOf(given.choice) }),
  };
  return {
    marks: { [step.cue]: given === null ? 'told' : isRight ? 'right' : 'wrong' },
    g: 1 / Math.max(1, shown.choices.length),
    flawed: !isRight,
    detail,
  };
}

const nothing: NextDetail = { form: 'cue', right: { id: '', text: '', state: 'omitted', after: [], before: [] } };
