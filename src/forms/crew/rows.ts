import { foldText } from '../../lib/fold-text.ts';
import type { Id } from '../../model/deck.ts';
import type { Choice } from '../../model/form.ts';
import type { Resolved, RunStep, Situation } from '../../subjects/resolved.ts';
import { namesSeat, seatsOf } from './seats.ts';

const known = new WeakMap<Situation, ReadonlyMap<number, Id>>();

/**
 * Steps of a situation of which it can be asked who does them, with their seats. None whose words name the seat, nor
 * one that reads like a step which another does: which of the two is meant could not be told.
 * @returns index → seat id, rising
 */
export function dealable(resolved: Resolved, situation: Situation): ReadonlyMap<number, Id> {
  const before = known.get(situation);
  if (before !== undefined) return before;
  const seats = new Map(seatsOf(resolved).map((seat) => [seat.id, seat]));
  const doers = new Map<string, Set<string>>();
  for (const { step, text } of situation.steps) {
    const folded = foldText(text);
    doers.set(folded, (doers.get(folded) ?? new Set()).add(step.by ?? ''));
  }
  const found = new Map<number, Id>();
  for (const [i, one] of situation.steps.entries()) {
    const seat = seatOf(one, seats);
    if (seat !== null && doers.get(foldText(one.text))?.size === 1) found.set(i, seat);
  }
  known.set(situation, found);
  return found;
}

/** Who does a step; null where it cannot be asked, or its own words say it. */
export const seatOf = (
  { crew, text, step }: Pick<RunStep, 'crew' | 'text' | 'step'>,
  seats: ReadonlyMap<Id, Choice>,
): Id | null => {
  const seat = step.by === undefined ? undefined : seats.get(step.by);
  return crew === null || seat === undefined || seats.size < 2 || namesSeat(text, seat) ? null : seat.id;
};

/** Rows with two answers at least: else one tap would be as good as another. */
export const isMixed = (rows: readonly number[], dealt: ReadonlyMap<number, Id>): boolean =>
  new Set(rows.map((i) => dealt.get(i))).size > 1;
