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

/** Making one takes longer than all else that is done with a date: each is made once, when it is first needed. */
const writers = new Map<string, Intl.DateTimeFormat>();
const written = (style: 'long' | 'short', year: boolean, at: Date | number): string => {
  const name = `${style} ${year}`;
  let writer = writers.get(name);
  if (writer === undefined) {
    const parts = { weekday: style, day: 'numeric', month: style, timeZone: 'UTC' } as const;
    writer = new Intl.DateTimeFormat('en-GB', year ? { ...parts, year: 'numeric' } : parts);
    writers.set(name, writer);
  }
  return writer.format(at);
};

/** "Wednesday 25 November"; with the year where it is not this year. ISO date in, no zone involved. */
export const dayWords = (iso: string, thisYear?: number): string => {
  const date = new Date(`${iso}T12:00:00Z`);
  return written('long', thisYear !== undefined && date.getUTCFullYear() !== thisYear, date);
};

/** "Wed 25 Nov" of a study day. */
export const shortDay = (day: number): string => written('short', false, day * 86_400_000);

/** Share 0..1 as "87 %". */
export const percent = (share: number): string => `${Math.round(share * 100)} %`;
