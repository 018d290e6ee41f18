import type { Deck } from '../../model/deck.ts';
import type { Item } from '../../model/item.ts';
import type { Course } from '../words.ts';
import type { Learner } from './learner.ts';

/** What of a learner check days depend on. */
export type Dates = Pick<Learner, 'checkDay' | 'today' | 'setting'>;

/** Some procedures that are checked on a day of their own, before the check of all. As it is set in the log. */
export interface CheckGroup {
  readonly id: string;
  readonly name: string;
  /** ISO date. */
  readonly date: string;
  /** `<deck id>#<procedure>`. */
  readonly things: readonly string[];
}

export const checkGroupsKey = (course: Course): string => `check-groups/${course}`;

const DATE = /^\d{4}-\d\d-\d\d$/;
export const dayOfDate = (date: string): number => Date.parse(`${date}T00:00:00Z`) / 86_400_000;

const isGroup = (value: unknown): value is CheckGroup => {
  if (typeof value !== 'object' || value === null) return false;
  const { id, name, date, things } = value as Partial<CheckGroup>;
  return (
    typeof id === 'string' &&
    typeof name === 'string' &&
    typeof date === 'string' &&
    DATE.test(date) &&
    Number.isInteger(dayOfDate(date)) &&
    Array.isArray(things) &&
    things.every((thing) => typeof thing === 'string')
  );
};

/** As set; what is no group is left aside. */
export const checkGroups = (learner: Pick<Learner, 'setting'>, course: Course): readonly CheckGroup[] => {
  const value = learner.setting(checkGroupsKey(course));
  return Array.isArray(value) ? value.filter(isGroup) : [];
};

/**
 * Days on which some procedures are checked, today's and past ones left out: after its own check a procedure counts
 * for the check of all again. One later than the check of all counts as on it.
 * @param from first study day that counts: on the day of a check nothing is planned for it any more
 * @returns `<deck id>#<procedure>` → study day, the earliest where it is in several groups; empty without a check of all
 */
export const ownCheckDays = (
  learner: Dates,
  course: Course,
  from = learner.today() + 1,
): ReadonlyMap<string, number> => {
  const last = learner.checkDay(course);
  const days = new Map<string, number>();
  if (last === null) return days;
  for (const { date, things } of checkGroups(learner, course)) {
    const day = dayOfDate(date);
    if (day < from || day >= last) continue;
    for (const thing of things) days.set(thing, Math.min(day, days.get(thing) ?? day));
  }
  return days;
};

/**
 * Study day of the next check of a deck: of all of it, or before that of some of its procedures. Null where none is ahead.
 */
export const nextCheck = (of: Dates, course: Course, deckId: string, deck: Pick<Deck, 'procedures'>): number | null => {
  const last = of.checkDay(course);
  if (last === null || last < of.today()) return null;
  const own = ownCheckDays(of, course);
  return (deck.procedures ?? []).reduce((next, { id }) => Math.min(next, own.get(`${deckId}#${id}`) ?? next), last);
};

/** The name under which a group knows the procedure of an item. */
export const thingOf = (item: Pick<Item, 'deck' | 'group' | 'groupKind'>): string | null =>
  item.groupKind === 'procedure' ? `${item.deck}#${item.group}` : null;
