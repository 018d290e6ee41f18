import type { FormulaText, Id, Node, Procedure, Step, When } from '../../model/deck.ts';
import { isBlock, isUse } from '../../model/deck.ts';
import { at } from '../../subjects/finding.ts';
import { asksOrder } from '../../subjects/procedure/words.ts';
import { quoted } from './answers.ts';
import { conditionWords, fieldName, type Saying, whenWords } from './field-words.ts';
import { meant, plainFields } from './fields.ts';
import type { Part, Put } from './parts.ts';

/** Fields of a list that items hang on: their facets. */
const LIST_FIELDS: ReadonlyMap<string, string> = new Map([
  ['called', 'words'],
  ['calledBy', 'crew'],
  ['starts', 'cue'],
]);

interface Under {
  readonly whens: readonly When[];
  readonly ifs: readonly FormulaText[];
  readonly together: boolean;
}

export const stepsBelow = (nodes: readonly Node[]): Step[] =>
  nodes.flatMap((n) =>
    isUse(n) ? [] : isBlock(n) ? [...(n.steps ? [n.steps] : []), ...(n.lanes ?? [])].flatMap(stepsBelow) : [n],
  );

export function procedureParts(s: Saying, p: Procedure, path: string, put: Put): void {
  const { deck } = s;
  const axes = deck.variants ?? [];
  const fields = plainFields(s, p, path, {
    items: (key) => (!asksOrder(p) && LIST_FIELDS.has(key) ? [`${p.id}.${LIST_FIELDS.get(key)}`] : []),
  });
  const ids = stepsBelow(p.steps).map((step) => step.id);
  // Where the order is asked, the places of the steps tell it.
  if (!asksOrder(p))
    fields.set('order', {
      name: fieldName('order'),
      raw: ids,
      words: ids.map(s.step).join(', '),
      path: at(path, 'steps'),
      items: [],
      sequence: true,
    });
  const key = `procedure ${p.id}`;
  const variants = (whens: readonly When[]): string => whens.map((when) => whenWords(axes, when)).join(', ');
  const own = p.when === undefined ? [] : [p.when];
  const says = stepsBelow(p.steps)
    .map((step) => s.step(step.id))
    .join(', ');
  put({ key, parent: null, path, label: `Procedure: ${p.title}`, says, of: 'things', variants: variants(own), fields });

  const uses: { id: Id; ifs: readonly FormulaText[] }[] = [];
  const visit = (nodes: readonly Node[], here: string, under: Under): void =>
    nodes.forEach((node, i) => {
      const place = at(here, i);
      const within: Under = {
        whens: node.when === undefined ? under.whens : [...under.whens, node.when],
        ifs: node.if === undefined ? under.ifs : [...under.ifs, node.if],
        together: under.together || (isBlock(node) && node.together === true),
      };
      if (isUse(node)) uses.push({ id: node.use, ifs: within.ifs });
      else if (isBlock(node)) {
        visit(node.steps ?? [], at(place, 'steps'), within);
        node.lanes?.forEach((lane, k) => {
          visit(lane, at(place, 'lanes', k), within);
        });
      } else put(stepPart(s, node, place, key, p, within, variants(within.whens)));
    });
  visit(p.steps, at(path, 'steps'), { whens: own, ifs: [], together: false });
  for (const { id, ifs } of uses) {
    const words = [`block ${id}`, ...ifs.map((text) => `if ${conditionWords(s, text)}`)].join(' ');
    fields.set(`use ${id}`, {
      name: 'takes',
      raw: ifs.map(meant),
      words,
      path: at(path, 'steps'),
      items: [],
      weighty: true,
    });
  }
}

function stepPart(
  s: Saying,
  step: Step,
  path: string,
  parent: string,
  p: Procedure,
  { ifs, together }: Under,
  variants: string,
): Part {
  const item = (facet: string): readonly string[] => [`${step.id}.${facet}`];
  const fields = plainFields(s, step, path, {
    items: (key) =>
      key === 'say'
        ? item('words')
        : key === 'by'
          ? item('crew')
          : key === 'cue'
            ? item('cue')
            : key === 'when'
              ? item('place')
              : [],
  });
  fields.set('place', { name: fieldName('place'), raw: p.id, words: p.title, path, items: [] });
  if (together) fields.set('together', { name: fieldName('together'), raw: true, words: 'yes', path, items: [] });
  fields.delete('if');
  if (ifs.length > 0)
    fields.set('if', {
      name: fieldName('if'),
      raw: ifs.map(meant),
      words: ifs.map((text) => conditionWords(s, text)).join(', and '),
      path: step.if === undefined ? path : at(path, 'if'),
      items: [],
      weighty: true,
    });
  const label = `Step: ${quoted(s.deck, step)} (${p.title})`;
  return {
    key: `step ${step.id}`,
    parent,
    path,
    label,
    says: quoted(s.deck, step),
    of: 'things',
    variants,
    keeps: path,
    fields,
  };
}
