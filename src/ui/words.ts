import { MONTHS } from '../lib/date-words.ts';
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

export { plural } from '../lib/plural.ts';

const DAYS = ['Sunday', 'Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday'];
const short = (name = '') => (name === 'September' ? 'Sept' : name.slice(0, 3));
/** As the browser writes en-GB; its own writer takes a slow phone 50 ms when it is first made, before the first screen. */
const dayAndMonth = (date: Date, word: (name?: string) => string | undefined = (name) => name): string =>
  `${word(DAYS[date.getUTCDay()])} ${date.getUTCDate()} ${word(MONTHS[date.getUTCMonth()])}`;

/** "Wednesday 25 November"; with the year where it is not this year. ISO date in, no zone involved. */
export const dayWords = (iso: string, thisYear?: number): string => {
  const date = new Date(`${iso}T12:00:00Z`);
  const year = date.getUTCFullYear();
  return thisYear === undefined || year === thisYear ? dayAndMonth(date) : `${dayAndMonth(date)} ${year}`;
};

/** "Wed 25 Nov" of a study day. */
export const shortDay = (day: number): string => dayAndMonth(new Date(day * 86_400_000), short);

/** Share 0..1 as "87 %". */
export const percent = (share: number): string => `${Math.round(share * 100)} %`;
