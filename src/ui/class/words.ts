import type { OldRevision } from '../../class/revisions.ts';
import type { Row } from '../../class/table.ts';
import { dayOfIso } from '../../lib/date-words.ts';
import { TARGET, TARGET_CRITICAL } from '../../memory/day-order.ts';
import { ADVISED } from '../../memory/outlook.ts';
import type { Leavable, Report, ReportPlan } from '../../model/report.ts';
import type { Device } from '../device.ts';
import { dayWords, plural, shortDay } from '../words.ts';

/** ISO date of a moment, by the device's own zone. */
export const calendarDay = (device: Pick<Device, 'off'>, at: number): string =>
  new Date(at + device.off(at) * 60_000).toISOString().slice(0, 10);

/**
 * "64 %", rounded, halves up, so that it is what the CSV comes to. What would read as if it reached a target of which it
 * is short has one place, cut off: "89.7 %".
 */
export const share = (value: number): string => {
  const whole = Math.floor(value * 100 + 0.5 + 1e-9);
  const isShort = [TARGET, ADVISED, TARGET_CRITICAL].some((aim) => value < aim && whole >= Math.round(100 * aim));
  return `${isShort ? Math.floor(value * 1000 + 1e-9) / 10 : whole}\u00a0%`;
};

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

/** What a trainee's own app expects of the minutes planned, as the trainee reads it there. */
export const planWords = ({ minutes, recall, needed }: ReportPlan): string => {
  const now = `${minutes} a day: about ${share(recall)}`;
  if (recall >= ADVISED) return now;
  const aim = share(ADVISED);
  return needed === null ? `${now}; no minutes would reach ${aim}` : `${now}; ${needed} a day would reach ${aim}`;
};

/** In the table: by the trainee's own app where the report says it, else the floor. */
export const tableMinutes = (row: Pick<Row, 'plan' | 'short' | 'minutes' | 'planned' | 'practised'>): string =>
  [row.plan === null ? minutesWords(row) : planWords(row.plan), practisedWords(row)].filter((said) => said).join('; ');

/** "1 of 45 min answering": of the minutes planned until the report; '' where it is not known. */
export const practisedWords = ({ practised }: Pick<Row, 'practised'>): string =>
  practised === null ? '' : `${practised.minutes} of ${practised.planned} min answering`;

export const sureWrongWords = ({ sureWrong, answered }: Pick<Row, 'sureWrong' | 'answered'>): string =>
  sureWrong === null ? 'left out' : `${sureWrong} of ${answered}`;

const WHOSE: Readonly<Record<OldRevision['by'], string>> = {
  device: 'on this device',
  assignment: 'that you assigned',
  class: 'that is expected',
};

/** "1.1.2, older than 3.0.0 on this device; you assigned 2.0.0". */
export const revisionWords = ({ version, wanted, how, by, assigned }: OldRevision): string => {
  const told =
    wanted === null
      ? `${version}, another revision than the one ${WHOSE[by]}`
      : how === 'other'
        ? `another ${version} than the one ${WHOSE[by]}`
        : `${version}, ${how} than ${wanted} ${WHOSE[by]}`;
  if (assigned === null) return told;
  return `${told}; ${assigned === version ? 'it is the one' : `${assigned} is the one`} that you assigned`;
};

/** What is asked of a trainee, and what not, in sentences. */
export const itemsWords = ({ items, unmet, notAsked }: Pick<Row, 'items' | 'unmet' | 'notAsked'>): string => {
  const asked = `${plural(items, 'item')} ${items === 1 ? 'is' : 'are'} asked of this trainee`;
  const met =
    unmet === 0
      ? 'Each has come up at least once.'
      : unmet === items
        ? 'None has come up yet.'
        : `${unmet} ${unmet === 1 ? 'has' : 'have'} not come up yet.`;
  const rest =
    notAsked === 0
      ? 'Nothing of the deck is left out.'
      : `${plural(notAsked, 'more item')} of the deck ${notAsked === 1 ? 'is' : 'are'} not asked: left out, or not yet open.`;
  return items === 0 ? `Nothing is asked of this trainee. ${rest}` : `${asked}. ${met} ${rest}`;
};

/** What stands in a narrow column, and under it in small letters. */
interface Short {
  readonly figure: string;
  readonly of: string | null;
  /** Under that. */
  readonly done?: string;
}

/** "10" and under it "a day: 93 %; 12: 95 %", where the own app says it; else the floor: "3", and under it "of 190". */
export const shortMinutes = ({
  plan,
  short,
  minutes,
  planned,
  practised,
}: Pick<Row, 'plan' | 'short' | 'minutes' | 'planned' | 'practised'>): Short => {
  const done = practisedWords({ practised });
  if (plan === null)
    return {
      figure: short === 0 ? 'none' : `${minutes}`,
      of: short === 0 ? null : planned === null ? 'in all' : `of ${planned}`,
      done,
    };
  const aim = share(ADVISED);
  const more = plan.needed === null ? `${aim} out of reach` : `${plan.needed}: ${aim}`;
  return {
    figure: `${plan.minutes}`,
    of: `a day: ${share(plan.recall)}${plan.recall >= ADVISED ? '' : `; ${more}`}`,
    done,
  };
};

/** "3", and under it "of 40". */
export const shortSureWrong = ({ sureWrong, answered }: Pick<Row, 'sureWrong' | 'answered'>): Short =>
  sureWrong === null ? { figure: 'left out', of: null } : { figure: `${sureWrong}`, of: `of ${answered}` };

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
  queries: 'queries about questions',
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

/** "number 1; you handed out number 2"; null where the trainee has the newest, or one that this device knows nothing of. */
export const olderAssignment = (
  { assignment }: Pick<Report, 'assignment'>,
  handed: ReadonlyMap<string, number>,
): string | null => {
  const last = assignment && handed.get(assignment.id);
  return assignment !== undefined && last !== undefined && assignment.n < last
    ? `number ${assignment.n}; you handed out number ${last}`
    : null;
};
