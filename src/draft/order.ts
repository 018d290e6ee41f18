import type { Json } from '../lib/canonical-json.ts';
import { isList, isMembers, type Members } from '../lib/json.ts';
import { apply, type Change, keysOf, put, valueAt } from './change.ts';
import { changesTo } from './difference.ts';
import { raised } from './lanes.ts';
import {
  holderOf,
  isConditional,
  isPlain,
  kindOf,
  listsOf,
  nodesUnder,
  type Place,
  placeOf,
  stepPath,
  textOf,
} from './nodes.ts';

/** Two steps that follow one another; ids. */
export interface Neighbours {
  readonly first: string;
  readonly second: string;
}

/** Says that the order is meant: the later step needs the earlier. The order itself stays as it was. */
export const holdOrder = (doc: Json, procedure: string, { first, second }: Neighbours): Change[] => {
  const path = stepPath(doc, procedure, second);
  const needs = path === null ? undefined : valueAt(doc, `${path}/needs`);
  if (path === null || (isList(needs) && needs.includes(first)) || (needs !== undefined && !isList(needs))) return [];
  return [put(doc, `${path}/needs`, [...(needs ?? []), first])];
};

/**
 * Either of the two may come first; every other relation of the order stays. They come into lanes side by side, and
 * what else came before the later one is what it needs.
 * @returns nothing where it cannot be said: what must wait stands in another procedure, or the order comes from elsewhere
 */
export const eitherOrder = (doc: Json, procedure: string, pair: Neighbours): Change[] => {
  const found = between(doc, procedure, pair);
  if (found === null) return [];
  const { list, from, to, nodes } = found;
  const before = nodes.slice(from, to);
  const after = waiting(doc, nodes[to] as Json, before, pair);
  if (after === null) return [];
  const lanes = [...lanesFrom(before), ...lanesFrom([after])];
  const next = [...nodes.slice(0, from), { lanes }, ...nodes.slice(to + 1)];
  const done = apply(doc, [put(doc, list, next)]);
  return changesTo(doc, raised(done, `${list}/${from}`));
};

/** The later one may come at any time beside all of the lanes that it followed; null: it followed none. */
export const freeOrder = (doc: Json, procedure: string, pair: Neighbours): Change[] => {
  const found = between(doc, procedure, pair);
  const lanes = found === null || found.to !== found.from + 1 ? null : found.nodes[found.from];
  if (found === null || kindOf(lanes ?? undefined) !== 'lanes' || !isPlain(lanes as Json)) return [];
  const { list, from, to, nodes } = found;
  const together = { lanes: [...lanesFrom([lanes as Json]), ...lanesFrom([nodes[to] as Json])] };
  return changesTo(doc, apply(doc, [put(doc, list, [...nodes.slice(0, from), together, ...nodes.slice(to + 1)])]));
};

/**
 * The two are done at once. A step beside ones that are done together joins them.
 * @returns nothing where that would change what else comes before and after
 */
export const togetherSteps = (doc: Json, procedure: string, pair: Neighbours): Change[] => {
  const found = between(doc, procedure, pair);
  const second = stepPath(doc, procedure, pair.second);
  if (found === null || second === null || found.to !== found.from + 1) return [];
  const { list, from, to, nodes } = found;
  const [a, b] = [nodes[from] as Json, nodes[to] as Json];
  const isFirst = textOf(a, 'id') === pair.first && kindOf(a) === 'step';
  const isSecond = textOf(b, 'id') === pair.second && kindOf(b) === 'step';
  const swap = (steps: readonly Json[]): Change[] =>
    changesTo(
      doc,
      apply(doc, [put(doc, list, [...nodes.slice(0, from), { together: true, steps }, ...nodes.slice(to + 1)])]),
    );
  if (isFirst && isSecond) return swap([a, b]);
  if (isSecond && isTogether(a)) return swap([...stepsOf(a), b]);
  if (isFirst && isTogether(b)) return swap([a, ...stepsOf(b)]);
  return isSecond ? intoLane(doc, procedure, pair, found) : [];
};

/** The later one goes to the end of the lane whose last step it is done together with; it still waits for the others. */
const intoLane = (doc: Json, procedure: string, pair: Neighbours, found: Between): Change[] => {
  const { list, from, to, nodes } = found;
  const path = stepPath(doc, procedure, pair.first);
  if (path === null) return [];
  for (let at: Place | null = placeOf(path); at !== null && at.list !== list; at = placeOf(holderOf(at.list))) {
    const around = valueAt(doc, at.list);
    if (!isList(around) || at.index !== around.length - 1 || !isPlain(valueAt(doc, holderOf(at.list)))) return [];
  }
  const late = waiting(doc, nodes[to] as Json, [nodes[from] as Json], pair);
  if (late === null) return [];
  const first = valueAt(doc, path) as Json;
  const left = apply(doc, [put(doc, `${list}/${to}`, undefined)]);
  return changesTo(doc, apply(left, [put(left, path, { together: true, steps: [first, late] })]));
};

