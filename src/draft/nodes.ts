import type { Json } from '../lib/canonical-json.ts';
import { isList, isMembers } from '../lib/json.ts';
import { idsIn } from './blank.ts';
import { apply, type Change, insert, keysOf, parted, put, valueAt } from './change.ts';
import { changesTo } from './difference.ts';
import { mint } from './mint.ts';

/**
 * The tree of a procedure in a draft: steps, blocks, lanes, used blocks. A node is addressed by its pointer
 * (`/procedures/0/steps/3/lanes/1/0`), a list by the pointer of the list. Whatever cannot be done gives no changes;
 * nothing here throws on a half-written draft.
 */

/** What a node is, as far as it is written; `odd`: no object, so nothing that a procedure can hold. */
export type Kind = 'step' | 'block' | 'lanes' | 'use' | 'odd';

export const kindOf = (node: Json | undefined): Kind => {
  if (!isMembers(node)) return 'odd';
  if ('use' in node) return 'use';
  if ('lanes' in node) return 'lanes';
  return 'steps' in node ? 'block' : 'step';
};

/** A member that is text; '' where it is none. */
export const textOf = (node: Json | undefined, key: string): string => {
  const value = isMembers(node) ? node[key] : undefined;
  return typeof value === 'string' ? value : '';
};

/** Does it hold always, as far as its own words go? */
export const isConditional = (node: Json | undefined): boolean =>
  isMembers(node) && (node.if !== undefined || node.when !== undefined);

/** Does a block say nothing but what stands in it? Then it may be opened up without loss. */
export const isPlain = (node: Json | undefined): boolean =>
  isMembers(node) && Object.keys(node).every((key) => key === 'steps' || key === 'lanes');

/** The lists of a node with the rest of their pointers. */
export const listsOf = (node: Json | undefined): { readonly under: string; readonly list: readonly Json[] }[] => {
  if (!isMembers(node)) return [];
  const lanes = isList(node.lanes) ? node.lanes : [];
  return [
    ...(isList(node.steps) ? [{ under: '/steps', list: node.steps }] : []),
    ...lanes.flatMap((lane, i) => (isList(lane) ? [{ under: `/lanes/${i}`, list: lane }] : [])),
  ];
};

export interface Placed {
  readonly path: string;
  readonly node: Json;
}

/** Every node under a procedure or block, in the order of the text. @param path of the procedure or block */
export function* nodesUnder(doc: Json, path: string): Generator<Placed> {
  for (const { under, list } of listsOf(valueAt(doc, path)))
    for (const [i, node] of list.entries()) {
      const here = `${path}${under}/${i}`;
      yield { path: here, node };
      if (kindOf(node) === 'block' || kindOf(node) === 'lanes') yield* nodesUnder(doc, here);
    }
}

/** Where the very object stands now: what was moved keeps it. */
export const pathOf = (doc: Json, procedure: string, node: Json): string | null => {
  for (const one of nodesUnder(doc, procedure)) if (one.node === node) return one.path;
  return null;
};

/** Pointer of the step with an id; null where the procedure's own text holds none. */
export const stepPath = (doc: Json, procedure: string, id: string): string | null => {
  for (const { path, node } of nodesUnder(doc, procedure))
    if (kindOf(node) === 'step' && textOf(node, 'id') === id) return path;
  return null;
};

export interface Place {
  /** Pointer of the list. */
  readonly list: string;
  readonly index: number;
}

/** The list that a node stands in, and its place there; null where it stands in none. */
export const placeOf = (path: string): Place | null => {
  if (keysOf(path).length < 4) return null;
  const { parent, key } = parted(path);
  return /^\d+$/.test(key) ? { list: parent, index: Number(key) } : null;
};

/** The node whose list this is; the procedure's pointer for its own list. */
export const holderOf = (list: string): string => {
  const keys = keysOf(list);
  return `/${keys.slice(0, keys.at(-1) === 'steps' ? -1 : -2).join('/')}`;
};

/** The list after another value was put there; the draft without a change where the list is not one. */
const withList = (doc: Json, list: string, to: (nodes: readonly Json[]) => readonly Json[]): Json => {
  const nodes = valueAt(doc, list);
  return isList(nodes) ? apply(doc, [put(doc, list, to(nodes))]) : doc;
};

/** @param words of the step, from which its id is made; without any it says nothing yet */
export const blankStep = (
  doc: Json,
  words: { readonly by?: string; readonly do?: string; readonly say?: string } = {},
): Json => {
  const { by, do: act, say } = words;
  return {
    id: mint(act ?? say ?? '', idsIn(doc), 'step'),
    ...(by !== undefined && { by }),
    ...(act !== undefined && { do: act }),
    ...(say !== undefined && { say }),
  };
};

/** A list that is not there yet is begun. @param index beyond the end: at the end */
export const insertNodes = (doc: Json, { list, index }: Place, nodes: readonly Json[]): Change[] => {
  const there = valueAt(doc, list);
  if (isList(there)) return nodes.map((node, i) => insert(list, Math.min(index, there.length) + i, node));
  if (nodes.length === 0 || there !== undefined || !isMembers(valueAt(doc, parted(list).parent))) return [];
  return [put(doc, list, nodes)];
};

