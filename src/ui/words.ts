import type { Nature } from '../model/deck.ts';

/** Decks of nature fictional are practised apart from all others. */
export type Course = 'fictional' | 'real';
export const courseOf = (nature: Nature): Course => (nature === 'fictional' ? 'fictional' : 'real');

export const COURSE_WORDS: Readonly<Record<Course, string>> = {
  fictional: 'Invented aeroplane',
  real: 'Own and public decks',
};

export const NATURE_WORDS: Readonly<Record<Nature, string>> = {
  fictional: 'Invented: not a real aeroplane',
  public: 'Public rules',
  operator: "An operator's own",
};

export const BASIS_WORDS = {
  published: 'published',
  operator: "an operator's manual",
  'common-practice': 'common practice, no source',
  'from-memory': 'from memory',
  invented: 'invented',
} as const;

export const SHORT_CAUTION =
  "A study aid for recall, not for operational use. Your operator's current manuals prevail.";

export const plural = (n: number, one: string, many = `${one}s`): string => `${n} ${n === 1 ? one : many}`;

/** "Wednesday 25 November"; with the year where it is not this year. ISO date in, no zone involved. */
export const dayWords = (iso: string, thisYear?: number): string => {
  const date = new Date(`${iso}T12:00:00Z`);
  const other = thisYear !== undefined && date.getUTCFullYear() !== thisYear;
  return new Intl.DateTimeFormat('en-GB', {
    weekday: 'long',
    day: 'numeric',
    month: 'long',
    ...(other ? { year: 'numeric' } : {}),
    timeZone: 'UTC',
  }).format(date);
};

/** "Wed 25 Nov" of a study day. */
export const shortDay = (day: number): string =>
  new Intl.DateTimeFormat('en-GB', { weekday: 'short', day: 'numeric', month: 'short', timeZone: 'UTC' }).format(
    day * 86_400_000,
  );

/** Share 0..1 as "87 %". */
export const percent = (share: number): string => `${Math.round(share * 100)} %`;
