import { foldText } from '../../lib/fold-text.ts';
import type { FactLimit, Id, NumberLimit } from '../../model/deck.ts';
import { isFact, isNumberLimit } from '../../model/deck.ts';
import type { About } from '../../model/form.ts';
import type { ItemKey } from '../../model/item.ts';
import { bandOf } from '../../subjects/band.ts';
import { asksOrder } from '../../subjects/procedure/words.ts';
import type { Resolved, ResolvedCase, ResolvedLimit, RunStep, Situation, View } from '../../subjects/resolved.ts';
import { seatOf } from '../crew/rows.ts';
import { seatsOf } from '../crew/seats.ts';
import { limitIn, procedureIn } from '../look-up.ts';
import { isRight } from '../right.ts';
import { type Asked, askedIn } from '../run/draw.ts';
import type { Pair } from './pairs.ts';

/** A limit that has another value in each view. */
export interface LimitPair {
  readonly kind: 'limit';
  readonly limit: NumberLimit | FactLimit;
  readonly cases: readonly [ResolvedCase, ResolvedCase];
}
/** A step that someone else does in each view: two steps of the same words, each confined to its variant. */
export interface CrewPair {
  readonly kind: 'crew';
  readonly asked: readonly [Asked, Asked];
  readonly steps: readonly [RunStep, RunStep];
}

export const keysOf = (one: LimitPair | CrewPair): ItemKey[] =>
  one.kind === 'limit' ? one.cases.map(({ key }) => key) : one.steps.flatMap(({ crew }) => crew ?? []);

/** Cases of a limit that differ between two views, under the same circumstances. */
export function limitPairs({ first, second }: Pair, thing: Id): LimitPair[] {
  const [a, b] = [limitIn(first, thing), limitIn(second, thing)];
  if (a === undefined || b === undefined) return [];
  const { limit } = a;
  if (!isFact(limit) && !(isNumberLimit(limit) && limit.sense !== 'from-to')) return [];
  return a.cases.flatMap((one): LimitPair[] => {
    const other = sameCircumstances(a, b, one);
    return other !== null && differ(limit, one, other) ? [{ kind: 'limit', limit, cases: [one, other] }] : [];
  });
}

/** The one case of the other view that holds when this one does; null where there is none, or more than one. */
function sameCircumstances(a: ResolvedLimit, b: ResolvedLimit, { given }: ResolvedCase): ResolvedCase | null {
  const alike = (limit: ResolvedLimit): ResolvedCase[] => limit.cases.filter((one) => one.given === given);
  const [found] = alike(b);
  if (found === undefined || alike(a).length > 1 || alike(b).length > 1) return null;
  // What the default case is not about must be the same as well.
  const others = (limit: ResolvedLimit): string => limit.cases.map((one) => one.given).join('\n');
  return given !== '' || others(a) === others(b) ? found : null;
}

/** Neither would be taken for right in place of the other. */
function differ(limit: NumberLimit | FactLimit, a: ResolvedCase, b: ResolvedCase): boolean {
  if (isFact(limit)) {
    const words = ({ value }: ResolvedCase): string => foldText(limit.options[value as Id] ?? String(value));
    return words(a) !== words(b);
  }
  const [one, two] = [a, b].map(({ value }) => (value as readonly number[])[0] as number);
  const band = bandOf(limit.accept);
  const taken = (typed = Number.NaN, right = Number.NaN): boolean => isRight(typed, right, band, limit.show);
  return !taken(one, two) && !taken(two, one);
}

/** Steps of a procedure that someone else does in each view. */
export function crewPairs(resolved: Resolved, pair: Pair, thing: Id): CrewPair[] {
  const [a, b] = [pair.first, pair.second].map((view) => procedureIn(view, thing));
  if (a === undefined || b === undefined || !asksOrder(a.procedure)) return [];
  const found = a.situations.flatMap((situation) => {
    const there = b.situations.find(({ id }) => id === situation.id);
    return there === undefined ? [] : stepPairs(resolved, situation, there).map((steps) => ({ situation, steps }));
  });
  // A situation is numbered by its conditions: where they are others, it is another one.
  if (found.length === 0 || JSON.stringify(a.conditions) !== JSON.stringify(b.conditions)) return [];
  return found.flatMap(({ situation, steps }): CrewPair[] => {
    const asked = (view: View, { step }: RunStep) =>
      askedIn(resolved, view.id, { thing, situation: situation.id, part: [step.id] });
    const [one, two] = [asked(pair.first, steps[0]), asked(pair.second, steps[1])];
    return one && two ? [{ kind: 'crew', asked: [one, two], steps }] : [];
  });
}

/** Steps of the same words with another seat in each of two situations. */
function stepPairs(resolved: Resolved, here: Situation, there: Situation): CrewPair['steps'][] {
  const both = new Set(there.steps.map(({ step }) => step.id));
  const seats = new Map(seatsOf(resolved).map((seat) => [seat.id, seat]));
  return here.steps.flatMap((one): CrewPair['steps'][] => {
    // Who does a step is written at the step: the same step is done by the same one.
    const other = both.has(one.step.id) ? null : onlyOne(there, one.text);
    if (other === null || onlyOne(here, one.text) !== one) return [];
    const [a, b] = [seatOf(one, seats), seatOf(other, seats)];
    return a !== null && b !== null && a !== b ? [[one, other]] : [];
  });
}

/** The step that reads so; null where there is none, or more than one. */
function onlyOne({ steps }: Situation, text: string): RunStep | null {
  const alike = steps.filter((one) => foldText(one.text) === foldText(text));
  return alike.length === 1 ? (alike[0] as RunStep) : null;
}

/** What a question is about; null where the deck does not hold it. */
export function askedDifference(resolved: Resolved, pair: Pair, about: About): LimitPair | CrewPair | null {
  if (about.part === undefined) {
    return limitPairs(pair, about.thing).find(({ cases }) => cases[0].id === about.case) ?? null;
  }
  return (
    crewPairs(resolved, pair, about.thing).find(
      ({ asked: [one], steps: [step] }) =>
        one.situation.id === (about.situation ?? '') && step.step.id === about.part?.[0],
    ) ?? null
  );
}
