import { expect, test } from 'vitest';
import type { Column, OwnCheck, Row } from '../../../src/class/table.ts';
import { checkedWords, minutesWords, whenWords } from '../../../src/ui/class/words.ts';

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
