import { dayOfIso } from '../lib/date-words.ts';
import type { IsoDate } from '../model/deck.ts';
import type { Packed } from './types.ts';

/** What one report said of all its items together. */
export interface Past {
  readonly hash: string;
  readonly n: number;
  readonly made: IsoDate;
  /** Days from 1 January 1970. */
  readonly day: number;
  readonly answers: number;
  readonly items: number;
  /** Mean recall on the day of the report; what was never asked counts as not known. */
  readonly now: number;
  /** The same on the check day; null without one ahead. */
  readonly onCheck: number | null;
}

const meanOf = (lists: readonly Float64Array[], met: readonly Float64Array[]): number => {
  let sum = 0;
  let count = 0;
  for (const [k, list] of lists.entries())
    for (let i = 0; i < list.length; i++) {
      count += 1;
      if (!Number.isNaN(met[k]?.[i] as number)) sum += (list[i] as number) || 0;
    }
  return count === 0 ? 0 : sum / count;
};

/** Of a trainee's reports, the oldest first. @param only deck ids; empty: all */
export const historyOf = (reports: readonly Packed[], only: ReadonlySet<string>): Past[] =>
  reports
    .map(({ hash, n, made, checkDate, answers, decks }) => {
      const own = decks.filter(({ id }) => only.size === 0 || only.has(id));
      const now = own.map((deck) => deck.now);
      const hasCheck = checkDate !== null && checkDate >= made;
      return {
        hash,
        n,
        made,
        day: dayOfIso(made) ?? 0,
        answers,
        items: now.reduce((sum, list) => sum + list.length, 0),
        now: meanOf(now, now),
        onCheck: hasCheck
          ? meanOf(
              own.map((deck) => deck.day),
              now,
            )
          : null,
      };
    })
    .sort((a, b) => a.day - b.day || a.n - b.n || (a.hash < b.hash ? -1 : 1));
