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

/** Variants of a deck as the learner flies it, and what of its steps is left out. @param nature undefined: no such deck */
export const flownOf = (setting: Setting, deckId: string, nature: Nature | undefined): Flown => {
  const value = setting(`variants/${deckId}`);
  const variants = typeof value === 'object' && value !== null ? (value as Flown) : {};
  const out = nature === undefined ? [] : leftOutOf(setting, courseOf(nature));
  return out.length === 0 ? variants : { ...variants, [LEFT_OUT]: out };
};
