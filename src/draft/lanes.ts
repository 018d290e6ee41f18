import type { Json } from '../lib/canonical-json.ts';
import { isList, isMembers, type Members } from '../lib/json.ts';
import { idsIn } from './blank.ts';
import { apply, type Change, insert, keysOf, parted, put, valueAt } from './change.ts';
import { changesTo } from './difference.ts';
import { mint } from './mint.ts';
import {
  blankStep,
  holderOf,
  insertNodes,
  isConditional,
  isPlain,
  kindOf,
  listsOf,
  nodesUnder,
  type Place,
  placeOf,
  textOf,
} from './nodes.ts';

/** Neighbours in one list of a procedure. */
export interface Span {
  /** Pointer of the list. */
  readonly list: string;
  /** Places from 0, both of them within. */
  readonly from: number;
  readonly to: number;
}

const nodesOf = (doc: Json, { list, from, to }: Span): readonly Json[] => {
  const nodes = valueAt(doc, list);
  return isList(nodes) && from >= 0 && to < nodes.length ? nodes.slice(from, to + 1) : [];
};

/** Puts other nodes where some neighbours are. */
const replaced = (doc: Json, { list, from, to }: Span, put: readonly Json[]): Change[] => {
  const nodes = valueAt(doc, list);
  if (!isList(nodes)) return [];
  return changesTo(doc, withAt(doc, list, [...nodes.slice(0, from), ...put, ...nodes.slice(to + 1)]));
};
const withAt = (doc: Json, path: string, value: Json): Json => apply(doc, [put(doc, path, value)]);

/** A block around neighbours. @param says what the block says besides: a condition, that it is done at once */
export const makeBlock = (doc: Json, span: Span, says: Members = {}): Change[] => {
  const nodes = nodesOf(doc, span);
  return nodes.length === 0 ? [] : replaced(doc, span, [{ ...says, steps: nodes }]);
};

/** Neighbours that are done at once: any order is right. */
export const makeTogether = (doc: Json, span: Span): Change[] =>
  nodesOf(doc, span).length < 2 ? [] : makeBlock(doc, span, { together: true });

/** Who acts first in it; '' where nobody is named. */
const actorOf = (node: Json): string => {
  if (kindOf(node) === 'step') return textOf(node, 'by');
  for (const { list } of listsOf(node)) for (const one of list) if (actorOf(one) !== '') return actorOf(one);
  return '';
};

/**
 * Lanes out of neighbours: each its own lane (any order), or one lane for each crew member, in which their steps keep
 * their order.
 */
export const makeLanes = (doc: Json, span: Span, by: 'each' | 'crew'): Change[] => {
  const nodes = nodesOf(doc, span);
  const lanes = by === 'each' ? nodes.map((node) => [node]) : [...byActor(nodes).values()];
  return lanes.length < 2 ? [] : replaced(doc, span, [{ lanes }]);
};

const byActor = (nodes: readonly Json[]): Map<string, Json[]> => {
  const lanes = new Map<string, Json[]>();
  const named = nodes.map(actorOf);
  // As on the page: the PF on the left, the PM on the right.
  for (const by of ['PF', 'PM']) if (named.includes(by)) lanes.set(by, []);
  for (const node of nodes) {
    const lane = lanes.get(actorOf(node));
    if (lane === undefined) lanes.set(actorOf(node), [node]);
    else lane.push(node);
  }
  return lanes;
};

/** A formula that is true where the other is not. */
export const opposite = (formula: string): string => {
  const text = formula.trim();
  if (/^[A-Za-z]\w*$/.test(text)) return `!${text}`;
  return /^![A-Za-z]\w*$/.test(text) ? text.slice(1) : `!(${text})`;
};

/** Neighbours hold where a condition does; beside them a block for where it does not, begun with an empty step. */
export const makeBranch = (doc: Json, span: Span, formula: string): Change[] => {
  const nodes = nodesOf(doc, span);
  if (nodes.length === 0) return [];
  const other: Json = { if: opposite(formula), steps: [blankStep(doc)] };
  return replaced(doc, span, [{ if: formula, steps: nodes }, other]);
};

/**
 * What is done where the condition of a node does not hold: a block behind it, begun with an empty step. A step comes
 * into a block of its own, that others can join.
 * @returns nothing where the node has no condition
 */
export const makeElse = (doc: Json, path: string): Change[] => {
  const node = valueAt(doc, path);
  const place = placeOf(path);
  const formula = textOf(node, 'if').trim();
  if (place === null || !isMembers(node) || formula === '') return [];
  const span = { list: place.list, from: place.index, to: place.index };
  if (kindOf(node as Json) !== 'step')
    return replaced(doc, span, [node as Json, { if: opposite(formula), steps: [blankStep(doc)] }]);
  const { if: _held, ...step } = node;
  return replaced(doc, span, [
    { if: formula, steps: [step as Json] },
    { if: opposite(formula), steps: [blankStep(doc)] },
  ]);
};

/** A step and those behind it in its lane become a lane of their own. */
export const splitLane = (doc: Json, path: string): Change[] => {
  const place = placeOf(path);
  if (place === null || keysOf(place.list).at(-2) !== 'lanes' || place.index === 0) return [];
  const lane = valueAt(doc, place.list);
  const { parent, key } = parted(place.list);
  const lanes = valueAt(doc, parent);
  if (!isList(lane) || !isList(lanes) || place.index >= lane.length) return [];
  const at = Number(key);
  const halves = [lane.slice(0, place.index), lane.slice(place.index)];
  return changesTo(doc, withAt(doc, parent, [...lanes.slice(0, at), ...halves, ...lanes.slice(at + 1)]));
};

