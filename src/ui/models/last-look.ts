import { lastLook, lastWalk, type WhyRead } from '../../drill/last-look.ts';
import type { Walk } from '../../drill/walk.ts';
import type { Item, ItemKey } from '../../model/item.ts';
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

const KINDS: readonly Item['groupKind'][] = ['procedure', 'limit', 'scenario'];
const WHY: readonly WhyRead[] = ['alert', 'critical', 'weakest'];

/**
 * What is read in the last look, of the course that is practised: procedure by procedure as the deck has them, then
 * limits and scenarios; within each what is pressing first, and of that in its own order.
 */
export const lastLookOf = (learner: Learner): readonly ToRead[] => {
  const course = learner.course.value;
  const decks = learner.practised.value.filter(({ stored }) => courseOf(stored.nature) === course);
  const items = decks.flatMap(({ resolved }) => [...resolved.items.values()]);
  const found = lastLook(items, learner.memory.value, learner.today(), learner.checkDay(course));
  return found
    .flatMap(({ item, why, chance }) => {
      const at = decks.findIndex(({ stored }) => stored.id === item.deck);
      const deck = decks[at];
      const walk = deck === undefined ? null : lastWalk(deck.resolved, item);
      if (deck === undefined || walk === null) return [];
      // A procedure of this view, where another names a shared block.
      const group = item.groupKind === 'limit' ? groupTitle(decks, item) : walk.title;
      const procedure = deck.deck.procedures?.findIndex(({ title }) => title === group) ?? -1;
      const place = [at, KINDS.indexOf(item.groupKind), procedure, WHY.indexOf(why), item.rank];
      return [{ place, read: { key: item.key, why, group, isNew: chance === null, walk } }];
    })
    .sort((a, b) => inOrder(a.place, b.place))
    .map(({ read }) => read);
};

const inOrder = (a: readonly number[], b: readonly number[]): number =>
  a.map((n, i) => n - (b[i] ?? 0)).find((difference) => difference !== 0) ?? 0;

/** One item to be read, with its answer; null where no deck in practice holds it. */
export const walkOfItem = (learner: Learner, key: ItemKey): Walk | null => {
  for (const { resolved } of learner.practised.value) {
    const item = resolved.items.get(key);
    if (item !== undefined) return lastWalk(resolved, item);
  }
  return null;
};
