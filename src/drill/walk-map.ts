import { crewLabel, extrasOf } from '../forms/run/extras.ts';
import type { Id, Node, Step } from '../model/deck.ts';
import { isBlock, isUse } from '../model/deck.ts';
import { parseFormula } from '../subjects/formulas.ts';
import type { Resolved, ResolvedProcedure, Situation, View } from '../subjects/resolved.ts';
import { type Things, thingsOf } from '../subjects/things.ts';
import { holds } from '../subjects/when.ts';
import { wordsIn } from './walk-line.ts';

export interface MapStep {
  readonly id: Id;
  readonly text: string;
  /** Who, as the deck calls them; absent: not said. */
  readonly by?: string;
  /** Beside the line, in the lane of the one or the other pilot, or across both. */
  readonly side: 'left' | 'right' | 'across';
  readonly cue?: string;
  readonly critical: boolean;
  /** Steps in lanes beside its own that must be done first. */
  readonly after: readonly { readonly id: Id; readonly text: string }[];
}

/** Lanes side by side, two at least: each keeps its own order, and they may interleave. */
export interface MapFork {
  /** Done at once: one step a lane. */
  readonly together: boolean;
  readonly lanes: readonly (readonly MapRow[])[];
}

export type MapRow = MapStep | MapFork;

export interface ProcedureMap {
  readonly title: string;
  /** Who acts on the left and on the right of the line; null where no two of the crew are named: one lane is enough. */
  readonly heads: readonly [left: string, right: string] | null;
  /** In the order in which they are done. */
  readonly rows: readonly MapRow[];
}

export const isFork = (row: MapRow): row is MapFork => 'lanes' in row;

/** Not one seat: they stand across the lanes. */
const SHARED: ReadonlySet<string> = new Set(['both', 'either']);

interface Around {
  readonly resolved: Resolved;
  readonly things: Things;
  readonly view: View;
  readonly found: ResolvedProcedure;
  readonly situation: Situation;
  readonly seats: readonly string[];
  /** Steps that stand on the map already: each is done once. */
  readonly drawn: Set<Id>;
  /** Blocks that are being taken: one in itself ends there. */
  readonly using: readonly Id[];
}

/**
 * A procedure in one situation as a line: lanes that may interleave side by side, who acts, each cue at its step.
 * @returns null where nothing is done
 */
export const procedureMap = (
  resolved: Resolved,
  view: View,
  found: ResolvedProcedure,
  situation: Situation,
): ProcedureMap | null => {
  const seats = seatsOf(resolved, situation);
  const [left, right] = seats;
  const rows = rowsOf(
    { resolved, things: thingsOf(resolved.deck), view, found, situation, seats, drawn: new Set(), using: [] },
    found.procedure.steps,
  );
  if (rows.length === 0) return null;
  return {
    title: found.procedure.title,
    heads: left === undefined || right === undefined ? null : [crewLabel(resolved, left), crewLabel(resolved, right)],
    rows,
  };
};

/** The two that stand beside the line: PF and PM, else the two that do most. */
const seatsOf = (resolved: Resolved, { steps }: Situation): readonly string[] => {
  const counts = new Map<string, number>();
  for (const { step } of steps)
    if (step.by !== undefined && !SHARED.has(step.by)) counts.set(step.by, (counts.get(step.by) ?? 0) + 1);
  if (counts.has('PF') || counts.has('PM')) return ['PF', 'PM'];
  const listed = (resolved.deck.crew ?? []).map(({ id }) => id);
  return [...counts]
    .sort(([, a], [, b]) => b - a)
    .slice(0, 2)
    .map(([seat]) => seat)
    .sort((a, b) => listed.indexOf(a) - listed.indexOf(b));
};

const rowsOf = (around: Around, nodes: readonly Node[]): MapRow[] => nodes.flatMap((node) => rowOf(around, node));

const rowOf = (around: Around, node: Node): MapRow[] => {
  const { things, view, using } = around;
  if (holds(node.when, view.pick, things.deck.variants ?? []) !== true || !isSo(around, node.if)) return [];
  if (isUse(node)) {
    const named = things.blocks.get(node.use);
    if (named === undefined || using.includes(node.use)) return [];
    return rowOf({ ...around, using: [...using, node.use] }, named.block);
  }
  if (!isBlock(node)) return stepRow(around, node);
  const together = node.together === true;
  const parts = node.lanes ?? (together ? (node.steps ?? []).map((one) => [one]) : [node.steps ?? []]);
  const lanes = parts.map((part) => rowsOf(around, part)).filter((lane) => lane.length > 0);
  if (lanes.length < 2) return lanes.flat();
  return [{ together, lanes: lanes.map(afterOthers(around, lanes)).sort((a, b) => rank(a) - rank(b)) }];
};

