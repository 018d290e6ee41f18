import { foldText } from '../../lib/fold-text.ts';
import { type Random, shuffled } from '../../lib/random.ts';
import { areTwins } from '../../lib/twin.ts';
import type { ResolvedProcedure, RunStep, Situation } from '../../subjects/resolved.ts';

export interface NumberedStranger {
  /** `stranger-<n>`, n = place in the procedure's list: the same in every question. */
  readonly id: string;
  readonly text: string;
  readonly note?: string;
}

/** What a step reads like, also in other words that are right; folded. */
export const wordings = ({ text, step }: Pick<RunStep, 'text' | 'step'>): string[] =>
  [text, ...(step.alsoDo ?? []), ...(step.alsoSay ?? [])].map(foldText);

/** Did the author write it for this procedure? */
export const isAuthored = ({ procedure }: ResolvedProcedure, { id }: Pick<NumberedStranger, 'id'>): boolean =>
  Number(id.slice('stranger-'.length)) < (procedure.strangers ?? []).length;

const cache = new WeakMap<Situation, readonly NumberedStranger[]>();

/**
 * Strangers that read like no step of the situation, nor like an accepted wording of one: "Hands away" beside "Hand away"
 * is told apart only where the author wrote it to be.
 */
export function fitting(p: ResolvedProcedure, situation: Situation): readonly NumberedStranger[] {
  const known = cache.get(situation);
  if (known) return known;
  const real = new Set(situation.steps.flatMap(wordings));
  const words = [...real].map((text) => text.split(' '));
  const list = p.strangers.flatMap((s, n) => {
    const [one, text] = [{ id: `stranger-${n}`, ...s }, foldText(s.text)];
    if (real.has(text)) return [];
    const own = text.split(' ');
    return !isAuthored(p, one) && words.some((other) => areTwins(own, other)) ? [] : [one];
  });
  cache.set(situation, list);
  return list;
}

/** Some of them: the author's first, since they were written for this procedure; which of the rest is by lot. */
export function pickStrangers(
  p: ResolvedProcedure,
  situation: Situation,
  count: number,
  random: Random,
): NumberedStranger[] {
  const list = fitting(p, situation);
  const own = list.filter((s) => isAuthored(p, s));
  const rest = list.filter((s) => !own.includes(s));
  return [...shuffled(random, own), ...shuffled(random, rest)].slice(0, count);
}
