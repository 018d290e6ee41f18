/** What an assignment sets, line by line, against what is set now. */
import { canonicalJson, type Json } from '../../lib/canonical-json.ts';
import { fnv36 } from '../../lib/hash.ts';
import type { AssignedDeck, Assignment } from '../../model/assignment.ts';
import type { Deck, Id } from '../../model/deck.ts';
import { type CheckGroup, checkGroups, checkGroupsKey } from '../models/check-groups.ts';
import { assignmentKey, type Lacking } from '../models/lacking.ts';
import type { Learner } from '../models/learner.ts';
import { opensKey, opensOf } from '../models/own-settings.ts';
import { COURSE_WORDS, type Course, courseOf, dayWords, plural } from '../words.ts';

/** As it stands in the log under `assignment/<course>`: which one holds, and what it set. */
export interface Held {
  readonly id: string;
  readonly n: number;
  readonly title: string;
  readonly made: string;
  /** Of the assignment: two by one number are told apart. */
  readonly sum: string;
  /** Setting → value that was assigned, taken or not: another one by now is the trainee's own. */
  readonly set: Readonly<Record<string, Json>>;
}

const sumOf = (assignment: Assignment): string => fnv36(canonicalJson(assignment as unknown as Json));

/** The assignment that holds for a course; null where there is none. */
export const heldFor = (learner: Pick<Learner, 'setting'>, course: Course): Held | null => {
  const value = learner.setting(assignmentKey(course));
  if (typeof value !== 'object' || value === null) return null;
  const { id, n, title, made, sum, set } = value as Partial<Held>;
  if (typeof id !== 'string' || typeof n !== 'number') return null;
  const known = typeof set === 'object' && set !== null ? set : {};
  return { id, n, title: String(title ?? ''), made: String(made ?? ''), sum: String(sum ?? ''), set: known };
};

/** Courses that an assignment is for. */
export const coursesOf = ({ decks }: Assignment): readonly Course[] => [
  ...new Set(decks.map(({ nature }) => courseOf(nature))),
];

/**
 * new: nothing of it is set up. amends: an earlier one of the same id is. same: this very one. other-same: one of the same
 * number that says something else. older: a later one is.
 */
export type Standing =
  | { readonly is: 'new' | 'amends' }
  | { readonly is: 'same' | 'other-same' | 'older'; readonly held: Held };

export const standingOf = (learner: Pick<Learner, 'setting'>, assignment: Assignment): Standing => {
  const held = coursesOf(assignment).map((course) => heldFor(learner, course));
  const own = held.flatMap((one) => (one?.id === assignment.id ? [one] : []));
  const later = own.find(({ n }) => n > assignment.n);
  if (later !== undefined) return { is: 'older', held: later };
  const level = own.filter(({ n }) => n === assignment.n);
  const [first] = level;
  // A course whose record is not there was not set up to its end.
  if (first !== undefined && level.length === held.length)
    return { is: level.every(({ sum }) => sum === sumOf(assignment)) ? 'same' : 'other-same', held: first };
  return { is: own.length > 0 ? 'amends' : 'new' };
};

export interface Line {
  /** The setting. */
  readonly key: string;
  readonly title: string;
  /** In words, as it is and as assigned. */
  readonly from: string;
  readonly to: string;
  readonly value: Json;
  readonly changes: boolean;
  /** The trainee changed it since the last assignment set it: kept unless they say otherwise. */
  readonly own: boolean;
}

/** Decks as far as they are known here, for their words. */
export type Known = ReadonlyMap<string, Pick<Deck, 'procedures' | 'limits' | 'scenarios' | 'variants'>>;

const NONE = 'none';

const titleIn = (known: Known, thing: string): string | null => {
  const [deckId = '', id = ''] = thing.split('#');
  const deck = known.get(deckId);
  return (
    deck?.procedures?.find((one) => one.id === id)?.title ??
    deck?.limits?.find((one) => one.id === id)?.ask ??
    deck?.scenarios?.find((one) => one.id === id)?.title ??
    null
  );
};

/** Ids are no words for people. */
const LATER = 'by name once the deck is here';

const things = (known: Known, list: readonly string[]): string => {
  const titles = list.flatMap((thing) => titleIn(known, thing) ?? []);
  const number = plural(list.length, 'procedure');
  if (list.length > 3) return number;
  return titles.length < list.length ? `${number}, ${LATER}` : titles.join(', ');
};

const groupsWords = (known: Known, groups: readonly CheckGroup[], year: number): string =>
  groups.length === 0
    ? NONE
    : groups.map((one) => `${one.name} on ${dayWords(one.date, year)} (${things(known, one.things)})`).join('; ');

const opensNow = (learner: Pick<Learner, 'setting'>, course: Course): Readonly<Record<string, string>> =>
  Object.fromEntries(
    opensOf(learner.setting, course).flatMap(([thing, date]) => (typeof date === 'string' ? [[thing, date]] : [])),
  );

const opensWords = (known: Known, opens: Readonly<Record<string, string>>, year: number): string => {
  const days = [...new Set(Object.values(opens))].sort();
  const on = (day: string) => Object.keys(opens).filter((thing) => opens[thing] === day);
  return days.length === 0
    ? NONE
    : days.map((day) => `${things(known, on(day))} from ${dayWords(day, year)}`).join('; ');
};

