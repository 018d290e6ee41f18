import { insert, parted, put, valueAt } from '../../../draft/change.ts';
import { mint } from '../../../draft/mint.ts';
import { mintName, namesIn } from '../../../draft/mint-name.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import { isList, isMembers, type Members } from '../../../lib/json.ts';
import type { DraftModel } from '../model/draft.ts';
import { below } from './editing.ts';
import { type Kept, type Kind, type Shape, type Variety, varietyOf } from './spec.ts';

const sortOf = (value: Json | undefined): string => (isList(value) ? 'list' : isMembers(value) ? 'members' : 'one');

/** Written the other way: what both ways know is kept, what only the old one knew goes, what the new one needs comes. */
export const converted = (value: Members, to: Variety): Members => {
  const kept: [string, Json][] = [];
  for (const [key, one] of Object.entries(value)) {
    const spec = to.fields[key];
    const blank = to.blank[key];
    if (spec === undefined || one === undefined || (blank !== undefined && sortOf(blank) !== sortOf(one))) continue;
    kept.push([key, spec.kind.is === 'things' && isList(one) ? one.map((each) => within(spec.kind, each)) : one]);
  }
  return { ...to.blank, ...Object.fromEntries(kept) };
};

const within = (kind: Kind, each: Json): Json =>
  kind.is === 'things' && isMembers(each) ? (converted(each, varietyOf(kind.each, each)) as Json) : each;

const blankOf = (shape: Shape): Json => shape[0].blank as Json;

/** What a list or record holds when it comes to be, and what an optional object does. */
const firstOf = (kind: Kind, doc: Json, path: string): Json | null => {
  switch (kind.is) {
    case 'part':
      return kind.blank;
    case 'list':
    case 'strangers':
      return [''];
    case 'rows':
      return [
        ['', ''],
        ['', ''],
      ];
    case 'things':
      return [kind.blank(doc, path)];
    case 'record':
      return { [newKey(kind, doc, path)]: recordBlank(kind) };
    default:
      return null;
  }
};

const recordBlank = (kind: Kept): Json => ('single' in kind.each ? '' : blankOf(kind.each));

const newKey = (kind: Kept, doc: Json, path: string): string => {
  const there = valueAt(doc, path);
  const taken = new Set([...(kind.name ? namesIn(doc, path) : []), ...(isMembers(there) ? Object.keys(there) : [])]);
  return kind.name ? mintName('', taken, kind.plain) : mint('', taken, kind.plain);
};

/** Puts one more into a list or record, or makes it. @returns pointer of what came to be */
export const addTo = (draft: DraftModel, path: string, kind: Kind, label: string): string => {
  const doc = draft.value.peek();
  const there = valueAt(doc, path);
  if (kind.is === 'things' && kind.first !== undefined && !(isList(there) && there.length > 0)) {
    const holder = valueAt(doc, parted(path).parent);
    const changes = kind.first({ doc, path: parted(path).parent, value: isMembers(holder) ? holder : {} });
    if (changes !== null) {
      draft.change(label, changes);
      return `${path}/0`;
    }
  }
  if (kind.is === 'record' && isMembers(there)) {
    const key = newKey(kind, doc, path);
    draft.change(label, [put(doc, below(path, key), recordBlank(kind))]);
    return below(path, key);
  }
  const first = firstOf(kind, doc, path);
  if (isList(there) && isList(first)) {
    draft.change(label, [insert(path, there.length, first[0] as Json)]);
    return `${path}/${there.length}`;
  }
  if (first === null) return path;
  draft.change(label, [put(doc, path, first)]);
  return path;
};

/** Takes an element or a member away; with the last one an optional list or record goes too. */
export const removeFrom = (draft: DraftModel, path: string, key: string | number, required: boolean, label: string) => {
  const doc = draft.value.peek();
  const there = valueAt(doc, path);
  const length = isList(there) ? there.length : isMembers(there) ? Object.keys(there).length : 0;
  draft.change(label, [put(doc, length === 1 && !required ? path : below(path, key), undefined)]);
};

/** One place up (−1) or down (+1) in a list, or among the members of a record. */
export const moveIn = (draft: DraftModel, path: string, index: number, by: 1 | -1, label: string): void => {
  const doc = draft.value.peek();
  const there = valueAt(doc, path);
  if (isList(there)) {
    const one = there[index];
    if (one === undefined || there[index + by] === undefined) return;
    draft.change(label, [put(doc, `${path}/${index}`, undefined), insert(path, index + by, one)]);
    return;
  }
  if (!isMembers(there)) return;
  const entries = Object.entries(there);
  const [one] = entries.splice(index, 1);
  if (one === undefined || index + by < 0 || index + by > entries.length) return;
  entries.splice(index + by, 0, one);
  draft.change(label, [put(doc, path, Object.fromEntries(entries) as Json)]);
};
