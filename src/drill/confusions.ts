import type { ItemKey } from '../model/item.ts';
import type { Resolved } from '../subjects/resolved.ts';
import { type Answer, isOfDeck, type WrongAnswer, wrongAnswer } from './wrong-answer.ts';

/** One thing taken for another. */
export interface Confusion extends Omit<WrongAnswer, 'others' | 'tells' | 'drawn'> {
  /** So often in these answers. */
  readonly times: number;
  /** The other was taken for this one too. */
  readonly bothWays: boolean;
}

/**
 * Which limit was given for which, which rule's outcome for which, which step for which: of wrong answers those that mean something. A
 * plain choice among options is a confusion by itself. Both ways first, then the most often. Answers that their deck no
 * longer holds are left out.
 */
export const confusionsOf = (answers: Iterable<Answer>, decks: readonly Resolved[]): Confusion[] => {
  const all = [...answers].flatMap((answer) => {
    const resolved = decks.find((one) => isOfDeck(one, answer));
    const found = resolved === undefined ? null : wrongAnswer(resolved, answer);
    return found?.tells === true ? [found] : [];
  });
  const same = new Map<string, WrongAnswer[]>();
  for (const one of all) {
    const name = JSON.stringify([one.key, one.given]);
    const list = same.get(name);
    if (list === undefined) same.set(name, [one]);
    else list.push(one);
  }
  const isTakenFor = (a: ItemKey, b: ItemKey) => all.some(({ key, others }) => key === a && others.includes(b));
  return [...same.values()]
    .map((list): Confusion => {
      const { others, tells: _, drawn: __, ...told } = list[0] as WrongAnswer;
      return { ...told, times: list.length, bothWays: others.some((other) => isTakenFor(other, told.key)) };
    })
    .sort((a, b) => Number(b.bothWays) - Number(a.bothWays) || b.times - a.times);
};
