import { basename } from 'node:path';
import { parseArgs } from 'node:util';
import { layOut } from '../deck/layout.ts';
import { readDeck } from '../deck/read.ts';
import { blankDeck, blankProcedure, idsIn } from '../draft/blank.ts';
import { knownOf } from '../draft/paste/known.ts';
import { choicesFor, type Proposal, propose } from '../draft/paste/propose.ts';
import { recognise } from '../draft/paste/recognise.ts';
import { fateWords, rowWords, summary } from '../draft/paste/report.ts';
import type { Read, Rows } from '../draft/paste/types.ts';
import { readRows } from '../exchange/rows.ts';
import type { Json } from '../lib/canonical-json.ts';
import type { Deck, Node, Procedure } from '../model/deck.ts';
import { stepText } from '../subjects/procedure/words.ts';
import type { Machine } from './run.ts';
import type { Tool } from './tool.ts';

const ID = /^[a-z0-9][a-z0-9-]*$/;

/**
 * `from-csv FILE [--procedure ID] [--title TITLE] [--into DECK] [--as list|table] [--order columns|rows] [--keep]`: a list or
 * table as the steps of a procedure, as the Workshop reads it. The deck goes to standard output, the report to standard error.
 */
export const fromCsv: Tool = (args, machine) => {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: {
      procedure: { type: 'string' },
      title: { type: 'string' },
      into: { type: 'string' },
      as: { type: 'string' },
      order: { type: 'string' },
      keep: { type: 'boolean' },
    },
  });
  const [file, ...more] = positionals;
  if (file === undefined || more.length > 0) throw new RangeError('from-csv takes one file: a CSV file or a list.');
  const as = oneOf('--as', values.as, ['list', 'table']);
  const order = oneOf('--order', values.order, ['columns', 'rows']) ?? 'columns';
  if (values.procedure !== undefined && !ID.test(values.procedure))
    throw new RangeError(`“${values.procedure}” is no id: small letters, digits and hyphens.`);
  const rows = readRows(machine.read(file), as);
  for (const { severity, message } of rows.findings) machine.err(`${file}: ${severity}: ${message}`);
  if (rows.findings.some(({ severity }) => severity === 'error')) return 1;
  const deck = values.into === undefined ? blankDeck(machine.today) : deckIn(values.into, machine);
  if (deck === null) return 1;
  const known = knownOf(deck);
  const read = recognise(rows, known);
  const procedures = ((deck as unknown as Deck).procedures ?? []) as readonly Procedure[];
  const at = procedures.findIndex(({ id }) => id === values.procedure);
  if (at < 0 && values.procedure !== undefined && idsIn(deck).has(values.procedure))
    throw new RangeError(
      `“${values.procedure}” is no procedure of ${values.into}, but the id of something else in it.`,
    );
  const nodes: readonly Node[] = procedures[at]?.steps ?? [];
  const choices = { ...choicesFor(read.readings, nodes), order };
  const first = propose(read.readings, nodes, idsIn(deck), known, choices);
  const keep = new Set(values.keep === true ? first.gone.map(({ step }) => step.id) : []);
  const proposal = keep.size === 0 ? first : propose(read.readings, nodes, idsIn(deck), known, { ...choices, keep });
  report(file, rows, read, proposal, keep, at >= 0, machine);
  if (proposal.lines.every(({ fate }) => fate === null)) {
    machine.err(`${file}: error: no row holds a step. Nothing was taken.`);
    return 1;
  }
  const title = values.title ?? read.title ?? basename(file).replace(/\.[^.]*$/, '');
  machine.out(layOut(withSteps(deck, procedures, at, proposal.nodes, title, values)).trimEnd());
  return 0;
};

const oneOf = <const T extends string>(
  option: string,
  value: string | undefined,
  choices: readonly T[],
): T | undefined => {
  if (value === undefined) return undefined;
  const found = choices.find((one) => one === value);
  if (found === undefined) throw new RangeError(`${option} is ${choices.join(' or ')}, not “${value}”.`);
  return found;
};

const deckIn = (file: string, machine: Machine): Json | null => {
  const text = machine.read(file);
  const { deck, findings } = readDeck(text);
  if (deck === undefined) machine.err(`${file} takes no steps: it has ${findings.length} errors. Run check.`);
  return deck === undefined ? null : (JSON.parse(text.replace(/^\uFEFF/, '')) as Json);
};

const withSteps = (
  deck: Json,
  procedures: readonly Procedure[],
  at: number,
  steps: readonly Node[],
  title: string,
  {
    procedure: id,
    title: asked,
    into,
  }: { readonly procedure?: string; readonly title?: string; readonly into?: string },
): Json => {
  const before = procedures[at];
  const blank = blankProcedure(deck, title) as unknown as Procedure;
  const after: Procedure =
    before === undefined
      ? { ...blank, ...(id !== undefined && { id }), steps }
      : { ...before, ...(asked !== undefined && { title: asked }), steps };
  const next = before === undefined ? [...procedures, after] : procedures.map((one) => (one === before ? after : one));
  const named = into === undefined ? { id: `my/${after.id}`, title } : {};
  return { ...(deck as object), ...named, procedures: next } as unknown as Json;
};

const report = (
  file: string,
  rows: Rows,
  read: Read,
  proposal: Proposal,
  keep: ReadonlySet<string>,
  isRevised: boolean,
  { err }: Machine,
): void => {
  err(`${file}: read as a ${rows.kind}. ${summary(proposal, isRevised)}`);
  for (const note of read.notes) err(`${file}: ${note}`);
  for (const line of proposal.lines) {
    const { reading, fate } = line;
    const words =
      fate === null ? reading.text : [reading.fields.by, rowWords(reading.fields)].filter(Boolean).join(' ');
    err(`${file}:${reading.row}: ${fateWords(line)}${/\.$/.test(fateWords(line)) ? '' : ':'} ${words}`);
    if (fate !== null) for (const note of reading.notes) err(`${file}:${reading.row}: ${note}`);
  }
  for (const { step, namedBy } of proposal.gone) {
    const named = namedBy.length > 0 && !keep.has(step.id) ? ` (still named by ${namedBy.join(', ')})` : '';
    err(`${file}: ${keep.has(step.id) ? 'No longer in the list, kept' : 'Gone'}: ${step.id} ${stepText(step)}${named}`);
  }
};
