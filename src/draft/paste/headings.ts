import { foldText } from '../../lib/fold-text.ts';
import type { Fields } from './types.ts';

/** What a column holds; `number`: the list's own numbers, which are not kept; `lane`: as `toRows` writes it. */
export type Column = Exclude<keyof Fields, 'cueInWords'> | 'number' | 'lane';

const HEADINGS: Readonly<Record<Column, readonly string[]>> = {
  id: ['id'],
  number: ['no', 'nr', 'number', 'step no', 'item no', 'seq', 'sequence', 'order', 'pos'],
  lane: ['lane'],
  by: ['crew', 'by', 'who', 'pilot', 'role', 'crew member', 'responsible', 'performed by', 'action by', 'seat'],
  do: ['action', 'actions', 'do', 'step', 'steps', 'task', 'item', 'procedure', 'challenge', 'description', 'activity'],
  say: [
    'callout',
    'callouts',
    'call out',
    'call',
    'calls',
    'say',
    'says',
    'response',
    'standard callout',
    'announcement',
  ],
  cue: ['cue', 'trigger', 'when', 'at', 'event', 'moment'],
  limit: ['limit', 'value', 'target', 'limitation'],
  why: [
    'why',
    'reason',
    'rationale',
    'purpose',
    'background',
    'remark',
    'remarks',
    'note',
    'notes',
    'comment',
    'comments',
  ],
  slip: ['slip', 'slips', 'usual slip', 'common error', 'common errors', 'pitfall', 'pitfalls', 'trap'],
  where: ['where', 'panel', 'location', 'area', 'panel area'],
  source: ['source', 'reference', 'ref', 'manual', 'manual reference'],
  if: ['condition', 'if', 'only if', 'applies if'],
  critical: ['critical'],
  answers: ['answers'],
};

const COLUMNS = new Map(
  (Object.entries(HEADINGS) as [Column, readonly string[]][]).flatMap(([column, words]) =>
    words.map((word) => [word, column] as const),
  ),
);

/** @returns what a column with that heading holds; null where the heading says nothing known */
export const columnOf = (heading: string): Column | null =>
  heading.trim() === '#' || heading.trim() === '№' ? 'number' : (COLUMNS.get(foldText(heading)) ?? null);

/** Is that a row of headings? At least half of its words are known ones. @param isCrew is a column for each pilot */
export const isHeadings = (cells: readonly string[], isCrew: (cell: string) => boolean): boolean => {
  const there = cells.filter((cell) => cell.trim() !== '');
  const known = there.filter((cell) => columnOf(cell) !== null || isCrew(cell));
  const telling = there.filter((cell) => ['do', 'say'].includes(columnOf(cell) ?? '') || isCrew(cell));
  return telling.length > 0 && known.length * 2 >= there.length && there.every((cell) => cell.length <= 40);
};
