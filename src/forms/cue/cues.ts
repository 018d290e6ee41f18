import { foldText } from '../../lib/fold-text.ts';
import type { Drawn } from '../../model/form.ts';
import { asksOrder } from '../../subjects/procedure/words.ts';
import type { PartialOrder, Resolved, ResolvedProcedure, RunStep, Situation, View } from '../../subjects/resolved.ts';
import { signTells } from '../callout/context.ts';
import { extrasOf } from '../run/extras.ts';
import { wordings } from '../run/strangers.ts';

/** A step with its cue, as a view has it. */
export interface Cued {
  readonly p: ResolvedProcedure;
  readonly step: RunStep;
  /** Cue in words, values of the day as their labels: compared, never shown. */
  readonly cue: string;
}

const known = new WeakMap<View, readonly Cued[]>();

/** All cues of a view, each step once, in authored order: of procedures that are done from memory or as a flow. */
export function cuesOf(resolved: Resolved, view: View): readonly Cued[] {
  const before = known.get(view);
  if (before !== undefined) return before;
  const list: Cued[] = [];
  const seen = new Set<string>();
  for (const p of view.procedures) {
    if (!asksOrder(p.procedure)) continue;
    for (const step of p.situations.flatMap(({ steps }) => steps)) {
      const name = `${p.procedure.id} ${step.step.id}`;
      if (step.step.cue === undefined || seen.has(name)) continue;
      seen.add(name);
      const cue = cueWords(resolved, view, { p, step }, {});
      if (cue !== '') list.push({ p, step, cue: foldText(cue) });
    }
  }
  known.set(view, list);
  return list;
}

export const cueWords = (resolved: Resolved, view: View, { p, step }: Pick<Cued, 'p' | 'step'>, drawn: Drawn): string =>
  extrasOf(resolved, view, p, step, drawn).cue ?? '';

/** Does the cue say the callout: "85 kt" for "Eighty-five", V1 for "V one"? */
export const tellsCallout = ({ step: { step } }: Pick<Cued, 'step'>, cue: string): boolean =>
  step.say !== undefined && [step.say, ...(step.alsoSay ?? [])].some((words) => signTells(words, cue));

/**
 * Names the callout at step k by the one before it, its own words left out: nobody counts callouts.
 * @returns null where that is not plain: another one may come before it or after it
 */
export function calloutNamed({ steps, order }: Situation, k: number): string | null {
  const isBefore = (i: number, of: number): boolean => order.before[i]?.[of] === true;
  const callouts = [...steps.keys()].filter((i) => steps[i]?.step.say !== undefined);
  if (!callouts.every((i) => i === k || isBefore(i, k) || isBefore(k, i))) return null;
  if (callouts.length === 1) return 'The only callout in this procedure';
  const earlier = callouts.filter((i) => isBefore(i, k));
  if (earlier.length === 0) return 'The first callout in this procedure';
  const last = earlier.find((i) => earlier.every((other) => other === i || isBefore(other, i)));
  return last === undefined ? null : `The callout after ${steps[last]?.text ?? ''}`;
}

const hasWords = ({ step }: Cued): boolean => step.step.cue?.text !== undefined;

/** In some situation of one procedure. */
const inSome = (a: Cued, b: Cued, is: (order: PartialOrder, a: number, b: number) => boolean): boolean =>
  a.p === b.p &&
  a.p.situations.some(({ steps, order }) => {
    const at = ({ step }: Cued): number => steps.findIndex((one) => one.step.id === step.step.id);
    return at(a) >= 0 && at(b) >= 0 && is(order, at(a), at(b));
  });

/** Words may tell that what comes directly before was done or said, as "V1 called" behind "V1 126 kt", a number never. */
const tellsOf = (later: Cued, earlier: Cued): boolean =>
  hasWords(later) &&
  inSome(earlier, later, ({ covers }, a, b) => covers.some(([one, next]) => one === a && next === b));

/** Beside each other, directly behind the same, and called for by words: "with the call", "the order in the call". */
const areDueTogether = (a: Cued, b: Cued): boolean =>
  hasWords(a) &&
  hasWords(b) &&
  inSome(a, b, ({ before, covers }, i, k) => {
    const behind = (of: number): string => `${covers.flatMap(([one, next]) => (next === of ? [one] : []))}`;
    return before[i]?.[k] !== true && before[k]?.[i] !== true && behind(i) === behind(k);
  });

const mayBeOneMoment = (a: Cued, b: Cued): boolean => tellsOf(a, b) || tellsOf(b, a) || areDueTogether(a, b);

/**
 * Others by nearness: of the same procedure first. No two of them have one cue, none has that of the step asked, nor one
 * that may name the same moment.
 */
export const otherCues = (all: readonly Cued[], asked: Cued): Cued[] => apart(all, asked, mayBeOneMoment);

function apart(all: readonly Cued[], asked: Cued, isOne: (asked: Cued, other: Cued) => boolean): Cued[] {
  const taken = new Set([asked.cue, ...all.filter((one) => isOne(asked, one)).map(({ cue }) => cue)]);
  const others: Cued[] = [];
  for (const one of [...all.filter(({ p }) => p === asked.p), ...all.filter(({ p }) => p !== asked.p)]) {
    // The same step in another procedure, by `use`, waits for the same.
    if (taken.has(one.cue) || one.step.step.id === asked.step.step.id) continue;
    taken.add(one.cue);
    others.push(one);
  }
  return others;
}

/**
 * Steps that another cue calls for, at another moment, and that do not read like the one asked or like another with its
 * cue.
 */
export function otherSteps(all: readonly Cued[], asked: Cued): Cued[] {
  const same = all.filter(({ cue }) => cue === asked.cue);
  const taken = new Set(same.flatMap(({ step }) => wordings(step)));
  const others: Cued[] = [];
  for (const one of apart(all, asked, areDueTogether)) {
    const words = wordings(one.step);
    if (words.some((text) => taken.has(text))) continue;
    for (const text of words) taken.add(text);
    others.push(one);
  }
  return others;
}