/** Truth of an `if` in this situation. */
const isSo = ({ found, situation }: Around, text: string | undefined): boolean => {
  if (text === undefined) return true;
  const tree = JSON.stringify(parseFormula(text));
  return situation.id[found.conditions.findIndex((one) => JSON.stringify(one) === tree)] === '1';
};

const stepRow = ({ resolved, view, found, situation, seats, drawn }: Around, { id }: Step): MapStep[] => {
  const run = situation.steps.find(({ step }) => step.id === id);
  if (run === undefined || drawn.has(id)) return [];
  drawn.add(id);
  const { by, cue } = extrasOf(resolved, view, found, run, {});
  const seat = seats.indexOf(run.step.by ?? '');
  return [
    {
      id,
      text: wordsIn(resolved, run.text),
      ...(by !== undefined && { by }),
      side: seat === 0 ? 'left' : seat === 1 ? 'right' : 'across',
      ...(cue !== undefined && { cue: wordsIn(resolved, cue) }),
      critical: run.critical,
      after: [],
    },
  ];
};

/** Says at a step which one of another lane it waits for: no line shows it. */
const afterOthers =
  ({ situation, resolved }: Around, lanes: readonly (readonly MapRow[])[]) =>
  (lane: readonly MapRow[]): readonly MapRow[] => {
    const { steps, order } = situation;
    const others = new Set(lanes.filter((one) => one !== lane).flatMap(idsOf));
    const told = (row: MapRow): MapRow => {
      if (isFork(row)) return { ...row, lanes: row.lanes.map((one) => one.map(told)) };
      const first = order.covers.flatMap(([a, b]) => {
        const before = steps[a];
        return steps[b]?.step.id === row.id && before !== undefined && others.has(before.step.id) ? [before] : [];
      });
      return first.length === 0
        ? row
        : {
            ...row,
            after: [...row.after, ...first.map(({ step, text }) => ({ id: step.id, text: wordsIn(resolved, text) }))],
          };
    };
    return lane.map(told);
  };

const idsOf = (rows: readonly MapRow[]): Id[] =>
  rows.flatMap((row) => (isFork(row) ? row.lanes.flatMap(idsOf) : [row.id]));

/** A lane of one pilot alone stands where that pilot stands; all others keep their order between. */
const rank = (lane: readonly MapRow[]): number => {
  const sides = new Set(lane.flatMap((row) => (isFork(row) ? ['across' as const] : [row.side])));
  if (sides.size !== 1) return 1;
  return sides.has('left') ? 0 : sides.has('right') ? 2 : 1;
};

/** The same in words, one line a step: "2. PM, cue V1: “V one”". What is side by side says so before its lanes. */
export const mapWords = ({ rows }: Pick<ProcedureMap, 'rows'>): string[] => {
  let count = 0;
  const said = (list: readonly MapRow[], lead: string): string[] =>
    list.flatMap((row): string[] => {
      if (!isFork(row)) {
        count += 1;
        return [`${lead}${count}. ${stepWords(row)}`];
      }
      if (row.together) return [`${lead}At once, in any order:`, ...row.lanes.flatMap((lane) => said(lane, lead))];
      return [
        `${lead}${row.lanes.length} lines side by side, each in its own order:`,
        ...row.lanes.flatMap((lane, i) => said(lane, `${lead}Line ${i + 1}: `)),
        `${lead}All lines done.`,
      ];
    });
  return said(rows, '');
};

const stepWords = ({ by, cue, text, after, critical }: MapStep): string => {
  const lead = [by, cue === undefined ? undefined : `cue ${cue}`].filter((words) => words !== undefined).join(', ');
  const waits = after.length === 0 ? '' : `, after ${after.map((one) => one.text).join(' and ')}`;
  return `${lead === '' ? '' : `${lead}: `}${text}${waits}${critical ? ' (critical)' : ''}`;
};
