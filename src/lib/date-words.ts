export const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
];

const DAY = 86_400_000;

/** "1 December 2026" of a day counted from 1 January 1970, no zone involved. */
export const dateWords = (day: number): string => {
  const date = new Date(day * DAY);
  return `${date.getUTCDate()} ${MONTHS[date.getUTCMonth()]} ${date.getUTCFullYear()}`;
};

/** Days from 1 January 1970 to an ISO date; null where the calendar has no such day. */
export const dayOfIso = (date: string): number | null => {
  const ms = Date.parse(`${date}T00:00:00Z`);
  return Number.isNaN(ms) || !new Date(ms).toISOString().startsWith(date) ? null : ms / DAY;
};

/** ISO date of a day counted from 1 January 1970. */
export const isoOfDay = (day: number): string => new Date(day * DAY).toISOString().slice(0, 10);