const isTogether = (node: Json): boolean =>
  isMembers(node) && node.together === true && Object.keys(node).every((key) => key === 'together' || key === 'steps');
const stepsOf = (node: Json): readonly Json[] => listsOf(node).flatMap(({ list }) => list);

interface Between {
  /** The one list in which both stand, deeper or not. */
  readonly list: string;
  readonly nodes: readonly Json[];
  /** Place of what holds the earlier, and of what holds the later. */
  readonly from: number;
  readonly to: number;
}

/** Where the text puts the one before the other; null where it does not. */
const between = (doc: Json, procedure: string, { first, second }: Neighbours): Between | null => {
  const [a, b] = [bringing(doc, procedure, first), stepPath(doc, procedure, second)];
  return a === null || b === null ? null : parting(doc, a, b);
};

/** @param a pointer of a node, b of another */
const parting = (doc: Json, a: string, b: string): Between | null => {
  const [one, other] = [keysOf(a), keysOf(b)];
  const cut = one.findIndex((key, i) => key !== other[i]);
  if (cut < 0) return null;
  const list = `/${one.slice(0, cut).join('/')}`;
  const nodes = valueAt(doc, list);
  const [from, to] = [Number(one[cut]), Number(other[cut])];
  // Two lanes: the order comes from what a step needs.
  if (!isList(nodes) || one[cut - 1] === 'lanes' || !(from < to)) return null;
  const holder = valueAt(doc, holderOf(list));
  return isMembers(holder) && holder.together === true && one[cut - 1] === 'steps' ? null : { list, nodes, from, to };
};

/** Does the place alone of two steps or named blocks of a procedure put the one before the other? */
export const comesBefore = (doc: Json, procedure: string, { first, second }: Neighbours): boolean => {
  const [a, b] = [first, second].map((id) => blockPath(doc, procedure, id) ?? bringing(doc, procedure, id));
  return typeof a === 'string' && typeof b === 'string' && parting(doc, a, b) !== null;
};

/** Pointer of a named block. */
const blockPath = (doc: Json, procedure: string, id: string): string | null => {
  for (const { path, node } of nodesUnder(doc, procedure))
    if (id !== '' && textOf(node, 'id') === id && listsOf(node).length > 0) return path;
  return null;
};

/** Pointer of a step, or of the `use` that brings it. */
const bringing = (doc: Json, procedure: string, id: string): string | null => {
  const own = stepPath(doc, procedure, id);
  if (own !== null) return own;
  for (const { path, node } of nodesUnder(doc, procedure))
    if (kindOf(node) === 'use' && brings(doc, node, id)) return path;
  return null;
};

/** The named block that a `use` takes; undefined where there is none, or it is met on the way to itself. */
const used = (doc: Json, use: Json, seen: readonly string[]): Placed | undefined => {
  const id = textOf(use, 'use');
  const procedures = valueAt(doc, '/procedures');
  if (id === '' || seen.includes(id) || !isList(procedures)) return undefined;
  for (const [i] of procedures.entries())
    for (const { node } of nodesUnder(doc, `/procedures/${i}`))
      if (textOf(node, 'id') === id && listsOf(node).length > 0) return { node, seen: [...seen, id] };
  return undefined;
};
interface Placed {
  readonly node: Json;
  readonly seen: readonly string[];
}

const brings = (doc: Json, node: Json, id: string, seen: readonly string[] = []): boolean => {
  if (kindOf(node) === 'step') return textOf(node, 'id') === id;
  const block = kindOf(node) === 'use' ? used(doc, node, seen) : { node, seen };
  if (block === undefined) return false;
  return listsOf(block.node).some(({ list }) => list.some((one) => brings(doc, one, id, block.seen)));
};

/** Lanes of plain lanes; anything else is one lane. */
const lanesFrom = (nodes: readonly Json[]): readonly (readonly Json[])[] => {
  const [only] = nodes;
  if (nodes.length !== 1 || kindOf(only) !== 'lanes' || !isPlain(only)) return [nodes];
  return isMembers(only) && only.steps === undefined ? listsOf(only as Json).map(({ list }) => list) : [nodes];
};

