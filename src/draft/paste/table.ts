import { callout, cellWords, isBareNumbered, plain, unmarked } from './clean.ts';
import type { CrewOf } from './crew.ts';
import { type Column, columnOf, isHeadings } from './headings.ts';
import type { Fields, Lane, Read, Reading } from './types.ts';
import { readWords } from './words.ts';

type Row = readonly string[];

/** What each column holds. `crew`: a column of that pilot's steps. */
type Held = { readonly column: Column } | { readonly crew: string; readonly lane: number } | null;

/** Rows above which headings are looked for. */
const MOST_ABOVE = 15;

/**
 * A table as steps. Of a table with a column for each of several pilots each cell is a step, and its column a lane.
 * Without headings the column with names of the crew is the crew's, and all words are the action's.
 */
export const readTable = (rows: readonly Row[], crewOf: CrewOf): Read => {
  const isCrew = (cell: string) => crewOf(cell) !== null;
  const head = rows.slice(0, MOST_ABOVE).findIndex((row) => isHeadings(row, isCrew));
  const top = rows[head];
  const below = rows.slice(head + 1);
  const columns = top === undefined ? guessed(rows, crewOf) : headed(top, below, crewOf);
  const notes = columns.flatMap((held, i) =>
    unread(
      held,
      top?.[i],
      below.map((row) => row[i] ?? ''),
      i,
    ),
  );
  const title =
    rows
      .slice(0, Math.max(head, 0))
      .map(line)
      .find((text) => text !== '') ?? null;
  const readings: Reading[] = [];
  let section = 0;
  for (const [i, row] of rows.entries()) {
    const text = line(row);
    if (text === '') {
      section += 1;
      continue;
    }
    const skipped = skipOf(row, i, head, top);
    if (skipped !== null) {
      readings.push(unstep(i + 1, text, skipped));
      continue;
    }
    const read = readRow(row, i + 1, columns, crewOf, section);
    if (read.common) section += 1;
    readings.push(...read.readings);
  }
  return { readings, title, notes };
};

const line = (row: Row): string =>
  row
    .map(plain)
    .filter((cell) => cell !== '')
    .join(' | ');

const unstep = (row: number, text: string, skip: string): Reading => ({
  row,
  text,
  skip,
  fields: {},
  lane: null,
  notes: [],
});

const skipOf = (row: Row, i: number, head: number, top: Row | undefined): string | null => {
  if (i < head) return 'It stands above the headings.';
  if (i === head) return 'The headings of the columns.';
  if (top?.every((cell, k) => plain(cell) === plain(row[k] ?? ''))) return 'The headings again.';
  return null;
};

const headed = (top: Row, below: readonly Row[], crewOf: CrewOf): Held[] => {
  const named = top.map((cell) => (columnOf(cell) === null ? crewOf(cell) : null));
  const pilots = named.filter((id) => id !== null && id !== 'both' && id !== 'either');
  let lane = 0;
  const used = new Set<Column>();
  return top.map((cell, i): Held => {
    const crew = named[i] ?? null;
    if (crew !== null) return pilots.length > 0 ? { crew, lane: lane++ } : null;
    const cells = below.map((row) => row[i] ?? '').filter((one) => one.trim() !== '');
    let column = columnOf(cell);
    const isNumbers = cells.length > 0 && cells.every((one) => /^\s*\(?\d{0,3}[a-z]?(?:\.\d+)*[.)]?\s*$/i.test(one));
    // "Step" and "Item" may head the numbers.
    if (/^(?:steps?|item)$/i.test(cell.trim()) && isNumbers) column = 'number';
    if (column === null || used.has(column)) return null;
    used.add(column);
    return { column };
  });
};

const guessed = (rows: readonly Row[], crewOf: CrewOf): Held[] => {
  const width = Math.max(0, ...rows.map((row) => row.length));
  const cells = Array.from({ length: width }, (_, i) => rows.map((row) => (row[i] ?? '').trim()));
  const there = cells.map((column) => column.filter((cell) => cell !== ''));
  const crew = there.findIndex(
    (column) => column.length > 0 && column.filter((one) => crewOf(one) !== null).length * 2 > column.length,
  );
  return cells.map((column, i): Held => {
    if (i === crew) return { column: 'by' };
    const isNumbers = isBareNumbered(column.map((cell) => `${cell.replace(/[.)]$/, '')} x`));
    return { column: isNumbers ? 'number' : 'do' };
  });
};

const unread = (held: Held, heading: string | undefined, cells: readonly string[], i: number): string[] => {
  if (held !== null || cells.every((cell) => cell.trim() === '')) return [];
  const name = plain(heading ?? '');
  const what = name === '' ? `Column ${i + 1} has no heading and` : `Column “${name}”`;
  return [
    `${what} is not read. Headings that are: crew, action, callout, cue, limit, why, slip, where, source, condition, critical, or PF and PM for a column each.`,
  ];
};

