import { expect, test } from 'vitest';
import type { OldRevision } from '../../../src/class/revisions.ts';
import type { Column, OwnCheck, Row } from '../../../src/class/table.ts';
import { columnWidth, columnWidths } from '../../../src/ui/class/columns.ts';
import { paperParts } from '../../../src/ui/class/OnPaper.tsx';
import {
  checkedWords,
  dayIn,
  itemsWords,
  minutesWords,
  olderAssignment,
  paperWords,
  planWords,
  revisionWords,
  share,
  shortMinutes,
  shortSureWrong,
  sureWrongWords,
  tableMinutes,
  whenWords,
} from '../../../src/ui/class/words.ts';

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

test.each([
  [0, '0 %'],
  [0.0049, '0 %'],
  [0.005, '1 %'],
  [0.029, '3 %'],
  [0.285, '29 %'],
  [0.994, '99 %'],
  [0.995, '100 %'],
  // Short of a target, it does not read as if it reached it.
  [0.8999, '89.9 %'],
  [0.895, '89.5 %'],
  [0.9, '90 %'],
  [0.9449, '94 %'],
  [0.947, '94.7 %'],
  [0.968, '96.8 %'],
  [0.97, '97 %'],
])('%d reads %s', (value, words) => {
  expect(share(value).replace('\u00a0', ' ')).toBe(words);
});

const plain = (words: string) => words.replaceAll('\u00a0', ' ');

test('minutes by the own app, where the report says them, else the floor', () => {
  const plan = { minutes: 10, recall: 0.93, needed: 12 };
  expect(plain(planWords(plan))).toBe('10 a day: about 93 %; 12 a day would reach 95 %');
  expect(plain(planWords({ ...plan, needed: null }))).toBe('10 a day: about 93 %; no minutes would reach 95 %');
  expect(plain(planWords({ ...plan, recall: 0.96, needed: 10 }))).toBe('10 a day: about 96 %');
  const least = { short: 2, minutes: 3, planned: 40, practised: null };
  expect(plain(tableMinutes({ ...least, plan }))).toBe(plain(planWords(plan)));
  expect(tableMinutes({ ...least, plan: null })).toBe('at least 3, 40 planned');
  const practised = { minutes: 1, planned: 45 };
  expect(tableMinutes({ ...least, plan: null, practised })).toBe('at least 3, 40 planned; 1 of 45 min answering');
  expect(sureWrongWords({ sureWrong: 3, answered: 40 })).toBe('3 of 40');
  expect(sureWrongWords({ sureWrong: null, answered: 40 })).toBe('left out');
});

test('another revision names what it is held against', () => {
  const old: OldRevision = {
    deck: 'calder/try',
    title: 'Try',
    version: '1.1.2',
    wanted: '3.0.0',
    by: 'device',
    how: 'older',
    assigned: null,
  };
  expect(revisionWords(old)).toBe('1.1.2, older than 3.0.0 on this device');
  expect(revisionWords({ ...old, assigned: '2.0.0' })).toBe(
    '1.1.2, older than 3.0.0 on this device; 2.0.0 is the one that you assigned',
  );
  expect(revisionWords({ ...old, assigned: '1.1.2' })).toBe(
    '1.1.2, older than 3.0.0 on this device; it is the one that you assigned',
  );
  expect(revisionWords({ ...old, by: 'assignment', wanted: '2.0.0' })).toBe(
    '1.1.2, older than 2.0.0 that you assigned',
  );
  expect(revisionWords({ ...old, how: 'other', wanted: '1.1.2' })).toBe('another 1.1.2 than the one on this device');
  expect(revisionWords({ ...old, how: 'other', wanted: null, by: 'class' })).toBe(
    '1.1.2, another revision than the one that is expected',
  );
});

test.each([
  [
    { items: 269, unmet: 12, notAsked: 0 },
    '269 items are asked of this trainee. 12 have not come up yet. Nothing of the deck is left out.',
  ],
  [
    { items: 1, unmet: 0, notAsked: 1 },
    '1 item is asked of this trainee. Each has come up at least once. 1 more item of the deck is not asked: left out, or not yet open.',
  ],
  [
    { items: 3, unmet: 3, notAsked: 4 },
    '3 items are asked of this trainee. None has come up yet. 4 more items of the deck are not asked: left out, or not yet open.',
  ],
  [
    { items: 0, unmet: 0, notAsked: 2 },
    'Nothing is asked of this trainee. 2 more items of the deck are not asked: left out, or not yet open.',
  ],
])('%j in sentences', (given, words) => {
  expect(itemsWords(given)).toBe(words);
});

test('what is short in a column says the same', () => {
  const floor = { plan: null, short: 2, minutes: 3, planned: 40, practised: null };
  const read = (given: Parameters<typeof shortMinutes>[0]) => {
    const { figure, of } = shortMinutes(given);
    return [figure, of === null ? null : plain(of)];
  };
  expect(read({ ...floor, short: 0, minutes: 0 })).toEqual(['none', null]);
  expect(read(floor)).toEqual(['3', 'of 40']);
  expect(read({ ...floor, planned: null })).toEqual(['3', 'in all']);
  const practised = { minutes: 1, planned: 45 };
  for (const own of [null, { minutes: 10, recall: 0.93, needed: 12 }])
    expect(shortMinutes({ ...floor, plan: own, practised }).done).toBe('1 of 45 min answering');
  expect(shortMinutes(floor).done).toBe('');
  const plan = { minutes: 10, recall: 0.93, needed: 12 };
  expect(read({ ...floor, plan })).toEqual(['10', 'a day: 93 %; 12: 95 %']);
  expect(read({ ...floor, plan: { ...plan, needed: null } })).toEqual(['10', 'a day: 93 %; 95 % out of reach']);
  expect(read({ ...floor, plan: { ...plan, recall: 0.96 } })).toEqual(['10', 'a day: 96 %']);
  expect(shortSureWrong({ sureWrong: 3, answered: 40 })).toEqual({ figure: '3', of: 'of 40' });
  expect(shortSureWrong({ sureWrong: null, answered: 40 })).toEqual({ figure: 'left out', of: null });
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

test('an assignment is told where a later number went out from here', () => {
  const handed = new Map([['group', 3]]);
  const of = (id: string, n: number) => olderAssignment({ assignment: { id, n } }, handed);
  expect(of('group', 2)).toBe('number 2; you handed out number 3');
  expect([of('group', 3), of('group', 4), of('other', 1), olderAssignment({}, handed)]).toEqual(Array(4).fill(null));
});