/** Ids that say "after all of this"; `sure`: whatever circumstances hold, one of them stands for all before it. */
interface Ends {
  readonly ids: readonly string[];
  readonly sure: boolean;
}
const NO_ENDS: Ends = { ids: [], sure: false };

/** Ends of a list but for one step, for which what comes before it stands. */
const endsOf = (doc: Json, list: readonly Json[], but: string | null, seen: readonly string[] = []): Ends => {
  const ids: string[] = [];
  for (const node of [...list].reverse()) {
    const ends = endsOfNode(doc, node, but, seen);
    ids.unshift(...ends.ids);
    if (ends.sure && !isConditional(node)) return { ids, sure: true };
  }
  return { ids, sure: false };
};

const endsOfNode = (doc: Json, node: Json, but: string | null, seen: readonly string[]): Ends => {
  const kind = kindOf(node);
  if (kind === 'step') {
    const id = textOf(node, 'id');
    return id === '' || id === but ? NO_ENDS : { ids: [id], sure: true };
  }
  if (kind === 'use') {
    const block = used(doc, node, seen);
    if (block === undefined) return NO_ENDS;
    // The whole block has a name, unless one of its steps must be left out.
    const has = but !== null && brings(doc, node, but);
    const ends = endsOfNode(doc, block.node, but, block.seen);
    return has ? ends : { ids: [textOf(node, 'use')], sure: ends.sure && !isConditional(block.node) };
  }
  if (!isMembers(node)) return NO_ENDS;
  const parts =
    node.together === true && kind === 'block'
      ? stepsOf(node).map((one) => endsOf(doc, [one], but, seen))
      : listsOf(node).map(({ list }) => endsOf(doc, list, but, seen));
  return { ids: parts.flatMap(({ ids }) => ids), sure: parts.some(({ sure }) => sure) };
};

/** What is still to be waited for on the way into a part: all of what came before, the one step alone, nothing. */
type Rest = readonly string[];

/** The later part, in which each step that nothing of it comes before needs what came before it; null: it cannot. */
const waiting = (doc: Json, part: Json, before: readonly Json[], pair: Neighbours): Json | null => {
  const all = endsOf(doc, before, null).ids;
  const others = endsOf(doc, before, pair.first).ids;
  let failed = false;
  const walk = (list: readonly Json[], rest: Rest): { readonly list: readonly Json[]; readonly rest: Rest } => {
    let left = rest;
    const out = list.map((node) => {
      if (left.length === 0) return node;
      const one = into(node, left);
      if (!isConditional(node)) left = one.rest;
      return one.node;
    });
    return { list: out, rest: left };
  };
  const into = (node: Json, rest: Rest): { readonly node: Json; readonly rest: Rest } => {
    const kind = kindOf(node);
    if (kind === 'step') {
      const isSecond = textOf(node, 'id') === pair.second;
      // Behind it all but the earlier one is waited for through it.
      return { node: needing(node, isSecond ? others : rest), rest: isSecond ? [pair.first] : [] };
    }
    if (kind === 'use' || !isMembers(node)) {
      failed = true;
      return { node, rest: [] };
    }
    if (kind === 'block' && node.together === true) {
      const parts = stepsOf(node).map((one) => walk([one], rest));
      return { node: { ...node, steps: parts.flatMap(({ list }) => list) } as Json, rest: least(parts, rest) };
    }
    if (kind === 'block') {
      const steps = walk(stepsOf(node), rest);
      return { node: { ...node, steps: steps.list } as Json, rest: steps.rest };
    }
    const lanes = (isList(node.lanes) ? node.lanes : []).map((lane) => walk(isList(lane) ? lane : [], rest));
    return { node: { ...node, lanes: lanes.map(({ list }) => list) } as Json, rest: least(lanes, rest) };
  };
  const done = into(part, all);
  return failed ? null : done.node;
};

/** Behind lanes the lane that waited for most has waited for all. */
const least = (parts: readonly { readonly rest: Rest }[], rest: Rest): Rest =>
  parts.reduce<Rest>((found, one) => (one.rest.length < found.length ? one.rest : found), rest);

const needing = (step: Json, ids: readonly string[]): Json => {
  const { needs } = step as Members;
  if (ids.length === 0 || (needs !== undefined && !isList(needs))) return step;
  const more = ids.filter((id) => !(needs ?? []).includes(id));
  return more.length === 0 ? step : ({ ...(step as Members), needs: [...(needs ?? []), ...more] } as Json);
};
