import { afresh, dayOrder } from '../../memory/day-order.ts';
import type { Item } from '../../model/item.ts';
import { type Course, courseOf } from '../words.ts';
import type { Learner } from './learner.ts';
import { groupTitle } from './titles.ts';

export interface BriefOf {
  /** What the drill begins with, a line each. */
  readonly begins: readonly { readonly title: string; readonly why: string }[];
  /** Sure but wrong, critical, and not yet right on two days. */
  readonly open: readonly Item[];
}

const SHOWN = 4;

export const briefOf = (learner: Learner, course: Course): BriefOf => {
  const decks = learner.practised.value.filter(({ stored }) => courseOf(stored.nature) === course);
  const memory = learner.memory.value;
  const day = learner.today();
  const checkDay = learner.checkDay(course);
  const items = decks.flatMap(({ resolved }) => [...resolved.items.values()]);
  const amended = new Set(decks.flatMap((one) => [...one.amended()]));
  const order = afresh(dayOrder(items, memory, day, checkDay), amended);

  const titleOf = (item: Pick<Item, 'deck' | 'group' | 'groupKind'>): string => groupTitle(decks, item);
  const begins = new Map<string, string>();
  for (const item of order.fresh)
    if (amended.has(item.key) && begins.size < SHOWN) begins.set(titleOf(item), 'amended: the new answer');
  for (const item of order.due) {
    if (begins.size >= SHOWN) break;
    const known = memory.items.get(item.key);
    const why =
      known?.alert != null ? 'sure but wrong' : known?.verdict === 'missed' ? 'missed last time' : 'about to fade';
    if (!begins.has(titleOf(item))) begins.set(titleOf(item), why);
  }
  const [first] = order.fresh;
  if (begins.size < SHOWN && first !== undefined && !begins.has(titleOf(first)))
    begins.set(titleOf(first), memory.read.size === 0 ? 'new: read first' : 'new, in between');
  return {
    begins: [...begins].map(([title, why]) => ({ title, why })),
    open: items.filter(({ key }) => (memory.items.get(key)?.alert ?? null) !== null),
  };
};
