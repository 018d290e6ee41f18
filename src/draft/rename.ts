import type { Json } from '../lib/canonical-json.ts';
import { isMembers, type Members } from '../lib/json.ts';
import { apply, type Change, keysOf, parted, put, renamed, valueAt } from './change.ts';
import { choiceRewrite, limitRewrite, nameRewrite, rewritten, type Site, sitesOf } from './references.ts';

/** What a site says afterwards; undefined: as before. */
type Follow = (site: Site) => Json | undefined;

/** Each follower in turn; a site is of one of them. */
const whole =
  (role: Site['role'], from: string, to: string): Follow =>
  (site) =>
    'text' in site && site.role === role && site.text === from ? to : undefined;

const formula =
  (rewrite: Parameters<typeof rewritten>[1]): Follow =>
  (site) =>
    'text' in site && site.role === 'formula' ? rewritten(site.text, rewrite) : undefined;

const places =
  (from: string, to: string): Follow =>
  (site) =>
    'text' in site && (site.role === 'text' || site.role === 'area')
      ? site.text.replaceAll(`{${from}}`, () => `{${to}}`)
      : undefined;

/** The part of a reference before or behind its mark. */
const part =
  (role: Site['role'], is: (before: string, behind: string) => string | null): Follow =>
  (site) => {
    if (!('text' in site) || site.role !== role) return undefined;
    const cut = site.text.indexOf('#');
    if (cut < 0) return is(site.text, '') ?? undefined;
    return is(site.text.slice(0, cut), site.text.slice(cut + 1)) ?? undefined;
  };

/** A rule that a paced run never draws: of the ask that gives it its wind. */
const ruleOfWind =
  (doc: Json, ask: string, from: string, to: string): Follow =>
  (site) => {
    if (!('text' in site) || site.role !== 'ruleOfWind' || site.text !== from) return undefined;
    return valueAt(doc, `/paced/${keysOf(site.path)[1] ?? ''}/wind`) === ask ? to : undefined;
  };

const withKey = (value: Members, from: string, to: string): Members =>
  Object.fromEntries(Object.entries(value).map(([key, one]) => [key === from ? to : key, one]));

/** Within `when`, at any depth of `not`. */
const inWhen = (value: Json | undefined, change: (axes: Members) => Members): Json => {
  if (!isMembers(value)) return value ?? null;
  if (isMembers(value.not)) return { ...value, not: inWhen(value.not, change) };
  return change(value);
};

const when =
  (change: (axes: Members) => Members): Follow =>
  (site) =>
    site.role === 'when' && 'value' in site ? inWhen(site.value, change) : undefined;

const given =
  (change: (given: Members) => Members): Follow =>
  (site) =>
    site.role === 'given' && 'value' in site && isMembers(site.value) ? change(site.value) : undefined;

const choiceOf = (name: string, from: string, to: string): Follow[] => [
  formula(choiceRewrite(name, from, to)),
  given((one) => (one[name] === from ? { ...one, [name]: to } : one)),
];

const replaced = (value: Json | undefined, from: string, to: string): Json | undefined =>
  Array.isArray(value) ? value.map((one) => (one === from ? to : one)) : value === from ? to : value;

const nameFollows = (from: string, to: string): Follow[] => [
  formula(nameRewrite(from, to)),
  places(from, to),
  whole('name', from, to),
  given((one) => withKey(one, from, to)),
];

interface Renaming {
  readonly follows: readonly Follow[];
  /** Where the name is known: pointer of the part of the draft. */
  readonly within: string;
}