interface ReadRow {
  readonly readings: readonly Reading[];
  /** Both pilots do it: what comes after is a section of its own. */
  readonly common?: true;
}

const readRow = (row: Row, n: number, columns: readonly Held[], crewOf: CrewOf, section: number): ReadRow => {
  const cells = new Map<Column, string>();
  const lanes: { readonly crew: string; readonly column: number; readonly cell: string }[] = [];
  columns.forEach((held, i) => {
    const cell = row[i] ?? '';
    if (held === null || cell.trim() === '') return;
    const there = 'column' in held ? cells.get(held.column) : undefined;
    if ('column' in held) cells.set(held.column, there === undefined ? cell : `${there} – ${cell}`);
    else lanes.push({ crew: held.crew, column: held.lane, cell });
  });
  const text = line(row);
  const { fields: about, notes } = aboutOf(cells, crewOf);
  const readingOf = (said: ReturnType<typeof readWords>, lane: Lane | null): Reading => ({
    row: n,
    text,
    skip: null,
    fields: withCue({ ...about, ...said.fields }, about.cue),
    lane,
    ...(said.responds && { responds: said.responds }),
    notes: [...notes, ...said.notes],
  });
  const first = lanes[0];
  if (first !== undefined) {
    const isSame = lanes.length > 1 && lanes.every(({ cell }) => cellWords(cell) === cellWords(first.cell));
    if (isSame) return { readings: parts(first.cell, 'both', crewOf).map((one) => readingOf(one, null)), common: true };
    const isCommon = lanes.length === 1 && ['both', 'either'].includes(first.crew);
    const readings = lanes.flatMap(({ crew, column, cell }) =>
      parts(cell, crew, crewOf).map((one) => readingOf(one, isCommon ? null : { section, column })),
    );
    return isCommon ? { readings, common: true } : { readings };
  }
  const written = laneOf(cells.get('lane'));
  const action = cells.get('do');
  const said = cells.get('say');
  if (action === undefined && said === undefined)
    return { readings: [unstep(n, text, 'It has no action and no callout.')] };
  if (said === undefined && !columns.some((held) => held !== null && 'column' in held && held.column === 'say'))
    return { readings: parts(action as string, about.by, crewOf).map((one) => readingOf(one, written)) };
  const fields = {
    ...(about.by !== undefined && { by: about.by }),
    ...(action !== undefined && { do: cellWords(action) }),
    ...(said !== undefined && { say: callout(said) }),
  };
  return { readings: [readingOf({ fields, notes: [] }, written)] };
};

/** A cue of its own column counts before one in the words. */
const withCue = (fields: Fields, cue: string | undefined): Fields => {
  if (cue === undefined) return fields;
  const { cueInWords: _, ...rest } = fields;
  return { ...rest, cue };
};

/** As `toRows` writes it: block and lane, from 1. */
const laneOf = (cell: string | undefined): Lane | null => {
  const [, section, column] = /^\s*(\d{1,4})[.,](\d{1,2})\s*$/.exec(cell ?? '') ?? [];
  return section === undefined ? null : { section: Number(section), column: Number(column) - 1 };
};

/** Lines of a cell that are numbered or marked are steps of their own. */
const parts = (cell: string, by: string | undefined, crewOf: CrewOf): ReturnType<typeof readWords>[] => {
  const lines = cell.split('\n').filter((one) => one.trim() !== '');
  const isList = lines.length > 1 && lines.every((one) => unmarked(one).marker !== '');
  return (isList ? lines : [cell]).map((one) => {
    const said = readWords(cellWords(one), crewOf, by);
    // The column says who, whatever the words say.
    return by === undefined ? said : { ...said, fields: { ...said.fields, by } };
  });
};

/** What is neither action nor callout. */
const aboutOf = (
  cells: ReadonlyMap<Column, string>,
  crewOf: CrewOf,
): { readonly fields: Fields; readonly notes: string[] } => {
  const notes: string[] = [];
  const fields: { -readonly [K in keyof Fields]?: Fields[K] } = {};
  for (const key of ['cue', 'limit', 'why', 'slip', 'where', 'source', 'if', 'answers', 'id'] as const) {
    const words = plain(cells.get(key) ?? '');
    if (words !== '') fields[key] = words;
  }
  const by = plain(cells.get('by') ?? '').replace(/:$/, '');
  if (by !== '') {
    const id = crewOf(by);
    fields.by = id ?? by;
    if (id === null) notes.push(`“${by}” is no member of the crew of this deck: choose who it is.`);
  }
  const critical = plain(cells.get('critical') ?? '');
  if (/^(?:y|yes|x|true|1|critical|✓|✔)$/i.test(critical)) fields.critical = true;
  return { fields, notes };
};
