import type { Cell, ClassTable, Row } from './table.ts';

const figure = (share: number | null): string => (share === null ? '' : share.toFixed(3));
const cellFigures = (cell: Cell | null): readonly string[] =>
  cell === null ? ['', ''] : [figure(cell.recall), figure(cell.critical)];
const listed = ({ old }: Row): string =>
  old.map(({ title, version, how }) => `${title} ${version} (${how})`).join('; ');

/**
 * The table as rows of text, a trainee a row; recall as a share with a point. Cells are as trainees and authors wrote
 * them: whoever makes CSV of them must keep spreadsheets from running them (`writeRows` of src/exchange does).
 */
export const tableRows = ({ columns, rows }: ClassTable): string[][] => {
  const several = new Set(columns.map(({ deck }) => deck)).size > 1;
  const head = [
    'Trainee',
    'Key',
    'Report made',
    'Check date',
    'Days left',
    'Checked before',
    'Recall stands for',
    'Items',
    'Never asked',
    'Below target',
    'Least minutes',
    'Minutes planned',
    'Recall, all',
    'Recall, lowest critical',
    'Another revision',
    'Note',
    ...columns.flatMap(({ title, deckTitle }) => {
      const name = several ? `${deckTitle}: ${title}` : title;
      return [`${name}, recall`, `${name}, lowest critical`];
    }),
  ];
  return [
    head,
    ...rows.map((row) => [
      row.person.name,
      row.person.devices.map(({ letters, key }) => letters || key).join('; '),
      row.made,
      row.checkDate ?? '',
      row.daysLeft === null ? '' : String(row.daysLeft),
      row.checks.map(({ date, columns: own }) => `${date}: ${own.map(({ title }) => title).join(', ')}`).join('; '),
      row.asOfReport ? 'day of the report' : 'check date',
      String(row.items),
      String(row.unmet),
      String(row.short),
      String(row.minutes),
      row.planned === null ? '' : String(row.planned),
      figure(row.recall),
      figure(row.critical),
      listed(row),
      row.person.note,
      ...row.cells.flatMap(cellFigures),
    ]),
  ];
};
