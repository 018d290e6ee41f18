import { ADVISED } from '../memory/outlook.ts';
import type { IsoDate } from '../model/deck.ts';
import type { ReportPlan } from '../model/report.ts';
import type { Row } from './table.ts';

/** A check for which even the least minutes are more than a trainee plans. */
export interface TooFew {
  readonly date: IsoDate;
  readonly minutes: number;
  readonly planned: number;
  /** Minutes a day from today that are the least, whole. */
  readonly aDay: number;
}

/** What the trainee's own app expects, where it says that the minutes do not suffice; null where it does not say so. */
export const shortPlan = ({ plan }: Pick<Row, 'plan'>): ReportPlan | null =>
  plan !== null && plan.recall < ADVISED ? plan : null;

/** The first check ahead that the planned minutes cannot do for; null where they may, or where the trainee's own app knows better. */
export const tooFew = ({ plan, checks, checkDate, daysLeft, minutes, planned }: Row): TooFew | null => {
  if (plan !== null) return null;
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
