import { crewFinder } from './crew.ts';
import { conditionOf, isFormula, limitOf, sourceOf } from './known.ts';
import { readList } from './list.ts';
import { readTable } from './table.ts';
import type { Fields, Known, Read, Reading, Rows } from './types.ts';

/** Rows as steps: who does or says what, at which cue, and what of it the deck knows. Nothing is taken over yet. */
export const recognise = ({ rows, kind }: Rows, known: Known): Read => {
  const crewOf = crewFinder(known.crew);
  const read = kind === 'table' ? readTable(rows, crewOf) : readList(rows, crewOf);
  return { ...read, readings: read.readings.map((reading) => referring(reading, known)) };
};

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