export const removeNode = (doc: Json, path: string): Change[] => changesTo(doc, without(doc, path));

const without = (doc: Json, path: string): Json => {
  const place = placeOf(path);
  if (place === null || valueAt(doc, path) === undefined) return doc;
  return closed(
    withList(doc, place.list, (nodes) => nodes.filter((_, i) => i !== place.index)),
    place.list,
  );
};

/**
 * After something was taken out of a list: a lane that is empty goes, one lane alone is no lanes, a block that holds
 * and says nothing goes. A block with a name or a condition stays empty: what was typed is not cleared.
 */
const closed = (doc: Json, list: string): Json => {
  const holder = holderOf(list);
  const block = valueAt(doc, holder);
  const place = placeOf(holder);
  const nodes = valueAt(doc, list);
  if (place === null || !isMembers(block) || !isList(nodes) || nodes.length > 0) return doc;
  if (!isList(block.lanes)) return isPlain(block) ? without(doc, holder) : doc;
  const at = Number(keysOf(list).at(-1));
  const lanes = block.lanes.filter((_, i) => i !== at);
  const { lanes: _gone, ...rest } = block;
  const [only] = lanes;
  if (lanes.length > 1 || (lanes.length === 1 && block.together === true))
    return apply(doc, [put(doc, `${holder}/lanes`, lanes)]);
  if (!isPlain(block)) return apply(doc, [put(doc, holder, { ...rest, steps: only ?? [] } as Json)]);
  if (!isList(only)) return without(doc, holder);
  return withList(doc, place.list, (all) => all.flatMap((one, i) => (i === place.index ? only : [one])));
};

/** @param to where it goes, counted before it is taken out */
export const moveNode = (doc: Json, path: string, to: Place): Change[] => {
  const from = placeOf(path);
  const node = valueAt(doc, path);
  const there = valueAt(doc, to.list);
  if (from === null || node === undefined || !isList(there)) return [];
  if (to.list === path || to.list.startsWith(`${path}/`)) return [];
  const index = Math.max(0, Math.min(to.index, there.length));
  if (to.list === from.list && (index === from.index || index === from.index + 1)) return [];
  const put = apply(doc, [insert(to.list, index, node)]);
  return changesTo(doc, without(put, shifted(path, { ...to, index })));
};

/** Where a pointer leads after an element was put into a list. */
const shifted = (path: string, { list, index }: Place): string => {
  if (!path.startsWith(`${list}/`)) return path;
  const [key = '', ...rest] = path.slice(list.length + 1).split('/');
  return Number(key) < index ? path : [list, String(Number(key) + 1), ...rest].join('/');
};

/** One place earlier or later in its list; at the end of a block or lane it leaves it. null: it stands at the very end. */
export const placeBeside = (doc: Json, path: string, way: 'up' | 'down'): Place | null => {
  const here = placeOf(path);
  const list = here === null ? undefined : valueAt(doc, here.list);
  if (here === null || !isList(list)) return null;
  if (way === 'up' && here.index > 0) return { list: here.list, index: here.index - 1 };
  if (way === 'down' && here.index < list.length - 1) return { list: here.list, index: here.index + 2 };
  return placeOutside(path, way);
};

/** Before or behind the block that holds it; null where no block does. */
export const placeOutside = (path: string, way: 'up' | 'down'): Place | null => {
  const here = placeOf(path);
  const around = here === null ? null : placeOf(holderOf(here.list));
  return around === null ? null : { list: around.list, index: around.index + (way === 'up' ? 0 : 1) };
};

/** The near end of the block before or behind it; of lanes that of the same crew member. null: there is no block. */
export const placeInside = (doc: Json, path: string, way: 'up' | 'down'): Place | null => {
  const here = placeOf(path);
  if (here === null) return null;
  const block = `${here.list}/${here.index + (way === 'up' ? -1 : 1)}`;
  const lists = listsOf(valueAt(doc, block));
  const by = textOf(valueAt(doc, path), 'by');
  const own = lists.find(({ list }) => textOf(list[0], 'by') === by) ?? lists[0];
  return own === undefined ? null : { list: `${block}${own.under}`, index: way === 'up' ? own.list.length : 0 };
};

/** The lane before or behind its own, at about the same height; null where there is none. */
export const placeAcross = (doc: Json, path: string, way: 'up' | 'down'): Place | null => {
  const here = placeOf(path);
  if (here === null || keysOf(here.list).at(-2) !== 'lanes') return null;
  const { parent, key } = parted(here.list);
  const lane = `${parent}/${Number(key) + (way === 'up' ? -1 : 1)}`;
  const list = valueAt(doc, lane);
  return isList(list) ? { list: lane, index: Math.min(here.index, list.length) } : null;
};

/** The draft's lists under a procedure, in the order of the text, with the procedure's own first. */
export const listPaths = (doc: Json, procedure: string): string[] => [
  ...listsOf(valueAt(doc, procedure)).map(({ under }) => `${procedure}${under}`),
  ...[...nodesUnder(doc, procedure)].flatMap(({ path, node }) => listsOf(node).map(({ under }) => `${path}${under}`)),
];
