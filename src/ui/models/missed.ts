import { type Against, againstForecast, keysMissed, type MissableGroup, missableOf } from '../../drill/missed.ts';
import { isUnknown, readStored } from '../../log/line.ts';
import type { MissedEntry, VoidEntry } from '../../model/entry.ts';
import { type ItemKey, parseItemKey } from '../../model/item.ts';
import { type Course, courseOf } from '../words.ts';
import type { Learner } from './learner.ts';
import { lookBackOf } from './past.ts';

/** What may have come up there: all that the learner practises of a course. */
export const groupsOf = (learner: Learner, course: Course): MissableGroup[] => {
  const decks = learner.practised.value.filter(({ stored }) => courseOf(stored.nature) === course);
  const named = decks.length > 1;
  return missableOf(decks.map(({ resolved }) => resolved)).map((group) => {
    const deck = decks.find((one) => one.deck.id === group.deck)?.deck.title;
    return named && group.kind !== 'procedure' ? { ...group, title: `${group.title}: ${deck}` } : group;
  });
};

export interface Noted {
  readonly where: MissedEntry['where'];
  /** Study day. */
  readonly day: number;
  /** Names of what was missed. */
  readonly missed: ReadonlySet<string>;
}

/**
 * Writes what was missed: one entry.
 * @param day not after today
 * @returns the entry's id
 * @throws StoreProblem; RangeError for a day to come, or where nothing was missed
 */
export const noteMissed = async (
  learner: Learner,
  groups: readonly MissableGroup[],
  { where, day, missed }: Noted,
): Promise<string> => {
  if (!Number.isInteger(day) || day > learner.today())
    throw new RangeError('That day is still to come. Choose today or an earlier day.');
  const items = new Set<ItemKey>();
  for (const { things } of groups)
    for (const thing of things)
      if (missed.has(thing.name)) for (const key of keysMissed(thing, learner.memory.value)) items.add(key);
  if (items.size === 0) throw new RangeError('Nothing is marked as missed.');
  const { entry } = await learner.append({ k: 'missed', items: [...items], where, day });
  return entry.id;
};

/** As if it had never been noted. @throws StoreProblem */
export const takeBack = async (learner: Learner, entry: string): Promise<void> => {
  await learner.append({ k: 'void', of: entry, why: 'mis-tap' });
};

/** The forecast made for the day, against what was missed there. Null where there was none. @throws StoreProblem */
export const againstOf = async (
  learner: Learner,
  groups: readonly MissableGroup[],
  { day, missed }: Omit<Noted, 'where'>,
): Promise<Against | null> => {
  const { before } = await lookBackOf(learner, { before: day });
  return before === null ? null : againstForecast(groups, missed, before);
};

export interface Before {
  readonly entry: string;
  readonly where: MissedEntry['where'];
  readonly day: number;
  /** Things: a step is one, in however many places. */
  readonly missed: number;
}

const thingOf = (key: ItemKey): string => {
  const parts = parseItemKey(key);
  return parts?.facet === 'place' ? `${parts.deck}#${parts.thing}` : key;
};

/** What was noted of this course and not taken back, the latest day first. Looks through all lines of the log. */
export const notedBefore = async (learner: Learner, groups: readonly MissableGroup[]): Promise<Before[]> => {
  const own = new Set(groups.map(({ deck }) => deck));
  const noted = new Map<string, Before>();
  const voided = new Set<string>();
  await learner.store.log.all((lines) => {
    for (const line of lines) {
      // Most are answers: they are not read for this.
      if (!line.includes('"missed"') && !line.includes('"void"')) continue;
      const entry = readStored(line);
      if (isUnknown(entry)) continue;
      if (entry.k === 'void') voided.add((entry as VoidEntry).of);
      if (entry.k !== 'missed') continue;
      const { id, where, day, items } = entry as MissedEntry;
      if (!items.some((key) => own.has(parseItemKey(key)?.deck ?? ''))) continue;
      noted.set(id, { entry: id, where, day, missed: new Set(items.map(thingOf)).size });
    }
  });
  return [...noted.values()].filter(({ entry }) => !voided.has(entry)).sort((a, b) => b.day - a.day);
};
