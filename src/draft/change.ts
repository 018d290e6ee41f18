import type { Json } from '../lib/canonical-json.ts';
import { isList, isMembers } from '../lib/json.ts';

/**
 * One place of a draft before and after. Undefined: not there. In a list, appearing is inserting, vanishing is closing up.
 * Of the changes of one step each speaks of the draft as those before it left it.
 */
export interface Change {
  /** JSON Pointer (RFC 6901). */
  readonly path: string;
  readonly before: Json | undefined;
  readonly after: Json | undefined;
  /** Where among the members of its object it stands, from 0; for what was or comes there. Absent: last. */
  readonly place?: number;
}

/** @throws RangeError where the text is no JSON Pointer */
export const keysOf = (path: string): string[] => {
  if (path === '') return [];
  if (!path.startsWith('/')) throw new RangeError(`“${path}” is no JSON Pointer`);
  return path
    .slice(1)
    .split('/')
    .map((key) => key.replaceAll('~1', '/').replaceAll('~0', '~'));
};

/** @returns the pointer of what holds it, and its own key. @throws RangeError for the whole draft */
export const parted = (path: string): { readonly parent: string; readonly key: string } => {
  const key = keysOf(path).at(-1);
  if (key === undefined) throw new RangeError('the whole draft has no parent');
  return { parent: path.slice(0, path.lastIndexOf('/')), key };
};

/** Index of a key in a list of that length, or of the place behind its end; −1 where it is none. */
const indexOf = (key: string, length: number): number =>
  /^(0|[1-9][0-9]*)$/.test(key) && Number(key) <= length ? Number(key) : -1;

const member = (value: Json | undefined, key: string): Json | undefined => {
  if (isList(value)) return value[indexOf(key, value.length)];
  return isMembers(value) && Object.hasOwn(value, key) ? value[key] : undefined;
};

/** What stands at a pointer; undefined where nothing does. */
export const valueAt = (doc: Json | undefined, path: string): Json | undefined =>
  keysOf(path).reduce<Json | undefined>(member, doc);

/** Sets a member or an element; `undefined` removes it. */
export const put = (doc: Json, path: string, value: Json | undefined): Change => {
  const before = valueAt(doc, path);
  const change = { path, before, after: value };
  if (path === '' || (before !== undefined) === (value !== undefined)) return change;
  const { parent, key } = parted(path);
  const holder = valueAt(doc, parent);
  if (!isMembers(holder)) return change;
  return { ...change, place: before === undefined ? Object.keys(holder).length : Object.keys(holder).indexOf(key) };
};

/** Puts an element into a list. @param index from 0 to the list's length */
export const insert = (list: string, index: number, value: Json): Change => ({
  path: `${list}/${index}`,
  before: undefined,
  after: value,
});

/** The draft with one member of an object renamed where it stands; for objects whose keys the author gives. */
export const renamed = (doc: Json, path: string, to: string): Change => {
  const { parent, key } = parted(path);
  const holder = valueAt(doc, parent);
  if (!isMembers(holder)) throw new RangeError(`${parent} has no members`);
  const after = Object.fromEntries(Object.entries(holder).map(([k, value]) => [k === key ? to : k, value as Json]));
  return { path: parent, before: holder as Json, after };
};

const spliced = <T>(list: readonly T[], at: number, gone: number, ...put: readonly T[]): T[] => [
  ...list.slice(0, at),
  ...put,
  ...list.slice(at + gone),
];

/** @throws RangeError where a change does not fit the draft: its place is not there, or is no list or object */
export const apply = (doc: Json, changes: readonly Change[]): Json => changes.reduce(one, doc);

const one = (doc: Json, change: Change): Json => {
  if (change.path === '') return change.after ?? null;
  return within(doc, keysOf(change.path), change);
};

const within = (value: Json | undefined, keys: readonly string[], change: Change): Json => {
  const [key = '', ...deeper] = keys;
  const nothing = () => new RangeError(`there is nothing at ${change.path}`);
  if (isList(value)) {
    const index = indexOf(key, value.length);
    if (deeper.length > 0) {
      if (index < 0 || index === value.length) throw nothing();
      return spliced(value, index, 1, within(value[index], deeper, change));
    }
    if (index < 0 || (change.before !== undefined && index === value.length)) throw nothing();
    const put = change.after === undefined ? [] : [change.after];
    return spliced(value, index, change.before === undefined ? 0 : 1, ...put);
  }
  if (!isMembers(value)) throw nothing();
  const members = value as { readonly [key: string]: Json };
  if (deeper.length > 0) {
    if (!Object.hasOwn(members, key)) throw nothing();
    return { ...members, [key]: within(members[key], deeper, change) };
  }
  if (change.after === undefined) {
    const { [key]: _gone, ...rest } = members;
    return rest;
  }
  if (Object.hasOwn(members, key)) return { ...members, [key]: change.after };
  const entries = Object.entries(members);
  return Object.fromEntries(spliced(entries, change.place ?? entries.length, 0, [key, change.after]));
};

/** What takes the changes back. */
export const undone = (changes: readonly Change[]): Change[] =>
  [...changes].reverse().map(({ before, after, ...rest }) => ({ ...rest, before: after, after: before }));
