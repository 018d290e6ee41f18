import { foldText } from '../../lib/fold-text.ts';
import type { ResolvedProcedure, RunStep, Situation, View } from '../../subjects/resolved.ts';
import { fitting, isAuthored, type NumberedStranger, wordings } from '../run/strangers.ts';

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

const texts = new WeakMap<ResolvedProcedure, ReadonlySet<string>>();

/** Does a procedure have a step that reads so, in any situation? */
function has(p: ResolvedProcedure, text: string): boolean {
  const known = texts.get(p) ?? new Set(p.situations.flatMap(({ steps }) => steps.flatMap(wordings)));
  texts.set(p, known);
  return known.has(foldText(text));
}

const cache = new WeakMap<Situation, readonly NumberedStranger[]>();

/**
 * Strangers that cannot have been done before: of other situations of the procedure; of what the author wrote, and of
 * procedures that come later in the deck, those that no earlier one has as well.
 */
function notBefore({ procedures }: View, p: ResolvedProcedure, situation: Situation): readonly NumberedStranger[] {
  const known = cache.get(situation);
  if (known) return known;
  const here = procedures.indexOf(p);
  const list = fitting(p, situation).filter((one) => {
    if (has(p, one.text)) return true;
    const others = [...procedures.keys()].filter((i) => has(procedures[i] as ResolvedProcedure, one.text));
    return (isAuthored(p, one) || others.length > 0) && others.every((i) => i > here);
  });
  cache.set(situation, list);
  return list;
}

/**
 * What may stand beside what must be done before step k: steps that must come after it, and strangers. None that may
 * come before it as well, nor one that reads like such a step, or like step k itself.
 * @returns null where nothing must be done before it, or there is too little to choose from
 */
export function othersOf(view: View, p: ResolvedProcedure, situation: Situation, k: number): BeforeOthers | null {
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
  const strangers = notBefore(view, p, situation).filter(({ text }) => !taken.has(foldText(text)));
  const count = Math.min(OTHERS, found.length + strangers.length);
  return count < LEAST_OTHERS ? null : { right, steps: found, strangers, count };
}
