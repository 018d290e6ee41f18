import { foldText } from '../../lib/fold-text.ts';
import type { ResolvedProcedure, RunStep, Situation } from '../../subjects/resolved.ts';
import { fitting, type NumberedStranger, wordings } from '../run/strangers.ts';

/** Steps given before the one asked. */
const CONTEXT = 3;
/** Choices beside the right one. */
const OTHERS = 3;
/** With fewer it is hardly more than a toss. */
const LEAST_OTHERS = 2;

export interface Others {
  /** Indices of the steps given as done, in order. */
  readonly before: readonly number[];
  /** Steps of the procedure that cannot come next, the likeliest to be taken for it first. */
  readonly steps: readonly number[];
  readonly strangers: readonly NumberedStranger[];
  /** How many are shown. */
  readonly count: number;
}

/**
 * What may stand beside step k. The learner sees but the last steps done, so a wrong choice must be one whatever else
 * was done before them: a step that must come after step k, or one that must have come before those given. A step that
 * may come at that point as well is never among them, nor one that reads like it.
 * @returns null where there is too little to choose from
 */
export function othersOf(p: ResolvedProcedure, situation: Situation, k: number): Others | null {
  const { steps, order } = situation;
  const before = [...steps.keys()].slice(Math.max(0, k - CONTEXT), k);
  const isAfter = (i: number): boolean => order.before[k]?.[i] === true;
  const isDone = (i: number): boolean => before.some((c) => order.before[i]?.[c]);
  const isWrong = (i: number): boolean => i !== k && !before.includes(i) && (isAfter(i) || isDone(i));
  // What reads like a step that may come next, or like one that was given, is left out.
  const taken = new Set(steps.flatMap((s, i) => (isWrong(i) ? [] : wordings(s))));
  const found: number[] = [];
  for (const i of [...steps.keys()]
    .filter(isWrong)
    .sort((a, b) => Number(isDone(a)) - Number(isDone(b)) || Math.abs(a - k) - Math.abs(b - k))) {
    const words = wordings(steps[i] as RunStep);
    if (words.some((w) => taken.has(w))) continue;
    for (const w of words) taken.add(w);
    found.push(i);
  }
  const strangers = fitting(p, situation);
  const count = Math.min(OTHERS, found.length + distinct(strangers).length);
  return count < LEAST_OTHERS ? null : { before, steps: found, strangers: distinct(strangers), count };
}

const distinct = (list: readonly NumberedStranger[]): NumberedStranger[] => [
  ...new Map(list.map((one) => [foldText(one.text), one])).values(),
];
