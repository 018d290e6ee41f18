const HOUR = 3_600_000;
const DAY = 24 * HOUR;

/** The day turns at four in the morning, local time: a late session belongs to the evening before. */
const TURN = 4 * HOUR;

/**
 * Study day: whole days since 1 January 1970, local.
 * @param at UTC ms
 * @param off minutes east of UTC
 */
export const studyDay = (at: number, off: number): number => Math.floor((at + off * 60_000 - TURN) / DAY);

export interface Moment {
  /** Study day. */
  readonly day: number;
  /** UTC ms. */
  readonly at: number;
}

/**
 * Whole study days between two answers about one item. Within six hours none; otherwise never more than a day from the
 * time that really passed, so that flying over the date line or a change to summer time makes no day of an evening.
 */
export const gapDays = (before: Moment, now: Moment): number => {
  const hours = (now.at - before.at) / HOUR;
  if (hours < 6) return 0;
  const least = Math.floor(hours / 24);
  return Math.min(least + 1, Math.max(least, now.day - before.day));
};
