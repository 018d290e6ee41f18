import { foldText } from '../../lib/fold-text.ts';
import type { ResolvedProcedure, RunStep, Situation } from '../../subjects/resolved.ts';
import { fitting, type NumberedStranger } from '../run/strangers.ts';

/** Choices beside the right one, at most and at least. */
const OTHERS = 4;
const LEAST_OTHERS = 3;

export interface BeforeOthers {
  /** Steps that must be done directly before it: one of them is shown. */
  readonly right: readonly number[];
  /** Steps that must come after it, the nearest first. */
  readonly steps: readonly number[];
  readonly strangers: readonly NumberedStranger[];
  /** How many wrong ones are shown. */
  readonly count: number;
}

const wordings = ({ text, step }: RunStep): string[] =>
  [text, ...(step.alsoDo ?? []), ...(step.alsoSay ?? [])].map(foldText);

/**
 * What may stand beside what must be done before step k: steps that must come after it, and strangers. None that may
 * come before it as well, nor one that reads like such a step, or like step k itself; nor what an earlier procedure of
 * the deck has, which was done before it, too, nor what another variant does in place of a step of this one.
 * @returns null where nothing must be done before it, or there is too little to choose from
 */
export function othersOf(p: ResolvedProcedure, situation: Situation, k: number): BeforeOthers | null {
  const { steps, order } = situation;
  const right = order.covers.flatMap(([a, b]) => (b === k ? [a] : []));
  if (right.length === 0) return null;
  const isAfter = (i: number): boolean => order.before[k]?.[i] === true;
  const taken = new Set(steps.flatMap((step, i) => (isAfter(i) ? [] : wordings(step))));
  const found: number[] = [];
  for (const i of [...steps.keys()].filter(isAfter).sort((a, b) => a - b)) {
    const words = wordings(steps[i] as RunStep);
    if (words.some((one) => taken.has(one))) continue;
    for (const one of words) taken.add(one);
    found.push(i);
  }
  const strangers = [...new Map(fitting(p, situation).map((one) => [foldText(one.text), one])).values()].filter(
    ({ text, from, earlier }) => from !== 'variant' && earlier !== true && !taken.has(foldText(text)),
  );
  const count = Math.min(OTHERS, found.length + strangers.length);
  return count < LEAST_OTHERS ? null : { right, steps: found, strangers, count };
}