/** One more lane with an empty step. @param path of the block of lanes */
export const addLane = (doc: Json, path: string): Change[] => {
  const lanes = valueAt(doc, `${path}/lanes`);
  return isList(lanes) ? [insert(`${path}/lanes`, lanes.length, [blankStep(doc)])] : [];
};

/** Things of the deck that name a block: procedures that use it, steps that need it. */
const isNamed = (doc: Json, id: string): boolean => {
  const procedures = valueAt(doc, '/procedures');
  if (!isList(procedures)) return false;
  return procedures.some((_, i) =>
    [...nodesUnder(doc, `/procedures/${i}`)].some(({ node }) => {
      const needs = isMembers(node) ? node.needs : undefined;
      return textOf(node, 'use') === id || (isList(needs) && needs.includes(id));
    }),
  );
};

/** Why a block cannot be opened up; null where it can. */
export const keptBy = (doc: Json, path: string): 'named' | 'condition' | null => {
  const block = valueAt(doc, path);
  const id = textOf(block, 'id');
  if (id !== '' && isNamed(doc, id)) return 'named';
  return isMembers(block) && within(block) === null ? 'condition' : null;
};

/** A block, and every part of it a list: nothing odd that would be lost. */
const isWhole = ({ steps, lanes }: Members): boolean =>
  (steps !== undefined || lanes !== undefined) &&
  (steps === undefined || isList(steps)) &&
  (lanes === undefined || (isList(lanes) && lanes.every(isList)));

/**
 * What stands in a block takes its place; lanes one after the other. A condition of the block goes to each node in it.
 * Nothing is done where that cannot be said, or where other steps name the block.
 */
export const dissolve = (doc: Json, path: string): Change[] => {
  const block = valueAt(doc, path);
  const place = placeOf(path);
  if (place === null || !isMembers(block) || !isWhole(block) || keptBy(doc, path) !== null) return [];
  const nodes = within(block);
  return nodes === null ? [] : replaced(doc, { list: place.list, from: place.index, to: place.index }, nodes);
};

const within = (block: Members): Json[] | null => {
  const nodes = listsOf(block as Json).flatMap(({ list }) => [...list]);
  if (!isConditional(block as Json)) return nodes;
  const told = nodes.map((node) => alsoHeld(node, block));
  return told.includes(null) ? null : (told as Json[]);
};

/** A node that holds only where the block did; null where the two `when` do not go into one. */
const alsoHeld = (node: Json, { if: condition, when }: Members): Json | null => {
  if (!isMembers(node)) return null;
  const both =
    condition === undefined || node.if === undefined ? (node.if ?? condition) : `(${condition}) && (${node.if})`;
  const variants = when === undefined || node.when === undefined ? (node.when ?? when) : joined(when, node.when);
  if (variants === null) return null;
  return {
    ...node,
    ...(variants !== undefined && { when: variants }),
    ...(both !== undefined && { if: both }),
  } as Json;
};

/** Both must hold: axes of two plain `when`s side by side. */
const joined = (a: Json, b: Json): Json | null => {
  if (!isMembers(a) || !isMembers(b) || 'not' in a || 'not' in b) return null;
  return Object.keys(a).some((axis) => axis in b) ? null : ({ ...a, ...b } as Json);
};

/** Named blocks of other procedures, and of its own elsewhere: what a procedure can take over. */
export const blocksToUse = (doc: Json, procedure: string): { readonly id: string; readonly owner: string }[] => {
  const procedures = valueAt(doc, '/procedures');
  if (!isList(procedures)) return [];
  return procedures.flatMap((one, i) => {
    const here = `/procedures/${i}`;
    if (here === procedure) return [];
    const blocks = [...nodesUnder(doc, here)].filter(
      ({ node }) => kindOf(node) === 'block' || kindOf(node) === 'lanes',
    );
    return blocks
      .map(({ node }) => ({ id: textOf(node, 'id'), owner: textOf(one, 'title') || textOf(one, 'id') }))
      .filter(({ id }) => id !== '');
  });
};

/** @param id of a named block of another procedure */
export const useBlock = (doc: Json, place: Place, id: string): Change[] => insertNodes(doc, place, [{ use: id }]);

/** A name by which other procedures can take the block, and steps can need it. */
export const nameBlock = (doc: Json, path: string, words: string): Change[] => {
  const block = valueAt(doc, path);
  if (!isMembers(block) || listsOf(block as Json).length === 0 || textOf(block as Json, 'id') !== '') return [];
  return [put(doc, `${path}/id`, mint(words, idsIn(doc), 'block'))];
};

/** Lanes that are all that a lane of plain lanes holds: they are lanes of the outer one. @param path of the inner */
export const raised = (doc: Json, path: string): Json => {
  const place = placeOf(path);
  const inner = valueAt(doc, path);
  if (place === null || !isMembers(inner) || !isPlain(inner as Json) || !isList(inner.lanes)) return doc;
  const lane = valueAt(doc, place.list);
  const outer = valueAt(doc, holderOf(place.list));
  if (!isList(lane) || lane.length !== 1 || !isMembers(outer) || keysOf(place.list).at(-2) !== 'lanes') return doc;
  const { parent, key } = parted(place.list);
  const lanes = valueAt(doc, parent);
  const own = inner.lanes;
  return isList(lanes)
    ? withAt(
        doc,
        parent,
        lanes.flatMap((one, i) => (i === Number(key) ? own : [one])),
      )
    : doc;
};
