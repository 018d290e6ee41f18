import { keysOf, valueAt } from '../../../draft/change.ts';
import { kindOf, nodesUnder, textOf } from '../../../draft/nodes.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import { isList, isMembers } from '../../../lib/json.ts';
import { DEFAULT_CREW } from '../../../model/deck.ts';

const objects = (doc: Json, path: string): readonly Json[] => {
  const list = valueAt(doc, path);
  return isList(list) ? list : [];
};
const byId = (doc: Json, path: string, id: string): Json | undefined =>
  objects(doc, path).find((one) => textOf(one, 'id') === id);

/** "PF", "Cabin crew"; '' where nobody is named. */
export const crewWords = (doc: Json, by: string): string =>
  textOf(byId(doc, '/crew', by), 'label') || DEFAULT_CREW.find(({ id }) => id === by)?.label || by;

/** What is done and said, as it is written so far. */
export const stepWords = (node: Json | undefined): string => {
  const [act, say] = [textOf(node, 'do').trim(), textOf(node, 'say').trim()];
  const said = say === '' ? '' : `“${say}”`;
  if (act !== '' && said !== '') return `${act}: ${said}`;
  return act || said || 'A step without words';
};

const limitWords = (doc: Json, id: string): string => textOf(byId(doc, '/limits', id), 'ask') || id;

/** A condition by its name in formulas. */
export const conditionOf = (doc: Json, id: string): Json | undefined => byId(doc, '/conditions', id);

/** At what it is done; '' without a cue. */
export const cueWords = (doc: Json, node: Json): string => {
  const cue = isMembers(node) ? node.cue : undefined;
  const [limit, day, event] = [textOf(cue, 'limit'), textOf(cue, 'day'), textOf(cue, 'event')];
  return [
    textOf(cue, 'text'),
    limit && limitWords(doc, limit),
    day && (textOf(byId(doc, '/day', day), 'label') || day),
    event && (textOf(byId(doc, '/conditions', event), 'yes') || event),
  ]
    .filter((words) => words !== '')
    .join(', ');
};

/** Steps that must be done before, by their numbers: "after 1 and 3, answers 2". @param numbers by id */
export const waitWords = (node: Json, numbers: ReadonlyMap<string, number>): string => {
  if (!isMembers(node)) return '';
  const say = (word: string, ids: readonly string[]): string => {
    const told = ids.filter((id) => id !== '').map((id) => numbers.get(id) ?? id);
    return told.length === 0 ? '' : `${word}\u00a0${told.join(' and\u00a0')}`;
  };
  const needs = isList(node.needs) ? node.needs.filter((id) => typeof id === 'string') : [];
  return [say('after', [...needs, textOf(node.after, 'step')]), say('answers', [textOf(node, 'answers')])]
    .filter((words) => words !== '')
    .join(', ');
};

/** A formula as an author would say it, where it is no more than a yes or no, or one of some choices. */
const ifWords = (doc: Json, formula: string): string => {
  const yesNo = /^\s*(!?)\s*([A-Za-z]\w*)\s*$/.exec(formula);
  if (yesNo !== null) return textOf(byId(doc, '/conditions', yesNo[2] as string), yesNo[1] ? 'no' : 'yes') || formula;
  const [, opposite, id = '', sign, option = ''] =
    /^\s*(!\()?\s*([A-Za-z]\w*)\s*([!=]=)\s*"([^"]*)"\s*\)?\s*$/.exec(formula) ?? [];
  const condition = byId(doc, '/conditions', id);
  const chosen = textOf(isMembers(condition) ? condition.options : undefined, option);
  if (chosen === '') return formula;
  const not = (opposite === undefined) === (sign === '!=') ? 'not ' : '';
  return `${textOf(condition, 'label') || id}: ${not}${chosen}`;
};

/** What a condition of the deck can be, as a formula and in the author's words. */
export interface Circumstance {
  readonly formula: string;
  readonly words: string;
}

/** Each yes/no condition and each choice of the deck, and its opposite. */
export const circumstances = (doc: Json): Circumstance[] =>
  objects(doc, '/conditions').flatMap((one) => {
    const [id, yes, no] = [textOf(one, 'id'), textOf(one, 'yes'), textOf(one, 'no')];
    if (id === '') return [];
    if (yes !== '')
      return [
        { formula: id, words: `When: ${yes}` },
        { formula: `!${id}`, words: `Not: ${yes}${no === '' ? '' : ` (${no})`}` },
      ];
    const options = isMembers(one) && isMembers(one.options) ? Object.entries(one.options) : [];
    const label = textOf(one, 'label') || id;
    return options.flatMap(([key, words]) => [
      { formula: `${id} == "${key}"`, words: `When: ${label}: ${String(words || key)}` },
      { formula: `${id} != "${key}"`, words: `Not: ${label}: ${String(words || key)}` },
    ]);
  });

/** "TK-11", "not Calder Coast Air". */
export const whenWords = (doc: Json, when: Json | undefined): string => {
  if (!isMembers(when)) return '';
  if (isMembers(when.not)) return `not ${whenWords(doc, when.not as Json)}`;
  const axes = Object.entries(when).map(([axis, wanted]) => {
    const options = valueAt(byId(doc, '/variants', axis), '/options');
    const list = isList(wanted) ? wanted.map(String) : [String(wanted)];
    return list.map((one) => textOf(options, one) || one).join(' or ');
  });
  return axes.join(', ');
};

/** What confines a node; '' where it always holds. */
export const heldWords = (doc: Json, node: Json): string => {
  const condition = textOf(node, 'if');
  const when = isMembers(node) ? node.when : undefined;
  const held = whenWords(doc, when);
  const only = isMembers(when) && !isMembers(when.not) ? `${held} only` : held;
  return [only, condition && `If: ${ifWords(doc, condition)}`].filter((words) => words !== '').join(' · ');
};

/** What a block is, for its head. */
export const blockWords = (node: Json): string => {
  const together = isMembers(node) && node.together === true;
  if (kindOf(node) === 'lanes') return together ? 'Side by side, done at once' : 'Side by side, in any order';
  return together ? 'Together, in any order' : 'Block';
};

/** Any node in a few words. */
export const nodeWords = (doc: Json, node: Json | undefined): string => {
  switch (kindOf(node)) {
    case 'step':
      return stepWords(node);
    case 'use':
      return `Block ${textOf(node, 'use')} of another procedure`;
    case 'odd':
      return 'Something that is no step';
    default:
      return [heldWords(doc, node as Json), blockWords(node as Json)].filter((one) => one !== '').join(' · ');
  }
};

/** "Step 4 of 12, lane 2": where a node stands, for those who do not see it move. */
export const whereWords = (doc: Json, procedure: string, path: string): string => {
  const steps = [...nodesUnder(doc, procedure)].filter(({ node }) => kindOf(node) === 'step');
  const at = steps.findIndex((one) => one.path === path || one.path.startsWith(`${path}/`));
  const keys = keysOf(path);
  const lane = keys.at(-3) === 'lanes' ? `, lane ${laneWords(doc, path)}` : '';
  return `${at < 0 ? 'Block' : `Step ${at + 1} of ${steps.length}`}${lane}`;
};

/** A lane by the one who acts in it, else by its number. */
const laneWords = (doc: Json, path: string): string => {
  const list = path.slice(0, path.lastIndexOf('/'));
  const nodes = objects(doc, list);
  const by = textOf(nodes[0], 'by');
  const all = by !== '' && nodes.every((one) => textOf(one, 'by') === by);
  return all ? crewWords(doc, by) : String(Number(keysOf(list).at(-1)) + 1);
};
