import Papa from 'papaparse';
import { crewFinder } from '../draft/paste/crew.ts';
import { columnOf, isHeadings } from '../draft/paste/headings.ts';
import type { Rows } from '../draft/paste/types.ts';
import { DEFAULT_CREW } from '../model/deck.ts';
import { FORMULA } from './rows-out.ts';

/** UTF-16 units of a text that is read at all. */
export const MOST_LETTERS = 500_000;
export const MOST_ROWS = 2000;

/**
 * Takes a pasted text or a file apart: lines of a list, or rows of a table. Tables are tab separated, as a spreadsheet
 * copies them, or separated by commas (RFC 4180) or semicolons (as spreadsheets write where the comma is in numbers).
 * Line ends of any kind; a byte order mark is left out.
 * @param as what it is, where the author knows better
 */
export const readRows = (text: string, as?: 'list' | 'table'): Rows => {
  if (text.length > MOST_LETTERS)
    return refused(
      as,
      null,
      `The text has ${grouped(text.length)} characters; at most ${grouped(MOST_LETTERS)} are read. Take one procedure at a time.`,
    );
  const clean = text.replace(/^\ufeff/, '').replaceAll(/\r\n?|[\u2028\u2029\u0085\v]/g, '\n');
  const lines = clean.split('\n');
  const delimiter = as === 'list' ? null : (delimiterOf(lines) ?? (as === 'table' ? anyDelimiter(lines) : null));
  const read = delimiter === null ? listOf(lines) : tableOf(clean, delimiter);
  if (read.rows.length > MOST_ROWS)
    return refused(
      read.kind,
      null,
      `The text has ${grouped(read.rows.length)} rows; at most ${grouped(MOST_ROWS)} are read. Take one procedure at a time.`,
    );
  const row = read.rows.findIndex((cells) => cells.some((cell) => cell.includes('\ufffd')));
  if (row < 0) return read;
  const message = 'Some letters could not be read (�). Save the file as UTF-8 and take it again, or mend them here.';
  return { ...read, findings: [...read.findings, { severity: 'warning', row: row + 1, message }] };
};

const grouped = (n: number): string => String(n).replaceAll(/\B(?=(\d{3})+$)/g, ' ');

const refused = (kind: Rows['kind'] | undefined, row: number | null, message: string): Rows => ({
  rows: [],
  kind: kind ?? 'list',
  findings: [{ severity: 'error', row, message }],
});

const crewOf = crewFinder(DEFAULT_CREW.map(({ id, label }) => ({ id, names: [label] })));
const isCrew = (cell: string): boolean => crewOf(cell) !== null;

/** A number or sign before the item, and the tab that a word processor puts behind it. */
const NUMBERED = /^\s*(?:\S{1,6}|Step \d+:?)\t(?=[^\t]*$)/;
const isBlank = (line: string): boolean => line.trim() === '';

/** What parts the cells, where the text is a table; null: it is a list. */
const delimiterOf = (lines: readonly string[]): string | null => {
  const there = lines.filter((line) => !isBlank(line));
  const [first = ''] = there;
  const parted = (line: string, delimiter: string): string[] =>
    line.split(delimiter).map((cell) => cell.replaceAll('"', ''));
  const goesOn = (delimiter: string) =>
    there.slice(1).filter((line) => line.includes(delimiter)).length * 2 >= there.length - 1;
  for (const delimiter of ['\t', ',', ';']) {
    const cells = parted(first, delimiter);
    if (cells.length < 2 || !isHeadings(cells, isCrew)) continue;
    // Headings alone tell, where all are known: cells of many lines hide how a table goes on.
    if (goesOn(delimiter) || cells.every((cell) => columnOf(cell) !== null || isCrew(cell))) return delimiter;
  }
  const tabbed = there.filter((line) => line.replace(NUMBERED, '').trim().includes('\t') || /^\t+\S/.test(line));
  if (tabbed.length > 0 && tabbed.length * 2 >= there.length) return '\t';
  for (const delimiter of [',', ';']) {
    const crewFirst = there.filter((line) => line.includes(delimiter) && isCrew(parted(line, delimiter)[0] ?? ''));
    if (there.length > 1 && crewFirst.length * 2 > there.length) return delimiter;
  }
  return null;
};

/** The author says that it is a table: what stands most often. */
const anyDelimiter = (lines: readonly string[]): string => {
  const count = (delimiter: string) => lines.filter((line) => line.includes(delimiter)).length;
  return ['\t', ';', ','].reduce((best, one) => (count(one) > count(best) ? one : best));
};

const listOf = (lines: readonly string[]): Rows => ({
  // A form feed is where a page ends: a line of its own.
  rows: lines.flatMap((line) => line.split(/(\f)/).filter((part, i) => i === 0 || part !== '')).map((line) => [line]),
  kind: 'list',
  findings: [],
});

const tableOf = (text: string, delimiter: string): Rows => {
  const tabs = delimiter === '\t';
  const quoted = Papa.parse<string[]>(tabs ? literalQuotes(text) : text, { delimiter, newline: '\n' });
  const [wrong] = quoted.errors.filter(({ type }) => type === 'Quotes');
  if (wrong === undefined)
    return { rows: quoted.data.map((cells) => cells.map(unescaped)), kind: 'table', findings: [] };
  const row = (wrong.row ?? 0) + 1;
  if (!tabs)
    return refused(
      'table',
      row,
      wrong.code === 'MissingQuotes'
        ? `Row ${row} has a quotation mark that is never closed. Close it, or write a mark inside a cell twice (RFC 4180, section 2).`
        : `Row ${row} has words behind a closing quotation mark. Put the whole cell in quotation marks and write those inside it twice (RFC 4180, section 2).`,
    );
  // Cells of a spreadsheet hold no line breaks here: marks are read as they stand.
  const message = `Row ${row} has a quotation mark without its other half: all marks are read as they stand.`;
  const rows = text.split('\n').map((line) => line.split('\t').map(unescaped));
  return { rows, kind: 'table', findings: [{ severity: 'warning', row, message }] };
};

/** Without the apostrophe that `writeRows` puts before what a spreadsheet would run. */
const unescaped = (cell: string): string => (cell.startsWith("'") && FORMULA.test(cell) ? cell.slice(1) : cell);

/**
 * Spreadsheets put only cells with line breaks or tabs in quotation marks when they copy. A cell within marks that needs
 * none was typed so, and means a callout: its marks are kept.
 */
const literalQuotes = (text: string): string =>
  text.replaceAll(
    /(^|[\t\n])("[^"\t\n]+"(?:[^"\t\n][^\t\n]*)?)(?=[\t\n]|$)/g,
    (_, before: string, cell: string) => `${before}"${cell.replaceAll('"', '""')}"`,
  );