/** Who follows, by where the name stands. */
const renamingOf = (doc: Json, path: string, from: string, to: string): Renaming => {
  const keys = keysOf(path);
  const [section, index = '', list, second = ''] = keys;
  const all = (...follows: readonly Follow[]): Renaming => ({ follows, within: '' });
  const idAt = (pointer: string): string => String(valueAt(doc, `${pointer}/id`) ?? '');
  const options = keys.at(-2) === 'options';
  switch (section) {
    case 'sources':
      return all(part('source', (id, place) => (id !== from ? null : place === '' ? to : `${to}#${place}`)));
    case 'variants': {
      const axis = idAt(`/variants/${index}`);
      if (options) return all(when((axes) => ({ ...axes, [axis]: replaced(axes[axis], from, to) })));
      return all(when((axes) => withKey(axes, from, to)));
    }
    case 'crew':
      return all(whole('crew', from, to));
    case 'day':
      return all(...nameFollows(from, to));
    case 'conditions':
      return all(...(options ? choiceOf(idAt(`/conditions/${index}`), from, to) : nameFollows(from, to)));
    case 'limits':
      if (options) return { follows: [whole('option', from, to)], within: `/limits/${index}` };
      return keys.length > 3 ? all() : all(whole('thing', from, to), formula(limitRewrite(from, to)));
    case 'procedures':
      return all(whole('thing', from, to));
    case 'areas':
      return all(whole('area', from, to));
    case 'scenarios': {
      const own = `/scenarios/${index}`;
      if (options) return { follows: [whole('option', from, to)], within: `${own}/asks/${second}` };
      if (keys.at(-2) === 'oneOf') return { follows: choiceOf(second, from, to), within: own };
      if (list === 'draw' || list === 'let') return { follows: nameFollows(from, to), within: own };
      const id = idAt(own);
      if (list === undefined || list === 'id')
        return all(part('rule', (scenario, ask) => (scenario === from ? `${to}#${ask}` : null)));
      if (list === 'asks' && keys.length === 5)
        return all(part('rule', (scenario, ask) => (scenario === id && ask === from ? `${id}#${to}` : null)));
      if (keys.at(-3) === 'rules') return all(ruleOfWind(doc, `${id}#${idAt(`${own}/asks/${second}`)}`, from, to));
      return all();
    }
    default:
      return all();
  }
};

const listOf = (value: Json | undefined): readonly Json[] => (Array.isArray(value) ? value : []);

const nodeIds = (nodes: Json | undefined): string[] =>
  listOf(nodes).flatMap((node) =>
    Array.isArray(node)
      ? nodeIds(node)
      : [String(valueAt(node, '/id') ?? ''), ...nodeIds(valueAt(node, '/steps')), ...nodeIds(valueAt(node, '/lanes'))],
  );

/** Ids of procedures, steps, blocks, limits, scenarios and paced runs, each as often as it is given: they are unique in a deck. */
const thingIds = (doc: Json): string[] =>
  ['/procedures', '/limits', '/scenarios', '/paced'].flatMap((list) => nodeIds(valueAt(doc, list)));

/** Names among which the one at that place must be unique, itself too: ids of things, or those of its own list. */
export const idsBeside = (doc: Json, path: string): string[] => {
  if (path.startsWith('/procedures/') || /^\/(limits|scenarios|paced)\/\d+\/id$/.test(path)) return thingIds(doc);
  const list = parted(parted(path).parent).parent;
  const key = isAreaName(keysOf(path)) ? '/label' : '/id';
  return listOf(valueAt(doc, list)).map((one) => String(valueAt(one, key) ?? ''));
};

/**
 * Another name for something, everywhere in the draft: in references, formulas and `{name}` places of texts.
 * @param path of the `id` member, of the label of an area, or of the member of a record (options, draw, let) whose key is the name
 * @returns one step; nothing where the name is the same. Where two things are called so, references stay with the other.
 */
export const rename = (doc: Json, path: string, to: string): Change[] => {
  const keys = keysOf(path);
  const key = keys.at(-1) ?? '';
  const isId = (key === 'id' && !recordAt(keys)) || isAreaName(keys);
  const from = isId ? String(valueAt(doc, path) ?? '') : key;
  if (from === to) return [];
  const own = (now: Json): Change => (isId ? put(now, path, to) : renamed(now, path, to));
  const twice = isId && idsBeside(doc, path).filter((id) => id === from).length > 1;
  if (from === '' || twice) return [own(doc)];
  const { follows, within } = renamingOf(doc, path, from, to);
  const changes: Change[] = [];
  for (const site of sitesOf(valueAt(doc, within), within, within === '' ? '' : 'thing')) {
    const before = 'text' in site ? site.text : site.value;
    for (const follow of follows) {
      const after = follow(site);
      if (after === undefined || after === before || JSON.stringify(after) === JSON.stringify(before)) continue;
      changes.push(put(doc, site.path, after));
      break;
    }
  }
  return [...changes, own(apply(doc, changes))];
};

/** An area is named by its label. */
const isAreaName = (keys: readonly string[]): boolean =>
  keys.length === 3 && keys[0] === 'areas' && keys[2] === 'label';

/** Is the last key one that the author gave? */
const recordAt = (keys: readonly string[]): boolean =>
  ['options', 'oneOf', 'draw', 'let'].includes(keys.at(-2) ?? '') &&
  !['sources', 'day', 'crew'].includes(keys[0] ?? '');
