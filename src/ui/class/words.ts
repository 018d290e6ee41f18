import type { Row } from '../../class/table.ts';
import { dayOfIso } from '../../lib/date-words.ts';
import type { Leavable } from '../../model/report.ts';
import type { Device } from '../device.ts';
import { dayWords, plural, shortDay } from '../words.ts';

/** ISO date of a moment, by the device's own zone. */
export const calendarDay = (device: Pick<Device, 'off'>, at: number): string =>
  new Date(at + device.off(at) * 60_000).toISOString().slice(0, 10);

/** "64 %"; rounded down, so that what is short of a target never reads as if it reached it. */
export const share = (value: number): string => `${Math.floor(value * 100 + 1e-9)}\u00a0%`;

export const daysLeftWords = (daysLeft: number | null): string => {
  if (daysLeft === null) return 'no check date';
  if (daysLeft < 0) return `check was ${plural(-daysLeft, 'day')} ago`;
  return daysLeft === 0 ? 'check today' : `${plural(daysLeft, 'day')} to the check`;
};

export const ageWords = (age: number): string => (age <= 0 ? 'today' : age === 1 ? 'yesterday' : `${age} days ago`);

/** Behind the stroke of an empty cell, for who hears it. */
export const NOT_ASKED = ' not asked';
/** The same of a critical item that was never asked. */
export const NEVER_ASKED = ' not yet asked';

/** "Friday 27 November", with the year where it is not that of today. Both ISO dates. */
export const dayIn = (today: string, date: string): string => dayWords(date, Number(today.slice(0, 4)));

/** Of the lowest critical item; none that was asked has no chance at all. */
export const criticalWords = (lowest: number): string =>
  lowest === 0 ? 'critical not yet asked' : `critical ${share(lowest)}`;

export const minutesWords = ({ short, minutes, planned }: Pick<Row, 'short' | 'minutes' | 'planned'>): string => {
  if (short === 0) return 'none';
  const least = `at least ${minutes}`;
  return planned === null ? least : `${least}, ${planned} planned`;
};

/** The same in a narrow column: "3", and under it "of 190". */
export const shortMinutes = ({ short, minutes, planned }: Pick<Row, 'short' | 'minutes' | 'planned'>) => ({
  least: short === 0 ? 'none' : `${minutes}`,
  of: short === 0 || planned === null ? null : `of ${planned}`,
});

/** Of the next check of some procedures before that of all; '' where none is ahead. */
const nextWords = (checks: Row['checks']): string => {
  const next = checks.find(({ daysLeft }) => daysLeft >= 0);
  if (next === undefined) return '';
  const of = `that of ${plural(next.columns.length, 'procedure')}`;
  return next.daysLeft === 0 ? `, ${of} today` : `, ${plural(next.daysLeft, 'day')} to ${of}`;
};

const onDay = (date: string): string => shortDay(dayOfIso(date) ?? 0);

/** Under the figures of a procedure with a check of its own: "on Tue 1 Dec". */
export const checkedWords = (date: string): string => `on ${onDay(date)}`;

export const whenWords = ({ daysLeft, checks, age, asOfReport }: Row): string =>
  `${daysLeftWords(daysLeft)}${nextWords(checks)}; report made ${ageWords(age)}${asOfReport ? ', recall of that day' : ''}`;

/** The same on paper, which may be read on another day. */
export const paperWords = ({ checkDate, made, asOfReport }: Pick<Row, 'checkDate' | 'made' | 'asOfReport'>): string =>
  `${checkDate === null ? 'no check date' : `check on ${onDay(checkDate)}`}; report made on ${onDay(made)}${asOfReport ? ', recall of that day' : ''}`;

export const LEFT_OUT_WORDS: Readonly<Record<Leavable, string>> = {
  sure: 'how often they were sure and wrong',
  queries: 'objections to questions',
  days: 'the days on which they practised',
  minutes: 'the minutes they practised',
  slips: 'wrong answers in words',
};

/** Part of a file's name. */
export const fileName = (name: string): string =>
  name
    .normalize('NFKD')
    .replaceAll(/[^\p{L}\p{N}]+/gu, '-')
    .replaceAll(/^-|-$/g, '')
    .slice(0, 40)
    .toLowerCase() || 'trainee';
