import { ADVISED } from '../memory/outlook.ts';
import type { Cell, ClassTable, Row } from './table.ts';

const figure = (share: number | null): string => (share === null ? '' : share.toFixed(3));
const cellFigures = (cell: Cell | null): readonly string[] =>
  cell === null ? ['', ''] : [figure(cell.recall), figure(cell.critical)];
const listed = ({ old }: Row): string =>
  old.map(({ title, version, how }) => `${title} ${version} (${how})`).join('; ');

/** Column of the day on which the report was made. */
const MADE = 2;

/**
 * The table as rows of text, a trainee a row, those too who are expected and of whom nothing came; recall as a share with a point. Cells are as trainees and authors wrote
 * them: whoever makes CSV of them must keep spreadsheets from running them (`writeRows` of src/exchange does).
 */
export const tableRows = ({ columns, rows, missing }: ClassTable): string[][] => {
  const several = new Set(columns.map(({ deck }) => deck)).size > 1;
  const head = [
    'Trainee',
    'Key',
    'Report made',
    'Deck version',
    'Check date',
    'Days left',
    'Checked before',
    'Recall is that of',
    'Items',
    'Never asked',
    'Below target',
    'Least minutes',
    'Minutes planned',
    'Minutes a day',
    'Recall expected by their plan',
    `Minutes a day for ${ADVISED}`,
    'Questions answered',
    'Days practised',
    'Last day practised',
    'Minutes spent answering',
    'Minutes planned from the first day to the report',
    'Answers, counted by item',
    'Of these sure but wrong',
    'Recall, all',
    'Recall, lowest critical',
    'Another revision',
    'Note',
    ...columns.flatMap(({ title, deckTitle }) => {
      const name = several ? `${deckTitle}: ${title}` : title;
      return [`${name}, recall`, `${name}, lowest critical`];
    }),
  ];
  const unreported = (name: string) => head.map((_, i) => (i === 0 ? name : i === MADE ? 'no report yet' : ''));
  return [
    head,
    ...rows.map((row) => [
      row.person.name,
      row.person.devices.map(({ letters, key }) => letters || key).join('; '),
      row.made,
      row.report.decks.map(({ title, version }) => (several ? `${title} ${version}` : version)).join('; '),
      row.checkDate ?? '',
      row.daysLeft === null ? '' : String(row.daysLeft),
      row.checks.map(({ date, columns: own }) => `${date}: ${own.map(({ title }) => title).join(', ')}`).join('; '),
      row.asOfReport ? 'the day of the report' : 'the check date, if practice stopped',
      String(row.items),
      String(row.unmet),
      String(row.short),
      String(row.minutes),
      row.planned === null ? '' : String(row.planned),
      String(row.report.planned),
      figure(row.plan?.recall ?? null),
      row.plan === null ? '' : row.plan.needed === null ? 'none would' : String(row.plan.needed),
      String(row.report.answers),
      row.report.days === undefined ? '' : String(row.report.days.length),
      row.report.days?.at(-1) ?? '',
      String(row.report.minutes ?? ''),
      String(row.practised?.planned ?? ''),
      String(row.answered),
      row.sureWrong === null ? '' : String(row.sureWrong),
      figure(row.recall),
      figure(row.critical),
      listed(row),
      row.person.note,
      ...row.cells.flatMap(cellFigures),
    ]),
    ...missing.map(unreported),
  ];
};
