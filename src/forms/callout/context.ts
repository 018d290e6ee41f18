import { foldText } from '../../lib/fold-text.ts';
import type { Drawn } from '../../model/form.ts';
import type { Resolved, ResolvedProcedure, RunStep, Situation, View } from '../../subjects/resolved.ts';
import { extrasOf } from '../run/extras.ts';
import { foldWords } from '../words/fold.ts';
import { areAlike, isSaidIn } from '../words/match.ts';

/** What a callout is asked by: what was said or done that it answers, its cue, what is done with it, what came before. */
export interface Sign {
  readonly kind: 'answers' | 'cue' | 'action' | 'next';
  /** Values of the day not filled in but for a cue; '' for `next`. */
  readonly text: string;
}

/** Steps of which the texts are shown before. */
const CONTEXT = 2;

const cueOf = (resolved: Resolved, view: View, p: ResolvedProcedure, step: RunStep, drawn: Drawn): string =>
  extrasOf(resolved, view, p, step, drawn).cue ?? '';

/**
 * What the callout at step k is asked by: the first that is authored, does not hold its words and calls for no other
 * ones in this situation. Without any, that it is what is said next after the steps before it, where that is but one.
 * @returns null where nothing tells it, or everything tells its words
 */
export function signOf(
  resolved: Resolved,
  view: View,
  p: ResolvedProcedure,
  { steps, order }: Situation,
  k: number,
): Sign | null {
  const step = steps[k] as RunStep;
  const say = step.step.say ?? '';
  const others = steps.filter(({ step: { say: words } }, i) => i !== k && words !== undefined && !areAlike(words, say));
  const one = (kind: Sign['kind'], text: string, isSame: (other: RunStep) => boolean): Sign | null =>
    text === '' || signTells(say, text) || others.some(isSame) ? null : { kind, text };
  const { answers } = step.step;
  const heard = answers === undefined ? undefined : steps.find((other) => other.step.id === answers);
  const cue = cueOf(resolved, view, p, step, {});
  const action = step.step.do ?? '';
  const isNext = (): boolean => {
    const before = steps[k - 1];
    return (
      before !== undefined &&
      !isSaidIn(say, before.text) &&
      steps.every(
        (other, i) =>
          i === k || other.step.say === undefined || order.before[i]?.[k] === true || order.before[k]?.[i] === true,
      )
    );
  };
  return (
    one('answers', heard?.text ?? '', (other) => other.step.answers === answers) ??
    one('cue', cue, (other) => foldText(cueOf(resolved, view, p, other, {})) === foldText(cue)) ??
    one('action', action, (other) => foldText(other.step.do ?? '') === foldText(action)) ??
    (isNext() ? { kind: 'next', text: '' } : null)
  );
}

/** Texts of the last steps done: none that holds the words asked, nor what the question says again. */
export function beforeOf({ steps }: Situation, k: number): RunStep[] {
  const { say = '', answers } = (steps[k] as RunStep).step;
  return steps
    .slice(Math.max(0, k - CONTEXT), k)
    .filter(({ step, text }) => step.id !== answers && !isSaidIn(say, text));
}

/** A name that a callout shares with what is asked about is no answer; a whole sentence is. */
const MANY_WORDS = 3;

/** Does a line that cannot be left out say the words? */
export const tellsWords = (words: string, line: string): boolean =>
  foldWords(words).words.length >= MANY_WORDS
    ? isSaidIn(words, line)
    : foldWords(words).whole === foldWords(line).whole;

/**
 * Does what a callout is asked by say its words? One word that is no number, somewhere in a sentence, is no answer:
 * "a reason to stop is recognised".
 */
export function signTells(words: string, sign: string): boolean {
  const own = foldWords(words).words;
  const isOne = own.length === 1 && !/^\d/.test(own[0]?.key ?? '');
  return isSaidIn(words, sign) && !(isOne && foldWords(sign).words.length >= MANY_WORDS);
}
