import { foldText } from '../../lib/fold-text.ts';
import type { Choice } from '../../model/form.ts';
import { asksOrder, tellsCall } from '../../subjects/procedure/words.ts';
import type { Resolved, ResolvedProcedure, RunStep, Situation, View } from '../../subjects/resolved.ts';
import { signTells } from '../callout/context.ts';
import { areAlike, isSaidIn } from '../words/match.ts';
import { LEAST_MISSES } from '../words/near.ts';
import { saidIn } from '../words/said.ts';
import { seatsAsked } from '../words/seats.ts';

export const listsOf = (view: View): ResolvedProcedure[] =>
  view.procedures.filter(({ procedure, situations }) => !asksOrder(procedure) && situations.length > 0);

const startsOf = ({ procedure: { starts } }: ResolvedProcedure): string => foldText(starts ?? '');

/** Of lists that could be meant so many are shown, the one asked among them. */
const MOST_LISTS = 5;

/**
 * Lists that are not called for then, for the question which one is. None reads like it, none begins alike.
 * @returns null where there are too few, or what it begins with says its name
 */
export function otherLists(view: View, p: ResolvedProcedure): ResolvedProcedure[] | null {
  const { starts = '', title } = p.procedure;
  if (p.calls?.cue == null || isSaidIn(title, starts) || tellsCall(title, starts)) return null;
  const taken = new Set([foldText(title)]);
  const others: ResolvedProcedure[] = [];
  for (const other of listsOf(view)) {
    if (other === p || other.procedure.starts === undefined) continue;
    // Two that begin alike would both be right.
    if (startsOf(other) === startsOf(p)) return null;
    const name = foldText(other.procedure.title);
    if (!taken.has(name)) others.push(other);
    taken.add(name);
  }
  return others.length < LEAST_MISSES ? null : others;
}
export const mostOthers = MOST_LISTS - 1;

/** How a list is named while its call is asked: by its title, or by what it begins with where the title says the call. */
export function callSign(view: View, p: ResolvedProcedure): 'title' | 'starts' | null {
  const { called, title, starts } = p.procedure;
  if (called === undefined || p.calls?.words == null) return null;
  const isStart = starts !== undefined && tellsCall(called, starts);
  if (!tellsCall(called, title)) return isStart ? null : 'title';
  if (starts === undefined || isStart) return null;
  const isAlone = listsOf(view).every(
    (other) => other === p || startsOf(other) !== startsOf(p) || areAlike(other.procedure.called ?? '', called),
  );
  return isAlone ? 'starts' : null;
}

/** Who calls for a list is asked only where it is an item: not where the learner leaves it out. */
export const callSeats = ({ deck }: Resolved, { calls, procedure }: ResolvedProcedure): readonly Choice[] =>
  calls?.crew == null ? [] : seatsAsked(deck, procedure.calledBy);

/** What else calls for a list; the rest of what is said comes after it. */
export const callPool = (view: View, { procedure: { id } }: ResolvedProcedure): Choice[] =>
  saidIn(view).flatMap((one) => (one.step !== undefined || one.id === id ? [] : [{ id: one.id, text: one.text }]));

/** The challenge of a response, before values are filled in; null where nothing calls for it. */
function challengeText({ steps }: Situation, { step }: RunStep): string | null {
  const asked = step.answers === undefined ? undefined : steps.find((other) => other.step.id === step.answers);
  return asked?.step.say ?? asked?.step.do ?? step.do ?? null;
}

/**
 * The challenge to which the step at k is the response.
 * @returns null where there is none, it says the response, or another response is given to the same challenge
 */
export function challengeOf(p: ResolvedProcedure, situation: Situation, k: number): string | null {
  const step = situation.steps[k] as RunStep;
  const { say } = step.step;
  if (p.done !== 'challenge-response' || say === undefined) return null;
  const challenge = challengeText(situation, step);
  if (challenge === null || signTells(say, challenge)) return null;
  const isShared = situation.steps.some((other, i) => {
    if (i === k || other.step.say === undefined || areAlike(other.step.say, say)) return false;
    const text = challengeText(situation, other);
    return text !== null && foldText(text) === foldText(challenge);
  });
  return isShared ? null : challenge;
}

/** Other responses of the lists of a view. */
export const responsePool = (view: View, { step: { id } }: RunStep): Choice[] =>
  saidIn(view).flatMap((one) =>
    one.step === undefined || one.id === id || one.p.done !== 'challenge-response'
      ? []
      : [{ id: one.id, text: one.text }],
  );

export const responseSeats = ({ deck }: Resolved, { crew, step }: RunStep): readonly Choice[] =>
  crew === null ? [] : seatsAsked(deck, step.by);
