import { keysOf } from '../../../draft/change.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import { isList, isMembers } from '../../../lib/json.ts';
import { type Fields, type Kind, type Shape, type Single, varietyOf } from '../fields/spec.ts';
import { CONDITIONS, CREW, DAY, DECK, SOURCES, VARIANTS } from '../forms/deck-fields.ts';
import { LIMIT } from '../forms/limit-fields.ts';
import { AREAS, PACED_RUNS } from '../forms/paced-fields.ts';
import { BLOCK, PROCEDURE, STEP, USE } from '../forms/procedure-fields.ts';
import { SCENARIO } from '../forms/scenario-fields.ts';

/** How a form calls a place of the draft. */
export interface Called {
  /** From without: `["Case 2", "Value"]`; empty for a page as a whole. */
  readonly trail: readonly string[];
  /** What is written there, where the form has one box for it. */
  readonly kind?: Kind | Single;
}

const LISTS: Readonly<Record<string, Kind>> = {
  sources: SOURCES,
  variants: VARIANTS,
  crew: CREW,
  day: DAY,
  conditions: CONDITIONS,
  areas: AREAS,
  paced: PACED_RUNS,
};

const numbered = (one: string, key: string): string => (/^\d+$/.test(key) ? `${one} ${Number(key) + 1}` : one);

const member = (value: Json | undefined, key: string): Json | undefined =>
  isList(value) ? value[Number(key)] : isMembers(value) ? value[key] : undefined;

const inFields = (fields: Fields, value: Json | undefined, keys: readonly string[]): Called => {
  const [key, ...rest] = keys;
  if (key === undefined) return { trail: [] };
  const spec = fields[key];
  if (spec === undefined) return { trail: [key] };
  const { trail, kind } = inKind(spec.kind, member(value, key), rest);
  // "Cases, Case 2" says the same twice; so does "Table, Row 2".
  const within = ['things', 'part', 'record', 'rows'].includes(spec.kind.is);
  const single = spec.kind.is === 'list';
  const named =
    trail.length === 0
      ? [spec.label]
      : within
        ? trail
        : single
          ? [`${spec.label} ${trail[0]}`]
          : [spec.label, ...trail];
  return { trail: named, ...(kind !== undefined && { kind }) };
};

const inShape = (shape: Shape, value: Json | undefined, keys: readonly string[]): Called =>
  inFields(varietyOf(shape, value).fields, value, keys);

const within = (name: string, deeper: Called): Called => ({ ...deeper, trail: [name, ...deeper.trail] });

const inKind = (kind: Kind, value: Json | undefined, keys: readonly string[]): Called => {
  const [key, ...rest] = keys;
  if (key === undefined) return { trail: [], kind };
  switch (kind.is) {
    case 'things':
      return within(numbered(kind.one, key), inShape(kind.each, member(value, key), rest));
    case 'part':
      return inFields(kind.fields, value, keys);
    case 'record': {
      const place = isMembers(value) ? Object.keys(value).indexOf(key) : -1;
      const name = place < 0 ? kind.one : `${kind.one} ${place + 1}`;
      return 'single' in kind.each ? { trail: [name] } : within(name, inShape(kind.each, member(value, key), rest));
    }
    case 'rows':
      return { trail: [numbered('Row', key)], ...(rest.length > 0 && { kind: { is: 'number' } }) };
    case 'list':
      return { trail: [String(Number(key) + 1)], kind: kind.of };
    default:
      return { trail: [], kind };
  }
};

/** Words by which an author knows a step or block. */
const nodeWords = (node: Json | undefined, key: string): string => {
  const block = isMembers(node) && ('steps' in node || 'lanes' in node);
  const words = isMembers(node) ? [node.do, node.say].find((text) => typeof text === 'string' && text !== '') : null;
  return typeof words === 'string' ? `“${words}”` : numbered(block ? 'Block' : 'Step', key);
};

const inNodes = (nodes: Json | undefined, keys: readonly string[]): Called => {
  const [key, ...rest] = keys;
  if (key === undefined) return { trail: [] };
  const node = member(nodes, key);
  if (isList(node)) return inNodes(node, rest);
  const [next, ...deeper] = rest;
  if (next === 'steps' || next === 'lanes') return inNodes(member(node, next), deeper);
  const fields = isMembers(node) && 'use' in node ? USE : isMembers(node) && ('steps' in node || 'lanes' in node);
  return within(nodeWords(node, key), inFields(fields === true ? BLOCK : fields === false ? STEP : fields, node, rest));
};

/** @param path JSON Pointer of a place of the draft */
export const calledAt = (doc: Json, path: string): Called => {
  const [section = '', index = '', ...rest] = keysOf(path);
  const list = member(doc, section);
  const thing = member(list, index);
  if (index === '') return inFields(DECK, doc, keysOf(path));
  if (section === 'limits') return inShape(LIMIT, thing, rest);
  if (section === 'scenarios') return inFields(SCENARIO, thing, rest);
  if (section === 'procedures')
    return rest[0] === 'steps' ? inNodes(member(thing, 'steps'), rest.slice(1)) : inFields(PROCEDURE, thing, rest);
  const kind = LISTS[section];
  return kind === undefined ? inFields(DECK, doc, [section]) : inKind(kind, list, [index, ...rest]);
};
