import Papa from 'papaparse';
import { expect, test } from 'vitest';
import { tableRows } from '../../../src/class/csv.ts';
import { pack } from '../../../src/class/packed.ts';
import { peopleOf } from '../../../src/class/people.ts';
import { classTable } from '../../../src/class/table.ts';
import { DEFAULT_SETTINGS, type TraineeRecord } from '../../../src/class/types.ts';
import { writeRows } from '../../../src/exchange/rows-out.ts';
import type { Report } from '../../../src/model/report.ts';
import { deckOf, item, received, reportOf } from '../../helpers/plain-report.ts';

const csvOf = (
  trainee: string,
  title: string,
  note = '',
  items = [item('calder/try#a.place~1')],
  given: Partial<Report> = {},
  expected: readonly string[] = [],
): string => {
  const report = pack(received(reportOf({ trainee, decks: [deckOf(items, { title })], ...given })), 0);
  const record: TraineeRecord = { key: report.key, letters: 'ABCD EFGH IJKL MNOP', joined: null, note };
  const table = classTable({
    people: peopleOf([report], [record]),
    reports: new Map([[report.hash, report]]),
    decks: new Map(),
    settings: { ...DEFAULT_SETTINGS, expected },
    today: '2026-11-27',
  });
  return writeRows(tableRows(table));
};

test('a trainee a row, recall as a share', () => {
  const [head = '', row = ''] = csvOf('Falcon', 'Try').split('\r\n');
  expect(head).toContain('"Recall, all"');
  expect(head).toContain('"Try, recall","Try, lowest critical"');
  expect(row).toBe(
    'Falcon,ABCD EFGH IJKL MNOP,2026-11-25,1.0.0,2026-12-07,10,,"the check date, if practice stopped",1,0,1,1,100,10,,,3,1,2026-11-20,12,60,1,0,0.800,,,,0.800,',
  );
});

/** As a spreadsheet has it: by the words at the head of the columns. */
const rowsOf = (csv: string): Record<string, string>[] =>
  Papa.parse<Record<string, string>>(csv, { header: true }).data;

test('practice, sure but wrong, and what the own app expects stand in columns of their own', () => {
  const items = [
    item('calder/try#a.place~1', { verdicts: [3, 1, 0, 2], sureWrong: 2 }),
    item('calder/try#b.place~1', { verdicts: [1, 0, 0, 0], sureWrong: 1 }),
  ];
  const days = ['2026-11-20', '2026-11-23'];
  const plan = { minutes: 10, recall: 0.93, needed: 12 };
  const [row] = rowsOf(csvOf('Falcon', 'Try', '', items, { days, answers: 5, plan }));
  expect(row).toMatchObject({
    'Deck version': '1.0.0',
    'Questions answered': '5',
    'Answers, counted by item': '7',
    'Of these sure but wrong': '3',
    'Days practised': '2',
    'Last day practised': '2026-11-23',
    'Minutes a day': '10',
    'Recall expected by their plan': '0.930',
    'Minutes a day for 0.95': '12',
    'Recall is that of': 'the check date, if practice stopped',
  });
  // What was left out is empty, not nought.
  const bare = items.map(({ sureWrong: _, last: __, ...one }) => one);
  const [without] = rowsOf(
    csvOf('Falcon', 'Try', '', bare, { leftOut: ['sure', 'days'], days: undefined as never, checkDate: null }),
  );
  expect(without).toMatchObject({
    'Of these sure but wrong': '',
    'Days practised': '',
    'Last day practised': '',
    'Recall is that of': 'the day of the report',
  });
  const [hopeless] = rowsOf(csvOf('Falcon', 'Try', '', items, { plan: { ...plan, needed: null } }));
  expect(hopeless?.['Minutes a day for 0.95']).toBe('none would');
});

test('whoever is expected and never reported has a row', () => {
  const rows = rowsOf(csvOf('Falcon', 'Try', '', undefined, {}, ['falcon', '=Dove']));
  expect(rows.slice(0, 2).map((row) => [row.Trainee, row['Report made'], row['Recall, all']])).toEqual([
    ['Falcon', '2026-11-25', '0.800'],
    ["'=Dove", 'no report yet', ''],
  ]);
});

test('checks of some procedures before that of all, each with its date', () => {
  const items = [item('calder/try#a.place~1', { check: '2026-12-01' }), item('calder/try#b.place~1')];
  const [row] = rowsOf(csvOf('Falcon', 'Try', '', items));
  expect(row?.['Checked before']).toBe('2026-12-01: Try');
});

/** OWASP, "CSV Injection": cells that begin with = + - @, a tab or a carriage return. */
test.each(['=HYPERLINK("https://x.example")', '+1', '-1', '@SUM(A1)', '\t=1', '\r=1'])(
  'what a trainee, an author or the instructor wrote is never run: %j',
  (evil) => {
    const csv = csvOf(evil, evil, evil);
    const rows = Papa.parse<string[]>(csv, { delimiter: ',' }).data;
    const cells = rows.flat().filter((cell) => cell.includes(evil));
    expect(cells.length).toBeGreaterThan(2);
    for (const cell of rows.flat()) expect(cell).not.toMatch(/^[=+\-@\t\r]/);
  },
);
