import { shownName } from '../lib/shown-name.ts';

/** Characters of what a trainee calls themselves in a report. */
export const MOST_TRAINEE = 40;

/** As it is written into a report; null where it is none. */
export const traineeOf = (written: string): string | null => shownName(written, MOST_TRAINEE);
