import { lastLook, lastWalk, type WhyRead } from '../../drill/last-look.ts';
import type { Walk } from '../../drill/walk.ts';
import { courseOf } from '../words.ts';
import type { Learner } from './learner.ts';
import { groupTitle } from './titles.ts';

export interface ToRead {
  readonly key: string;
  readonly why: WhyRead;
  /** Procedure, or where else it is from. */
  readonly group: string;
  /** It was never met. */
  readonly isNew: boolean;
  readonly walk: Walk;
}

/** What is read in the last look, of the course that is practised. */
export const lastLookOf = (learner: Learner): readonly ToRead[] => {
  const course = learner.course.value;
  const decks = learner.practised.value.filter(({ stored }) => courseOf(stored.nature) === course);
  const items = decks.flatMap(({ resolved }) => [...resolved.items.values()]);
  const found = lastLook(items, learner.memory.value, learner.today(), learner.checkDay(course));
  return found.flatMap(({ item, why, chance }) => {
    const deck = decks.find(({ stored }) => stored.id === item.deck);
    const walk = deck === undefined ? null : lastWalk(deck.resolved, item);
    if (walk === null) return [];
    // A procedure of this view, where another names a shared block.
    const group = item.groupKind === 'limit' ? groupTitle(decks, item) : walk.title;
    return [{ key: item.key, why, group, isNew: chance === null, walk }];
  });
};
