/** Rules of RFC 5545 (Internet Calendaring and Scheduling, September 2009); the section stands at each. */
import { describe, expect, test } from 'vitest';
import { type CalendarDays, writeCalendar } from '../../../src/exchange/calendar.ts';

const ask = (more: Partial<CalendarDays> = {}): CalendarDays => ({
  days: ['2026-11-25', '2026-11-26', '2026-12-01'],
  time: '18:00',
  minutes: 10,
  summary: 'Recency: 10 minutes',
  description: 'Practise for the check.',
  of: 'fictional-abc',
  made: Date.parse('2026-11-25T09:08:07.654Z'),
  ...more,
});

/** Section 3.1: unfolding removes a line break and the blank or tab right after it. */
const unfolded = (text: string): string[] => text.replaceAll(/\r\n[ \t]/g, '').split('\r\n');
/** Section 3.3.11, backwards. */
const unescaped = (value: string): string =>
  value.replaceAll(/\\([\\;,nN])/g, (_, one: string) => (one.toLowerCase() === 'n' ? '\n' : one));
const values = (text: string, name: string): string[] =>
  unfolded(text)
    .filter((line) => line.startsWith(`${name}:`))
    .map((line) => line.slice(name.length + 1));

describe('the file', () => {
  test('3.1: every line ends with CR LF, and no other CR or LF is there', () => {
    const text = writeCalendar(ask({ description: 'One\r\ntwo\nthree\rfour' }));
    expect(text.endsWith('\r\n')).toBe(true);
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
  });
  test('3.4, 3.6, 3.7.3, 3.7.4: one calendar with version and product, and in it one event for each day', () => {
    const lines = unfolded(writeCalendar(ask()));
    expect(lines.slice(0, 3)).toEqual(['BEGIN:VCALENDAR', 'VERSION:2.0', 'PRODID:-//Recency//Planned days//EN']);
    expect(lines.slice(-2)).toEqual(['END:VCALENDAR', '']);
    expect(lines.filter((line) => line === 'BEGIN:VEVENT')).toHaveLength(3);
    expect(lines.filter((line) => line === 'END:VEVENT')).toHaveLength(3);
  });
  test('3.6.1: each event has exactly one UID, DTSTAMP, DTSTART, and DURATION without DTEND', () => {
    const events = unfolded(writeCalendar(ask())).join('\n').split('BEGIN:VEVENT').slice(1);
    for (const event of events)
      for (const name of ['UID', 'DTSTAMP', 'DTSTART', 'DURATION', 'SUMMARY', 'DESCRIPTION'])
        expect(event.match(new RegExp(`^${name}:`, 'gm')), name).toHaveLength(1);
    expect(events.join('')).not.toContain('DTEND');
  });
});

describe('values', () => {
  test('3.3.5 form 1: the beginning is local time without a zone, floating', () => {
    expect(values(writeCalendar(ask({ time: '06:05' })), 'DTSTART')).toEqual([
      '20261125T060500',
      '20261126T060500',
      '20261201T060500',
    ]);
  });
  test('3.8.7.2, 3.3.5 form 2: the stamp is UTC', () => {
    expect(new Set(values(writeCalendar(ask()), 'DTSTAMP'))).toEqual(new Set(['20261125T090807Z']));
  });
  test('3.3.6: the length is a duration in minutes', () => {
    expect(values(writeCalendar(ask({ minutes: 90 })), 'DURATION')).toEqual(['PT90M', 'PT90M', 'PT90M']);
  });
  test('3.8.4.7: UIDs differ by day and by learner, and are the same in a later file', () => {
    const uids = values(writeCalendar(ask()), 'UID');
    expect(new Set(uids).size).toBe(3);
    expect(values(writeCalendar(ask({ made: 0, time: '07:00', minutes: 5 })), 'UID')).toEqual(uids);
    expect(values(writeCalendar(ask({ of: 'fictional-xyz' })), 'UID')).not.toContain(uids[0]);
  });
  test('3.3.11: backslash, semicolon, comma and line break are escaped; no other control character is there', () => {
    const description = 'Limits; speeds, flaps \\ gear\nand "more": 5 %';
    const [value = ''] = values(writeCalendar(ask({ description: `${description}\u0000\u0007` })), 'DESCRIPTION');
    expect(value).toBe('Limits\\; speeds\\, flaps \\\\ gear\\nand "more": 5 %');
    expect(unescaped(value)).toBe(description);
  });
  test.each([
    ['one octet each', 'x'.repeat(400)],
    ['two', 'ä'.repeat(200)],
    ['three', '–'.repeat(200)],
    ['four', `a${'🛫'.repeat(90)}`],
    ['with many escapes', ',;\\'.repeat(100)],
  ])('3.1: no line is longer than 75 octets, no character is torn: %s', (_, description) => {
    const text = writeCalendar(ask({ description }));
    for (const line of text.split('\r\n')) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
    expect(text).not.toContain('\ufffd');
    expect(Buffer.from(text).toString()).toBe(text);
    expect(unescaped(values(text, 'DESCRIPTION')[0] ?? '')).toBe(description);
  });
  test('a line of exactly 75 octets stays whole, one more does not', () => {
    const of = (n: number) => writeCalendar(ask({ days: ['2026-11-25'], summary: 'x'.repeat(n - 'SUMMARY:'.length) }));
    expect(of(75)).toContain(`SUMMARY:${'x'.repeat(67)}\r\n`);
    expect(of(76)).toContain(`SUMMARY:${'x'.repeat(67)}\r\n x\r\n`);
  });
});

test.each([
  [{ days: [] }, '1 to 400 days, not 0'],
  [{ days: Array.from({ length: 401 }, () => '2026-11-25') }, 'not 401'],
  [{ days: ['2026-04-31'] }, '2026-04-31'],
  [{ days: ['25.11.2026'] }, '25.11.2026'],
  [{ time: '24:00' }, '24:00'],
  [{ time: '' }, 'time of day'],
  [{ minutes: 0 }, 'not 0'],
  [{ minutes: 2.5 }, 'not 2.5'],
  [{ minutes: 1441 }, 'not 1441'],
])('no such days: %o', (more, why) => {
  expect(() => writeCalendar(ask(more))).toThrow(RangeError);
  expect(() => writeCalendar(ask(more))).toThrow(why);
});
