import { crewLabel, extrasOf } from '../../forms/run/extras.ts';
import type { Id, Node, Step } from '../../model/deck.ts';
import { isBlock, isUse } from '../../model/deck.ts';
import { formulaWords } from '../../subjects/formula-words.ts';
import { parseFormula } from '../../subjects/formulas.ts';
import type { Resolved, ResolvedProcedure, View } from '../../subjects/resolved.ts';
import { type Things, thingsOf } from '../../subjects/things.ts';
import { holds } from '../../subjects/when.ts';
import { labelled, type WalkLine, wordsIn } from '../walk-line.ts';

/** A step on paper: the pilot flying on the left, the pilot monitoring on the right, all others across. */
export interface PrintStep {
  readonly side: 'left' | 'right' | 'across';
  readonly line: WalkLine;
}

/** Steps that belong together: under a condition, done at once, or in lanes side by side. */
export interface PrintGroup {
  /** "If one engine is out"; '' where it always holds. */
  readonly condition: string;
  readonly together: boolean;
  /** At least one; each keeps its own order. */
  readonly lanes: readonly (readonly PrintRow[])[];
}

export type PrintRow = PrintStep | PrintGroup;

/** What the left and the right column are headed: the pilot flying and the pilot monitoring, as the deck calls them. */
export const columnHeads = (resolved: Resolved): readonly [left: string, right: string] => [
  crewLabel(resolved, 'PF'),
  crewLabel(resolved, 'PM'),
];

interface Around {
  readonly resolved: Resolved;
  readonly things: Things;
  readonly view: View;
  readonly found: ResolvedProcedure;
  /** Blocks that are being taken: one in itself ends there. */
  readonly using: readonly Id[];
}

/** A procedure as its author wrote it, for one view: lanes beside each other, branches under their condition. */
export const procedureRows = (resolved: Resolved, view: View, found: ResolvedProcedure): PrintRow[] =>
  rows({ resolved, things: thingsOf(resolved.deck), view, found, using: [] }, found.procedure.steps);

const rows = (around: Around, nodes: readonly Node[]): PrintRow[] => nodes.flatMap((node) => rowsOf(around, node));

const rowsOf = (around: Around, node: Node): PrintRow[] => {
  const { things, view, using } = around;
  if (holds(node.when, view.pick, things.deck.variants ?? []) !== true) return [];
  if (isUse(node)) {
    const named = things.blocks.get(node.use);
    if (named === undefined || using.includes(node.use)) return [];
    const inner = rowsOf({ ...around, using: [...using, node.use] }, named.block);
    return under(around, node.if, inner);
  }
  if (!isBlock(node)) return under(around, node.if, stepRows(around, node));
  const lanes = (node.lanes ?? [node.steps ?? []]).map((lane) => rows(around, lane)).filter((lane) => lane.length > 0);
  const condition = conditionWords(around, node.if);
  const together = node.together === true;
  if (lanes.length === 0) return [];
  // A bare list in a list says nothing of its own.
  if (lanes.length === 1 && condition === '' && !together) return [...(lanes[0] as PrintRow[])];
  return [{ condition, together, lanes: lanes.sort((a, b) => rank(a) - rank(b)) }];
};

const under = (around: Around, text: string | undefined, inner: PrintRow[]): PrintRow[] => {
  const condition = conditionWords(around, text);
  return condition === '' || inner.length === 0 ? inner : [{ condition, together: false, lanes: [inner] }];
};

const conditionWords = ({ resolved, view }: Around, text: string | undefined): string => {
  const tree = text === undefined ? null : parseFormula(text);
  return tree === null ? '' : `If ${formulaWords(resolved.deck, view, null, tree)}`;
};

/** Lanes stand as the columns do. */
const rank = (lane: readonly PrintRow[]): number => {
  const sides = new Set(lane.map((row) => ('side' in row ? row.side : 'across')));
  if (sides.size !== 1) return 1;
  return sides.has('left') ? 0 : sides.has('right') ? 2 : 1;
};

const stepRows = ({ resolved, view, found }: Around, step: Step): PrintStep[] => {
  const run = found.situations.flatMap(({ steps }) => steps).find((one) => one.step.id === step.id);
  if (run === undefined) return [];
  const extras = extrasOf(resolved, view, found, run, {});
  const line: WalkLine = {
    ...labelled(resolved, { ...extras, wait: waitWords(found, step, extras.wait) }),
    id: step.id,
    text: wordsIn(resolved, run.text),
    critical: run.critical,
    answers: [],
    beside: false,
    together: false,
  };
  return [{ side: step.by === 'PF' ? 'left' : step.by === 'PM' ? 'right' : 'across', line }];
};

/** What must be done first, in whichever lane it stands; blocks have no words of their own. */
const waitWords = (found: ResolvedProcedure, { needs = [] }: Step, wait: string | undefined): string | undefined => {
  const steps = found.situations.flatMap((situation) => situation.steps);
  const first = needs.flatMap((id) => steps.find((one) => one.step.id === id)?.text ?? []);
  const words = [
    ...(wait === undefined ? [] : [wait]),
    ...(first.length > 0 ? [`until done: ${first.join(', ')}`] : []),
  ];
  return words.length === 0 ? undefined : words.join('; ');
};