const variantsWords = (deck: Pick<Deck, 'variants'> | undefined, flown: Flown): string => {
  const axes = Object.entries(flown).filter(([, options]) => options.length > 0);
  if (axes.length === 0) return 'not told yet';
  if (deck === undefined) return `chosen for you, ${LATER}`;
  return axes
    .map(([axis, options]) => {
      const found = deck.variants?.find(({ id }) => id === axis);
      // A revision that no longer has it.
      return `${found?.label ?? axis}: ${options.map((one) => found?.options[one] ?? one).join(', ')}`;
    })
    .join('; ');
};
type Flown = Readonly<Record<Id, readonly Id[]>>;

const flownNow = (learner: Pick<Learner, 'setting'>, deckId: string): Flown => {
  const value = learner.setting(`variants/${deckId}`);
  return typeof value === 'object' && value !== null ? (value as Flown) : {};
};

/** @param year of today, which is not said */
export const linesOf = (
  learner: Pick<Learner, 'setting' | 'minutes'>,
  assignment: Assignment,
  known: Known,
  year: number,
): readonly Line[] => {
  const courses = coursesOf(assignment);
  return courses.flatMap((course) => {
    const decks = assignment.decks.filter(({ nature }) => courseOf(nature) === course);
    const held = heldFor(learner, course);
    const before = held?.id === assignment.id ? held.set : {};
    const line = (
      key: string,
      title: string,
      value: Json,
      words: (value: Json) => string,
      now: Json,
      to = words(value),
    ): Line => {
      const changes = canonicalJson(now) !== canonicalJson(value);
      const set = before[key];
      return {
        key,
        title: courses.length > 1 && key.endsWith(`/${course}`) ? `${title} · ${COURSE_WORDS[course]}` : title,
        from: words(now),
        to,
        value,
        changes,
        own: changes && set !== undefined && canonicalJson(set) !== canonicalJson(now),
      };
    };
    const setting = (key: string): Json => (learner.setting(key) ?? null) as Json;
    const inCourse = (thing: string) => decks.some(({ id }) => thing.startsWith(`${id}#`));
    const groups = (assignment.groups ?? []).map((one) => ({ ...one, things: one.things.filter(inCourse) }));
    const checked = groups.flatMap(({ id, name, checkDate: date, things: own }): CheckGroup[] =>
      date === undefined || own.length === 0 ? [] : [{ id, name, date, things: own }],
    );
    const opens = Object.fromEntries(
      groups.flatMap((one) => (one.opens === undefined ? [] : one.things.map((thing) => [thing, one.opens as string]))),
    );
    const found: Line[] = decks.flatMap((deck) => variantsLine(learner, deck, known, line));
    const dateWords = (value: Json) => (typeof value === 'string' ? dayWords(value, year) : NONE);
    const dateKey = `check-date/${course}`;
    if (assignment.checkDate !== undefined)
      found.push(line(dateKey, 'Check date', assignment.checkDate, dateWords, setting(dateKey)));
    const groupsKey = checkGroupsKey(course);
    const isSet = (key: string) => key in before;
    if (checked.length > 0 || isSet(groupsKey))
      found.push(
        line(
          groupsKey,
          'Checked on days of their own',
          checked as unknown as Json,
          (value) => groupsWords(known, value as unknown as CheckGroup[], year),
          checkGroups(learner, course) as unknown as Json,
        ),
      );
    if (Object.keys(opens).length > 0 || isSet(opensKey(course)))
      found.push(
        line(
          opensKey(course),
          'Opened later: neither read nor asked before',
          opens,
          (value) => opensWords(known, value as Record<string, string>, year),
          opensNow(learner, course),
          // By the groups' names: the deck may not be here yet.
          groups
            .filter((one) => one.opens !== undefined && one.things.length > 0)
            .map((one) => `${one.name} (${things(known, one.things)}) from ${dayWords(one.opens ?? '', year)}`)
            .join('; ') || NONE,
        ),
      );
    if (assignment.minutes !== undefined)
      found.push(
        line(`minutes/${course}`, 'Minutes a day', assignment.minutes, (value) => `${value}`, learner.minutes(course)),
      );
    return found;
  });
};

const variantsLine = (
  learner: Pick<Learner, 'setting'>,
  { id, title, variants }: AssignedDeck,
  known: Known,
  line: (key: string, title: string, value: Json, words: (value: Json) => string, now: Json) => Line,
): Line[] => {
  if (variants === undefined || Object.keys(variants).length === 0) return [];
  const now = flownNow(learner, id);
  // Axes that are not assigned stay as the trainee has them.
  const then: Flown = { ...now, ...variants };
  return [
    line(
      `variants/${id}`,
      `Variants of ${title}`,
      then as Json,
      (value) => variantsWords(known.get(id), value as Flown),
      now as Json,
    ),
  ];
};

/** What is written once all else is. @param lacking decks of it that nobody brought yet */
export const heldOf = (
  assignment: Assignment,
  lines: readonly Line[],
  course: Course,
  lacking: readonly AssignedDeck[],
): Held & { readonly lacking: readonly Lacking[] } => ({
  id: assignment.id,
  n: assignment.n,
  title: assignment.title,
  made: assignment.made,
  sum: sumOf(assignment),
  set: Object.fromEntries(
    lines
      .filter(
        ({ key }) =>
          key.endsWith(`/${course}`) ||
          assignment.decks.some(({ id, nature }) => key === `variants/${id}` && courseOf(nature) === course),
      )
      .map(({ key, value }) => [key, value]),
  ),
  lacking: lacking
    .filter(({ nature }) => courseOf(nature) === course)
    .map(({ id, contentId, title, version }) => ({ id, contentId, title, version })),
});
