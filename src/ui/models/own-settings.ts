import type { Nature } from '../../model/deck.ts';
import { type Flown, LEFT_OUT } from '../../subjects/resolved.ts';
import { type Course, courseOf } from '../words.ts';

type Setting = (key: string) => unknown;

const DEFAULT_MINUTES = 10;

/** Minutes a day for a course, 1..120. */
export const minutesOf = (setting: Setting, course: Course): number => {
  const value = setting(`minutes/${course}`);
  return typeof value === 'number' && value >= 1 && value <= 120 ? value : DEFAULT_MINUTES;
};

/** Facets of steps that are not asked: cue, crew, words. What was stored otherwise counts as nothing left out. */
export const leftOutOf = (setting: Setting, course: Course): readonly string[] => {
  const value = setting(`left-out/${course}`);
  return Array.isArray(value) ? value.filter((facet) => typeof facet === 'string').sort() : [];
};

export const opensKey = (course: Course): string => `opens/${course}`;

/** What an instructor opens later: `<deck id>#<procedure, limit or scenario>` → ISO date of its first day, as it was set. */
export const opensOf = (setting: Setting, course: Course): readonly (readonly [string, unknown])[] =>
  Object.entries(setting(opensKey(course)) ?? {});

/** Of one deck what is not open, each as `#<id>`. @param today study day */
const closedOf = (setting: Setting, course: Course, deckId: string, today: number): readonly string[] =>
  opensOf(setting, course).flatMap(([thing, date]) =>
    thing.startsWith(`${deckId}#`) && Date.parse(`${date}`) > today * 86_400_000 ? [thing.slice(deckId.length)] : [],
  );

/**
 * Variants of a deck as the learner flies it, and what of it is left out.
 * @param nature undefined: no such deck
 * @param today study day; NaN: all is open
 */
export const flownOf = (setting: Setting, deckId: string, nature: Nature | undefined, today: number): Flown => {
  const value = setting(`variants/${deckId}`);
  const variants = typeof value === 'object' && value !== null ? (value as Flown) : {};
  const course = nature && courseOf(nature);
  const out = course ? [...leftOutOf(setting, course), ...closedOf(setting, course, deckId, today)] : [];
  return out.length === 0 ? variants : { ...variants, [LEFT_OUT]: out };
};
