/** What goes into a calendar: the same minutes at the same time of day on each of some days. */
export interface CalendarDays {
  /** ISO dates, 1 to `MOST_DAYS`. */
  readonly days: readonly string[];
  /** Local time at which each begins, "HH:MM": wherever the learner then is (a floating time). */
  readonly time: string;
  /** Length, whole minutes, 1 to 1440. */
  readonly minutes: number;
  readonly summary: string;
  readonly description: string;
  /** Tells the days of one learner and course from all others; the same each time, so that a later file replaces them. */
  readonly of: string;
  /** When the file is made, UTC ms. */
  readonly made: number;
}

const MOST_DAYS = 400;
/** RFC 5545, section 3.1: a line is no longer than this, octets without the line break. */
const LINE = 75;

const ISO_DATE = /^\d{4}-\d\d-\d\d$/;
const TIME = /^([01]\d|2[0-3]):[0-5]\d$/;

/**
 * A calendar file (iCalendar, RFC 5545), one event a day.
 * @throws RangeError where a date, the time or the minutes make no sense
 */
export const writeCalendar = (ask: CalendarDays): string => {
  const { days, time, minutes, made } = ask;
  if (days.length === 0 || days.length > MOST_DAYS)
    throw new RangeError(`A calendar file holds 1 to ${MOST_DAYS} days, not ${days.length}.`);
  for (const day of days) if (!isDate(day)) throw new RangeError(`Not a date for a calendar: ${day}`);
  if (!TIME.test(time)) throw new RangeError(`Not a time of day, such as 18:00: ${time}`);
  if (!Number.isInteger(minutes) || minutes < 1 || minutes > 1440)
    throw new RangeError(`Minutes of a calendar day must be 1 to 1440, not ${minutes}.`);
  const stamp = `${new Date(made).toISOString().replaceAll(/[-:]/g, '').slice(0, 15)}Z`;
  const lines = [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    'PRODID:-//Recency//Planned days//EN',
    ...days.flatMap((day) => [
      'BEGIN:VEVENT',
      `UID:${escaped(`${day}-${ask.of}@recency`)}`,
      `DTSTAMP:${stamp}`,
      `DTSTART:${day.replaceAll('-', '')}T${time.replace(':', '')}00`,
      `DURATION:PT${minutes}M`,
      `SUMMARY:${escaped(ask.summary)}`,
      `DESCRIPTION:${escaped(ask.description)}`,
      'END:VEVENT',
    ]),
    'END:VCALENDAR',
  ];
  return lines.map((line) => `${folded(line)}\r\n`).join('');
};

const isDate = (day: string): boolean => {
  const at = ISO_DATE.test(day) ? Date.parse(`${day}T00:00:00Z`) : Number.NaN;
  // A day that is in no month (31 April) would become another one.
  return !Number.isNaN(at) && new Date(at).toISOString().startsWith(day);
};

/** Section 3.3.11: backslash, semicolon, comma and line break; other control characters may not be there at all. */
const escaped = (text: string): string =>
  text
    .replaceAll(/[\\;,]/g, (one) => `\\${one}`)
    .replaceAll(/\r\n|\r|\n/g, '\\n')
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what must not be there
    .replaceAll(/[\u0000-\u0008\u000a-\u001f\u007f]/g, '');

/** Section 3.1: broken into lines of 75 octets, those after the first beginning with a blank; never within a character. */
const folded = (line: string): string => {
  let out = '';
  let octets = 0;
  for (const character of line) {
    const size = new TextEncoder().encode(character).length;
    if (octets + size > LINE) {
      out += '\r\n ';
      octets = 1;
    }
    out += character;
    octets += size;
  }
  return out;
};
