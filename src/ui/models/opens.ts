import { dayOfIso } from '../../lib/date-words.ts';
import { type Course, courseOf } from '../words.ts';
import type { Learner } from './learner.ts';
import { opensKey, opensOf } from './own-settings.ts';

/** What opens on one day. */
export interface OpensOn {
  /** ISO date. */
  readonly date: string;
  readonly things: readonly { readonly thing: string; readonly title: string }[];
}

/** Of the decks in practice what is not open yet, by day; of one deck alone where it is named. */
export const notYetOpen = (
  learner: Pick<Learner, 'setting' | 'practised' | 'today'>,
  course: Course,
  deckId?: string,
): readonly OpensOn[] => {
  const opens = new Map(opensOf(learner.setting, course));
  const decks = learner.practised.value.filter(
    ({ stored }) => courseOf(stored.nature) === course && (deckId === undefined || stored.id === deckId),
  );
  const all = decks.flatMap(({ deck }) =>
    [
      ...(deck.procedures ?? []),
      ...(deck.limits ?? []).map(({ id, ask }) => ({ id, title: ask })),
      ...(deck.scenarios ?? []).map(({ id, title, situation }) => ({ id, title: title ?? situation })),
    ].flatMap(({ id, title }) => {
      const thing = `${deck.id}#${id}`;
      const date = opens.get(thing);
      return typeof date === 'string' && (dayOfIso(date) ?? 0) > learner.today() ? [{ thing, title, date }] : [];
    }),
  );
  return [...new Set(all.map(({ date }) => date))].sort().map((date) => ({
    date,
    things: all.filter((one) => one.date === date).map(({ thing, title }) => ({ thing, title })),
  }));
};

/** From now on these are read and asked. @throws StoreProblem */
export const openNow = (learner: Learner, course: Course, { things }: OpensOn): Promise<void> => {
  const now = new Set(things.map(({ thing }) => thing));
  const rest = opensOf(learner.setting, course).filter(([thing]) => !now.has(thing));
  return learner.set(opensKey(course), Object.fromEntries(rest));
};
