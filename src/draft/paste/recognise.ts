import { crewFinder } from './crew.ts';
import { conditionOf, isFormula, limitOf, sourceOf } from './known.ts';
import { readList } from './list.ts';
import { readTable } from './table.ts';
import type { Fields, Known, Read, Reading, Rows } from './types.ts';

/** Letters of a cell or line that may be a step; the longest text of a deck has 600. It bounds the time of reading. */
const MOST_LETTERS = 1000;

/** Rows as steps: who does or says what, at which cue, and what of it the deck knows. Nothing is taken over yet. */
export const recognise = ({ rows: all, kind }: Rows, known: Known): Read => {
  const isLong = all.map((row) => row.some((cell) => cell.length > MOST_LETTERS));
  const rows = all.map((row, i) => (isLong[i] ? [''] : row));
  const crewOf = crewFinder(known.crew);
  const read = kind === 'table' ? readTable(rows, crewOf) : readList(rows, crewOf);
  const readings = [...read.readings, ...all.flatMap((row, i) => (isLong[i] ? [tooLong(row, i + 1)] : []))];
  return {
    ...read,
    readings: readings.sort((a, b) => a.row - b.row).map((reading) => referring(reading, known)),
  };
};

const tooLong = (row: readonly string[], n: number): Reading => ({
  row: n,
  text: `${row.join(' | ').slice(0, 100)} …`,
  skip: `It is longer than ${MOST_LETTERS} letters: no step. Part it in the list.`,
  fields: {},
  lane: null,
  notes: [],
});

/** Names of limits, sources and conditions become references. */
const referring = (reading: Reading, known: Known): Reading => {
  if (reading.skip !== null) return reading;
  const notes = [...reading.notes];
  const { limit, source, if: condition, ...rest } = reading.fields;
  const fields: { -readonly [K in keyof Fields]?: Fields[K] } = rest;
  if (limit !== undefined) {
    const found = limitOf(limit, known);
    fields.limit = found.limit;
    if (found.note !== undefined) notes.push(found.note);
  }
  if (source !== undefined) {
    const found = sourceOf(source, known);
    fields.source = found.source;
    if (found.note !== undefined) notes.push(found.note);
  }
  if (condition !== undefined) {
    const found = conditionOf(condition, known) ?? (isFormula(condition) ? condition : null);
    if (found !== null) fields.if = found;
    else {
      fields.cue = fields.cue === undefined ? condition : `${condition}; ${fields.cue}`;
      notes.push(`“${condition}” is no condition of this deck: taken as the cue.`);
    }
  }
  return { ...reading, fields, notes };
};
