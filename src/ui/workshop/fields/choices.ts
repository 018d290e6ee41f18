import { keysOf, valueAt } from '../../../draft/change.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import { isList, isMembers, type Members } from '../../../lib/json.ts';
import { DEFAULT_CREW } from '../../../model/deck.ts';
import type { Choices, Refer } from './spec.ts';

const text = (value: Json | undefined): string => (typeof value === 'string' ? value.trim() : '');

/** Objects of a list of the draft; none where there is no list. */
export const objectsAt = (doc: Json, path: string): readonly Members[] => {
  const list = valueAt(doc, path);
  return isList(list) ? list.filter(isMembers) : [];
};

const labelled = (objects: readonly Members[], ...words: readonly string[]): [string, string][] =>
  objects.flatMap((one) => {
    const id = text(one.id);
    const label = words.map((word) => text(one[word])).find((word) => word !== '');
    return id === '' ? [] : [[id, label === undefined || label === id ? id : `${label} (${id})`] as [string, string]];
  });

/** Nodes of a procedure, those within blocks too. */
const nodesWithin = (nodes: Json | undefined): Members[] => {
  if (!isList(nodes)) return [];
  return nodes.flatMap((node) => {
    if (isList(node)) return nodesWithin(node);
    if (!isMembers(node)) return [];
    return [node, ...nodesWithin(node.steps), ...nodesWithin(node.lanes)];
  });
};

const isBlock = (node: Members): boolean => 'steps' in node || 'lanes' in node;

const stepWords = (nodes: readonly Members[]): [string, string][] =>
  labelled(
    nodes.filter((node) => !isBlock(node) && !('use' in node)),
    'do',
    'say',
  );

const blockWords = (nodes: readonly Members[]): [string, string][] =>
  labelled(nodes.filter(isBlock)).map(([id]) => [id, `Block ${id}`]);

/** Pointer of the thing (procedure, limit, scenario) that a place is within. */
export const thingPath = (path: string): string => `/${path.split('/').slice(1, 3).join('/')}`;

/** The options that a reference to one of the own options means: of the question, or of the limit. */
const ownOptions = (doc: Json, path: string): [string, string][] => {
  const keys = keysOf(path);
  const place =
    keys[0] === 'scenarios' ? `/${keys.slice(0, 4).join('/')}/choose/options` : `${thingPath(path)}/options`;
  const options = valueAt(doc, place);
  return isMembers(options) ? Object.entries(options).map(([id, words]) => [id, text(words) || id]) : [];
};

/** Nodes that a procedure shows: its own, and those of the blocks that it takes from others. */
const nodesShown = (doc: Json, procedure: string): Members[] => {
  const own = nodesWithin(valueAt(doc, `${procedure}/steps`));
  const taken = new Set(own.flatMap(({ use }) => (typeof use === 'string' ? [use] : [])));
  if (taken.size === 0) return own;
  const others = objectsAt(doc, '/procedures').flatMap(({ steps }) => nodesWithin(steps));
  const blocks = others.filter((node) => isBlock(node) && taken.has(text(node.id)));
  return [...own, ...blocks.flatMap((block) => [block, ...nodesWithin(block.steps), ...nodesWithin(block.lanes)])];
};

/** What may be named at a place, with words for people. */
export const choicesFor = (doc: Json, refer: Refer, path: string): Choices => {
  const own = () => nodesShown(doc, thingPath(path));
  switch (refer) {
    case 'limit':
      return labelled(objectsAt(doc, '/limits'), 'ask');
    case 'number-limit':
      return labelled(
        objectsAt(doc, '/limits').filter((limit) => !('table' in limit || 'options' in limit)),
        'ask',
      );
    case 'step':
      return stepWords(own());
    case 'step-or-block':
      return [...stepWords(own()), ...blockWords(own())];
    case 'block':
      return objectsAt(doc, '/procedures').flatMap((procedure) =>
        blockWords(nodesWithin(procedure.steps)).map(
          ([id, label]) => [id, `${text(procedure.title)}: ${label}`] as const,
        ),
      );
    case 'day':
      return labelled(objectsAt(doc, '/day'), 'label');
    case 'yes-no':
      return labelled(
        objectsAt(doc, '/conditions').filter((one) => 'yes' in one),
        'label',
      );
    case 'crew': {
      const named = labelled(objectsAt(doc, '/crew'), 'label').map(([id, label]) => [id, label] as const);
      const usual = DEFAULT_CREW.filter(({ id }) => !named.some(([one]) => one === id));
      return [...usual.map(({ id, label }) => [id, label] as const), ...named];
    }
    case 'scenario-ask':
      return objectsAt(doc, '/scenarios').flatMap((scenario) => {
        const id = text(scenario.id);
        return labelled(isList(scenario.asks) ? scenario.asks.filter(isMembers) : [], 'ask').map(
          ([ask, label]) => [`${id}#${ask}`, `${text(scenario.title) || id}: ${label}`] as const,
        );
      });
    case 'played':
      return labelled(
        objectsAt(doc, '/procedures').filter(({ done }) => done === 'memory' || done === 'flow'),
        'title',
      );
    case 'played-step': {
      const named = valueAt(doc, `${thingPath(path)}/procedures`);
      const played = objectsAt(doc, '/procedures').flatMap(({ id }, i) =>
        isList(named) && named.includes(text(id)) ? nodesShown(doc, `/procedures/${i}`) : [],
      );
      return stepWords([...new Set(played)]);
    }
    case 'area':
      return objectsAt(doc, '/areas').flatMap((one) => {
        const label = text(one.label);
        return label === '' ? [] : [[label, label] as const];
      });
    case 'option':
      return ownOptions(doc, path);
  }
};
