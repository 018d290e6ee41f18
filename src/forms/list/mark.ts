import type { Drawn, ListShown, Marked, WordsDetail, WordsGiven } from '../../model/form.ts';
import type { ItemKey, Mark } from '../../model/item.ts';
import type { Resolved, ResolvedProcedure, RunStep } from '../../subjects/resolved.ts';
import { sourceLine } from '../../subjects/things.ts';
import { TYPED_GUESS } from '../callout/offers.ts';
import type { Question } from '../contract.ts';
import { compact } from '../look-up.ts';
import { type Asked, askedIn } from '../run/draw.ts';
import { crewLabel, fillerFor } from '../run/extras.ts';
import { findingsOf } from '../run/finding.ts';
import { markWords, saidFinding } from '../words/mark.ts';
import { saidOf } from '../words/said.ts';

/**
 * Of a call the words and who says them are two items; a response is right only from the right seat, like a callout.
 * @returns no marks where the deck no longer holds what was asked
 */
export function markList(resolved: Resolved, question: Question, shown: ListShown, given: WordsGiven | null): Marked {
  const asked = askedIn(resolved, question.variant, question.about);
  if (!asked || asked.p.calls === null) return nothing;
  switch (shown.way) {
    case 'which':
    case 'caller':
      return markChoice(resolved, asked, shown, given);
    case 'call':
      return markCall(resolved, asked, shown, given);
    case 'response':
      return markResponse(resolved, asked, shown, given);
  }
}

/** The list itself, with what was hidden of it. */
const listFinding = (resolved: Resolved, { procedure }: ResolvedProcedure, drawn: Drawn, text: string) => {
  const { id, starts, calledBy, called, title, why } = procedure;
  const fill = fillerFor(resolved, drawn);
  return compact({
    id,
    text,
    state: 'right',
    after: [],
    before: [],
    by: calledBy === undefined ? undefined : crewLabel(resolved, calledBy),
    cue: starts === undefined ? undefined : fill(starts),
    value: text !== title ? title : called === undefined ? undefined : `Called for with “${fill(called)}”`,
    why: why === undefined ? undefined : fill(why),
    source: sourceLine(resolved.deck, procedure) ?? undefined,
  }) as WordsDetail['right'];
};

/** Of lists, or of seats, one. */
function markChoice(resolved: Resolved, { p, view }: Asked, shown: ListShown, given: WordsGiven | null): Marked {
  const { calls, procedure } = p;
  const isWhich = shown.way === 'which';
  const key = (isWhich ? calls?.cue : calls?.crew) ?? null;
  if (key === null) return nothing;
  const choice = given !== null && 'choice' in given ? given.choice : '';
  const isRight = choice === (isWhich ? procedure.id : procedure.calledBy);
  const other = isWhich && !isRight ? view.procedures.find((one) => one.procedure.id === choice)?.procedure : undefined;
  const starts = other?.starts;
  return {
    marks: { [key]: given === null ? 'told' : isRight ? 'right' : 'wrong' },
    g: 1 / Math.max(1, shown.choices.length),
    flawed: !isRight,
    detail: {
      form: 'list',
      right: listFinding(resolved, p, shown.drawn, procedure.title),
      given: shown.choices.find(({ id }) => id === choice)?.text ?? '',
      wordsRight: isRight,
      ...(starts !== undefined && { note: `That is called for at: ${fillerFor(resolved, shown.drawn)(starts)}` }),
    },
  };
}

function markCall(resolved: Resolved, { p, view }: Asked, shown: ListShown, given: WordsGiven | null): Marked {
  const { called, calledBy, id } = p.procedure;
  const words = p.calls?.words ?? null;
  if (words === null || called === undefined) return nothing;
  const fill = fillerFor(resolved, shown.drawn);
  const right = { id, text: fill(called), also: [], by: calledBy };
  const marked = markWords(resolved, shown, right, given, saidOf(resolved, view), fill);
  const { wordsRight, seatRight } = marked;
  const markOf = (isRight: boolean): Mark => (given === null ? 'told' : isRight ? 'right' : 'wrong');
  const crew = shown.seats.length > 0 ? (p.calls?.crew ?? null) : null;
  const marks: Record<ItemKey, Mark> = { [words]: markOf(wordsRight), ...(crew && { [crew]: markOf(seatRight) }) };
  const byWords = shown.choices.length > 0 ? 1 / shown.choices.length : TYPED_GUESS;
  const bySeat = 1 / Math.max(1, shown.seats.length);
  const flawed = !wordsRight || !seatRight;
  return {
    marks,
    // Of half an answer only what was right can have been guessed.
    g: !flawed || given === null ? byWords * bySeat : wordsRight ? byWords : bySeat,
    flawed,
    detail: {
      form: 'list',
      right: listFinding(resolved, p, shown.drawn, `“${right.text}”`),
      ...marked.detail,
    },
  };
}

function markResponse(resolved: Resolved, asked: Asked, shown: ListShown, given: WordsGiven | null): Marked {
  const { situation, part, view } = asked;
  const [k] = part;
  const step = k === undefined || part.length !== 1 ? undefined : (situation.steps[k] as RunStep);
  if (k === undefined || step === undefined || step.words === null) return nothing;
  const { say = '', alsoSay = [], by, id } = step.step;
  const fill = fillerFor(resolved, shown.drawn);
  const right = { id, text: fill(say), also: alsoSay.map(fill), by };
  const marked = markWords(resolved, shown, right, given, saidOf(resolved, view), fill);
  const isRight = marked.wordsRight && marked.seatRight;
  // A list is read in its order, which is asked nowhere: neither is it told here.
  const finding = findingsOf(resolved, asked, situation.steps, situation.order, shown.drawn)(k, 'right');
  return {
    marks: { [step.words]: given === null ? 'told' : isRight ? 'right' : 'wrong' },
    g: (shown.choices.length > 0 ? 1 / shown.choices.length : TYPED_GUESS) / Math.max(1, shown.seats.length),
    flawed: !isRight,
    detail: {
      form: 'list',
      right: saidFinding({ ...finding, after: [], before: [] }, right.text),
      ...marked.detail,
    },
  };
}

const nothing: Marked = {
  marks: {},
  g: 0,
  flawed: true,
  detail: {
    form: 'list',
    right: { id: '', text: '', state: 'omitted', after: [], before: [] },
    given: '',
    wordsRight: false,
  },
};
