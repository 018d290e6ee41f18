import Papa from 'papaparse';
import { expect, test } from 'vitest';
import { tableRows } from '../../../src/class/csv.ts';
import { pack } from '../../../src/class/packed.ts';
import { peopleOf } from '../../../src/class/people.ts';
import { classTable } from '../../../src/class/table.ts';
import { DEFAULT_SETTINGS, type TraineeRecord } from '../../../src/class/types.ts';
import { writeRows } from '../../../src/exchange/rows-out.ts';
import { deckOf, item, received, reportOf } from '../../helpers/plain-report.ts';

const csvOf = (trainee: string, title: string, note = '', items = [item('calder/try#a.place~1')]): string => {
  const report = pack(received(reportOf({ trainee, decks: [deckOf(items, { title })] })), 0);
  const record: TraineeRecord = { key: report.key, letters: 'ABCD EFGH IJKL MNOP', joined: null, note };
  const table = classTable({
    people: peopleOf([report], [record]),
    reports: new Map([[report.hash, report]]),
    decks: new Map(),
    settings: DEFAULT_SETTINGS,
    today: '2026-11-27',
  });
  return writeRows(tableRows(table));
};

test('a trainee a row, recall as a share', () => {
  const [head = '', row = ''] = csvOf('Falcon', 'Try').split('\r\n');
  expect(head).toContain('"Recall, all"');
  expect(head).toContain('"Try, recall","Try, lowest critical"');
  expect(row).toBe('Falcon,ABCD EFGH IJKL MNOP,2026-11-25,2026-12-07,10,,check date,1,0,1,1,100,0.800,,,,0.800,');
});

test('checks of some procedures before that of all, each with its date', () => {
  const items = [item('calder/try#a.place~1', { check: '2026-12-01' }), item('calder/try#b.place~1')];
  const [head = '', row = ''] = csvOf('Falcon', 'Try', '', items).split('\r\n');
  expect(head.split(',')[5]).toBe('Checked before');
  expect(row).toContain(',2026-12-07,10,2026-12-01: Try,check date,');
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
