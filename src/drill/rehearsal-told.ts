import type { Blame } from '../forms/contract.ts';
import { mark } from '../forms/registry.ts';
import { isUnknown } from '../log/line.ts';
import type { AnswerEntry } from '../model/entry.ts';
import type { ChipFinding, Given, Offer, Shown } from '../model/form.ts';
import type { Sure } from '../model/item.ts';
import type { AnyEntry } from '../model/ports.ts';
import type { Resolved } from '../subjects/resolved.ts';
import { answerEntry } from './answer-entry.ts';
import type { DrillEntry } from './events.ts';
import type { Rehearsal } from './rehearsal.ts';
import type { Told } from './types.ts';

export interface RehearsalAnswer {
  /** null: Don't know. */
  readonly given: Given | null;
  readonly sure: Sure;
  /** Ids of the steps named as not sure; empty: all. */
  readonly unsure: readonly string[];
  /** Visible time from question to answer, ms. */
  readonly ms: number;
}

/**
 * Marks an answer, for the log. Its verdict is for the end: see `toldOf`.
 * @param at index of the question
 * @param blame recall chance of an item, 0..1: of equal faults the less certain step is blamed
 * @returns null where the deck no longer holds the question
 */
export const answerIn = (
  resolved: Resolved,
  { id, deck, seat, questions }: Rehearsal,
  at: number,
  { given, sure, unsure, ms }: RehearsalAnswer,
  blame: Blame,
): DrillEntry | null => {
  const put = questions[at];
  if (put === undefined || resolved.ref !== deck) return null;
  const said = { ...put, given, sure, unsure, ms, drill: id, ...(seat !== null && { seat }) };
  return answerEntry(resolved, said, blame)?.entry ?? null;
};

/** Of a limit or a decision a rehearsal asks one question. */
const nameOf = ({ form, about }: Pick<Offer, 'form' | 'about'>): string =>
  [form, about.thing, about.case ?? ''].join('/');

/** Does an entry of the log belong to a rehearsal, its queries included? */
export const isOf = ({ id }: Pick<Rehearsal, 'id'>, entry: AnyEntry): boolean =>
  !isUnknown(entry) && (entry.k === 'answer' || entry.k === 'void') && entry.drill === id;

/**
 * What was answered, from the log, each as it was marked then.
 * @param entries of the rehearsal, in the order of the log
 * @returns one a question; null where it was not answered
 */
export const toldOf = (
  resolved: Resolved,
  { questions }: Rehearsal,
  entries: readonly AnyEntry[],
): readonly (Told | null)[] => {
  const answers = new Map<string, AnswerEntry>();
  const queried = new Set<string>();
  for (const entry of entries) {
    if (entry.k === 'answer') answers.set(nameOf(entry as AnswerEntry), entry as AnswerEntry);
    if (entry.k === 'void' && 'of' in entry) queried.add(entry.of);
  }
  return questions.map(({ offer }) => {
    const entry = answers.get(nameOf(offer));
    if (entry === undefined) return null;
    const { deck, sure, marks } = entry;
    const shown = entry.shown as Shown;
    const given = entry.given as Given | null;
    const marked = mark(resolved, offer, shown, given, (key) => (marks[key] === 'wrong' ? 0 : 1));
    return {
      kind: 'verdict',
      deck,
      offer,
      shown,
      given,
      sure,
      unsure: entry.unsure ?? [],
      marked: { ...marked, marks },
      verdicts: {},
      entry: entry.id,
      ...(queried.has(entry.id) && { voided: 'query' as const }),
    };
  });
};

/**
 * What the run found of the learner's own steps: those of the seat, for a pilot's seat also those that both do.
 * @returns in the order of the procedure; empty where no seat is taken, or it has no step
 */
export const ownSteps = (
  resolved: Resolved,
  { variant, procedure, situation, seat }: Rehearsal,
  { marked: { detail } }: Told,
): readonly ChipFinding[] => {
  if (detail.form !== 'run' || seat === null) return [];
  const steps = resolved.views
    .find(({ id }) => id === variant)
    ?.procedures.find((one) => one.procedure.id === procedure)
    ?.situations.find(({ id }) => id === situation)?.steps;
  const pilot = seat === 'PF' || seat === 'PM';
  const own = new Set(steps?.flatMap(({ step: { id, by } }) => (by === seat || (pilot && by === 'both') ? [id] : [])));
  return detail.chips.filter(({ id }) => own.has(id));
};
