import { compareVersions } from '../../deck/version.ts';
import type { AssignedDeck } from '../../model/assignment.ts';
import type { Course } from '../words.ts';
import type { Learner } from './learner.ts';

export const assignmentKey = (course: Course): string => `assignment/${course}`;

/** A deck of an assignment that nobody brought when it was set up, as the record of it names it. */
export type Lacking = Pick<AssignedDeck, 'id' | 'contentId' | 'title' | 'version'>;

const isLacking = (value: Partial<Lacking> | null): value is Lacking =>
  [value?.id, value?.contentId, value?.title, value?.version].every((one) => typeof one === 'string');

/** Of the assignments that hold, of all courses: decks that are still not here, neither as assigned nor newer. */
export const stillLacking = ({ setting, decks }: Pick<Learner, 'setting' | 'decks'>): readonly Lacking[] =>
  (['fictional', 'real'] as const).flatMap((course) => {
    const { lacking } = (setting(assignmentKey(course)) ?? {}) as { readonly lacking?: unknown };
    if (!Array.isArray(lacking)) return [];
    return lacking
      .filter(isLacking)
      .filter(
        ({ id, contentId, version }) =>
          !decks.value.some(
            (one) => one.id === id && (one.contentId === contentId || compareVersions(one.version, version) > 0),
          ),
      );
  });
