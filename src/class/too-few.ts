import type { IsoDate } from '../model/deck.ts';
import type { Row } from './table.ts';

/** A check for which even the least minutes are more than a trainee plans. */
export interface TooFew {
  readonly date: IsoDate;
  readonly minutes: number;
  readonly planned: number;
  /** Minutes a day from today that are the least, whole. */
  readonly aDay: number;
}

/** The first check ahead that the planned minutes cannot do for; null where they may. */
export const tooFew = ({ checks, checkDate, daysLeft, minutes, planned }: Row): TooFew | null => {
  const all = checkDate === null || daysLeft === null ? [] : [{ date: checkDate, daysLeft, minutes, planned }];
  for (const check of [...checks, ...all])
    if (check.planned !== null && check.minutes > check.planned)
      return {
        date: check.date,
        minutes: check.minutes,
        planned: check.planned,
        aDay: Math.ceil(check.minutes / check.daysLeft),
      };
  return null;
};
