import { expect, test } from 'vitest';
import type { Column, OwnCheck, Row } from '../../../src/class/table.ts';
import { columnWidth, columnWidths } from '../../../src/ui/class/columns.ts';
import { paperParts } from '../../../src/ui/class/OnPaper.tsx';
import { checkedWords, dayIn, minutesWords, paperWords, shortMinutes, whenWords } from '../../../src/ui/class/words.ts';

const check = (daysLeft: number, columns = 1): OwnCheck => ({
  date: '2026-12-01',
  daysLeft,
  columns: Array.from({ length: columns }, (): Column => ({ id: '', deck: '', title: '', deckTitle: '' })),
  short: 0,
  minutes: 0,
  planned: null,
});
const row = (given: Partial<Row>): Row => ({ daysLeft: 10, checks: [], age: 0, asOfReport: false, ...given }) as Row;

test.each<[Partial<Row>, string]>([
  [{}, '10 days to the check; report made today'],
  [{ checks: [check(3), check(5)] }, '10 days to the check, 3 days to that of 1 procedure; report made today'],
  // What is behind is told no more.
  [
    { checks: [check(-1), check(1, 2)], age: 1 },
    '10 days to the check, 1 day to that of 2 procedures; report made yesterday',
  ],
  [{ checks: [check(0)] }, '10 days to the check, that of 1 procedure today; report made today'],
  [{ checks: [check(-4)], age: 6 }, '10 days to the check; report made 6 days ago'],
  [{ daysLeft: null, asOfReport: true }, 'no check date; report made today, recall of that day'],
])('%j: %s', (given, words) => {
  expect(whenWords(row(given))).toBe(words);
});

test('minutes and dates as they stand in the table', () => {
  expect(minutesWords({ short: 0, minutes: 0, planned: 40 })).toBe('none');
  expect(minutesWords({ short: 2, minutes: 3, planned: 40 })).toBe('at least 3, 40 planned');
  expect(minutesWords({ short: 2, minutes: 3, planned: null })).toBe('at least 3');
  expect(checkedWords('2026-12-01')).toBe('on Tue 1 Dec');
});

test('what is short in a column says the same', () => {
  expect(shortMinutes({ short: 0, minutes: 0, planned: 40 })).toEqual({ least: 'none', of: null });
  expect(shortMinutes({ short: 2, minutes: 3, planned: 40 })).toEqual({ least: '3', of: 'of 40' });
  expect(shortMinutes({ short: 2, minutes: 3, planned: null })).toEqual({ least: '3', of: null });
});

test('paper has dates, not days from a day that it does not name', () => {
  const given = { checkDate: '2026-12-16', made: '2026-11-26', asOfReport: false };
  expect(paperWords(given)).toBe('check on Wed 16 Dec; report made on Thu 26 Nov');
  expect(paperWords({ ...given, checkDate: null, asOfReport: true })).toBe(
    'no check date; report made on Thu 26 Nov, recall of that day',
  );
});

test('a day has its year where it is another than that of today', () => {
  expect(dayIn('2026-11-27', '2026-11-28')).toBe('Saturday 28 November');
  expect(dayIn('2026-11-27', '2027-01-04')).toBe('Monday 4 January 2027');
});

test('a column is as wide as the longest word of its head, and never narrower than its figures', () => {
  const em = (text: string) => text.length / 2;
  expect(columnWidth('Take-off roll', em)).toBe(columnWidth('All', em));
  const wide = columnWidth('Acceleration and clean-up', em);
  expect(wide).toBeGreaterThanOrEqual(0.889 * 6);
  expect(wide).toBeLessThan(0.889 * 6 + 1);
  // At a hyphen a line may end.
  expect(columnWidth('Noise-abatement', em)).toBe(columnWidth('abatement', em));
  expect(columnWidths(['All', 'Acceleration'], em).slice(1)).toEqual([columnWidth('All', em), wide]);
});

const columns = (...decks: readonly string[]) => decks.map((deck) => ({ deck }));
test.each([
  ['as many as fit', columns(...'aaaaaaa'), [[0, 1, 2, 3, 4, 5, 6]]],
  [
    'more, in tables about as wide',
    columns(...'aaaaaaaa'),
    [
      [0, 1, 2, 3],
      [4, 5, 6, 7],
    ],
  ],
  ['of two decks', columns(...'aab'), [[0, 1], [2]]],
  ['none', [], []],
])('on paper: %s', (_, given, expected) => {
  expect(paperParts(given)).toEqual(expected);
});
