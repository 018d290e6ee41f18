import { createContext } from 'preact';
import { useContext, useLayoutEffect, useRef } from 'preact/hooks';
import { keysOf, valueAt } from '../../../draft/change.ts';
import { addLane } from '../../../draft/lanes.ts';
import { blankStep, insertNodes, kindOf, nodesUnder, placeBeside, placeOf, textOf } from '../../../draft/nodes.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import { isList, isMembers } from '../../../lib/json.ts';
import { Text } from '../../parts/Text.tsx';
import { plural } from '../../words.ts';
import { focusAt } from '../fields/focus.ts';
import { type LineDrag, useLineDrag } from './line-drag.ts';
import type { LineModel } from './line-model.ts';
import { NodeForm } from './NodeForm.tsx';
import { Tools } from './Tools.tsx';
import { blockWords, crewWords, cueWords, heldWords, nodeWords, stepWords, waitWords } from './words.ts';

interface Drawn {
  readonly line: LineModel;
  readonly drag: LineDrag;
  /** Number of each step by its pointer. */
  readonly numbers: ReadonlyMap<string, number>;
  /** The same by its id. */
  readonly ids: ReadonlyMap<string, number>;
  /** Forms stand beside the line, not in it. */
  readonly wide: boolean;
}
const DrawnContext = createContext<Drawn | null>(null);
const useDrawn = (): Drawn => useContext(DrawnContext) as Drawn;

const numbersOf = (doc: Json, procedure: string): Pick<Drawn, 'numbers' | 'ids'> => {
  const steps = [...nodesUnder(doc, procedure)].filter(({ node }) => kindOf(node) === 'step');
  return {
    numbers: new Map(steps.map(({ path }, i) => [path, i + 1])),
    ids: new Map(steps.map(({ node }, i) => [textOf(node, 'id'), i + 1])),
  };
};

/**
 * A procedure as a page of a quick reference: a rule down the middle with the numbers on it, the PF on the left, the
 * PM on the right, all others across. Lists within lists, so that it reads as well without being seen.
 */
export function Line(props: { readonly line: LineModel; readonly wide: boolean }) {
  const { line, wide } = props;
  const { draft, procedure } = line;
  const doc = draft.value.value;
  const root = useRef<HTMLDivElement>(null);
  const drag = useLineDrag(
    root,
    (path, to) => line.move(path, to, 'words'),
    (path) => line.show(line.open.peek() === path ? null : path),
  );
  // A row that is put elsewhere in the document loses the focus.
  const wanted = line.focus.value;
  useLayoutEffect(() => {
    if (wanted === null) return;
    line.focus.value = null;
    const { path, on } = wanted;
    if (on === 'form') return focusAt(path);
    const words = root.current?.querySelector<HTMLElement>(`[data-step="${CSS.escape(path)}"]`);
    // The tools may stand beside the line.
    const tool = typeof on === 'object' ? document.querySelector<HTMLElement>(`[data-tool="${on.tool}"]`) : null;
    (tool ?? words)?.focus();
  });
  return (
    <DrawnContext.Provider value={{ line, drag, wide, ...numbersOf(doc, procedure) }}>
      <div class="line-page" ref={root} {...drag.line}>
        <p class="line-head" aria-hidden="true">
          <span>{crewWords(doc, 'PF')}</span>
          <span>{crewWords(doc, 'PM')}</span>
        </p>
        <NodeList list={`${procedure}/steps`} label="Steps" />
      </div>
    </DrawnContext.Provider>
  );
}

function NodeList(props: { readonly list: string; readonly label: string; readonly lane?: boolean }) {
  const { list, label, lane } = props;
  const { line, drag } = useDrawn();
  const found = line.draft.at(list);
  const nodes = isList(found) ? found : [];
  const drop = drag.now?.drop;
  return (
    <>
      <ol class={lane ? 'line lane' : 'line'} aria-label={label}>
        {nodes.map((node, i) => (
          // By its place: its id is made of its words when these are left, and nothing may vanish under a finger then.
          <NodeItem key={i} path={`${list}/${i}`} node={node} />
        ))}
      </ol>
      <div
        class={`line-end ${drop?.side === 'end' && drop.beside === list ? 'drop-before' : ''}`}
        data-end={list}
        data-length={nodes.length}
      >
        <AddStep list={list} />
      </div>
    </>
  );
}

function AddStep({ list }: { readonly list: string }) {
  const { line } = useDrawn();
  const add = () => {
    const doc = line.draft.value.peek();
    const nodes = valueAt(doc, list);
    const length = isList(nodes) ? nodes.length : 0;
    // In a lane it is most often the same pilot who goes on.
    const by = keysOf(list).at(-2) === 'lanes' && isList(nodes) ? textOf(nodes.at(-1), 'by') : '';
    const step = blankStep(doc, by === '' ? {} : { by });
    line.act('Step added', insertNodes(doc, { list, index: length }, [step]), `${list}/${length}`, 'form');
  };
  return (
    <button type="button" class="plain" data-add={list} onClick={add}>
      Add a step{list === `${line.procedure}/steps` ? '' : ' here'}
    </button>
  );
}

/** Is it among the neighbours that are marked? */
const isMarked = (line: LineModel, path: string): boolean => {
  const open = line.open.value;
  const [from, here] = [open === null ? null : placeOf(open), placeOf(path)];
  if (from === null || here === null || from.list !== here.list) return false;
  return here.index >= from.index && here.index < from.index + line.marked.value;
};

/** Ms until the first findings of a draft stand on the page. */
const SETTLED = 400;

function NodeItem(props: { readonly path: string; readonly node: Json }) {
  const { path, node } = props;
  const { line, drag, wide } = useDrawn();
  const kind = kindOf(node);
  const open = line.open.value === path;
  const item = useRef<HTMLLIElement>(null);
  const within = open && !wide;
  // What was opened, with its tools under the same finger when it is moved, and where its form begins.
  useLayoutEffect(() => {
    if (!within) return;
    const showFirst = () =>
      item.current?.querySelector('.node-form :is(textarea, input, select)')?.scrollIntoView({ block: 'nearest' });
    item.current?.scrollIntoView({ block: 'start' });
    showFirst();
    // What the checker says of it comes a moment later and takes room.
    const later = setTimeout(showFirst, SETTLED);
    return () => clearTimeout(later);
  }, [within]);
  const drop = drag.now?.drop;
  const classes = [
    kind === 'step' ? `step ${sideOf(node)}` : 'part',
    isMarked(line, path) ? 'marked' : '',
    drag.now?.path === path ? 'held' : '',
    drop?.beside === path ? `drop-${drop.side}` : '',
  ];
  return (
    <li ref={item} class={classes.filter((one) => one !== '').join(' ')}>
      {kind === 'step' ? (
        <StepRow path={path} node={node} open={open} />
      ) : (
        <PartHead path={path} node={node} open={open} />
      )}
      {within && <Tools line={line} path={path} node={node} />}
      {within && <NodeForm draft={line.draft} path={path} node={node} />}
      {(kind === 'block' || kind === 'lanes') && <Inner path={path} node={node} />}
      {kind === 'use' && <Used node={node} />}
    </li>
  );
}

const sideOf = (node: Json): string => {
  const by = textOf(node, 'by');
  return by === 'PF' ? 'left' : by === 'PM' ? 'right' : 'across';
};

/** Moving by the keyboard, from the words of a step or the head of a block. */
const onMoveKey = (line: LineModel, path: string) => (event: KeyboardEvent) => {
  if (!event.altKey || (event.key !== 'ArrowUp' && event.key !== 'ArrowDown')) return;
  event.preventDefault();
  line.move(path, placeBeside(line.draft.value.peek(), path, event.key === 'ArrowUp' ? 'up' : 'down'), 'words');
};

/** Opens it; by the keyboard the cursor goes to a form that stands beside. Else marks neighbours from the open one on. */
const onPress = (line: LineModel, path: string, wide: boolean) => (event: MouseEvent) => {
  const open = line.open.peek();
  const [from, here] = [open === null ? null : placeOf(open), placeOf(path)];
  if (event.shiftKey && from !== null && here !== null && from.list === here.list && here.index > from.index) {
    line.marked.value = here.index - from.index + 1;
    return;
  }
  line.show(open === path ? null : path);
  if (wide && open !== path && event.detail === 0) line.focus.value = { path, on: 'form' };
};

function StepRow(props: { readonly path: string; readonly node: Json; readonly open: boolean }) {
  const { path, node, open } = props;
  const { line, drag, numbers, ids, wide } = useDrawn();
  const doc = line.draft.value.value;
  const [by, cue, held] = [textOf(node, 'by'), cueWords(doc, node), heldWords(doc, node)];
  const waits = waitWords(node, ids);
  const critical = isMembers(node) && node.critical === true;
  return (
    <div class="on-line" data-row={path}>
      <span class="knot-number number" aria-hidden="true" {...drag.handle(path)}>
        <span>{numbers.get(path)}</span>
      </span>
      <button
        type="button"
        class="words"
        data-step={path}
        aria-expanded={open}
        onClick={onPress(line, path, wide)}
        onKeyDown={onMoveKey(line, path)}
      >
        <span class="hidden-visually">{numbers.get(path)}. </span>
        {held !== '' && <span class="small held-by">{held} </span>}
        {cue !== '' && <span class="small soft">{cue}: </span>}
        <span class="act">
          {by !== '' && <span class="who">{crewWords(doc, by)} </span>}
          <Text text={stepWords(node)} />
        </span>
        {waits !== '' && <span class="small soft"> ({waits})</span>}
        {critical && (
          <>
            {' '}
            <span class="mark">critical</span>
          </>
        )}
      </button>
    </div>
  );
}

function PartHead(props: { readonly path: string; readonly node: Json; readonly open: boolean }) {
  const { path, node, open } = props;
  const { line, drag, wide } = useDrawn();
  const doc = line.draft.value.value;
  const kind = kindOf(node);
  const name = textOf(node, 'id');
  const held = kind === 'odd' ? '' : heldWords(doc, node);
  const plain = kind === 'use' ? nodeWords(doc, node) : kind === 'odd' ? nodeWords(doc, node) : blockWords(node);
  return (
    <div class="part-head" data-row={path} data-head="">
      <span class="knot-number" aria-hidden="true" {...drag.handle(path)}>
        <span>⋮</span>
      </span>
      <button
        type="button"
        class="words"
        data-step={path}
        aria-expanded={open}
        onClick={onPress(line, path, wide)}
        onKeyDown={onMoveKey(line, path)}
      >
        {held !== '' && <strong>{held} </strong>}
        {(held === '' || plain !== 'Block') && <span class="small">{plain}</span>}
        {name !== '' && <span class="small soft"> named {name}</span>}
      </button>
    </div>
  );
}

function Inner(props: { readonly path: string; readonly node: Json }) {
  const { path, node } = props;
  const { line } = useDrawn();
  const lanes = isMembers(node) && isList(node.lanes) ? node.lanes : null;
  const label = nodeWords(line.draft.value.value, node);
  return (
    <>
      {isMembers(node) && node.steps !== undefined && <NodeList list={`${path}/steps`} label={label} />}
      {lanes !== null && (
        <div class={lanes.length > 2 ? 'lanes many' : 'lanes'}>
          {lanes.map((_, i) => (
            <div class="lane-box" key={i}>
              <NodeList list={`${path}/lanes/${i}`} label={`Lane ${i + 1} of ${lanes.length}`} lane />
            </div>
          ))}
        </div>
      )}
      {lanes !== null && (
        <div class="line-end">
          <button
            type="button"
            class="plain"
            data-add={`${path}/lanes`}
            onClick={() => {
              const doc = line.draft.value.peek();
              line.act('Lane added', addLane(doc, path), `${path}/lanes/${lanes.length}/0`, 'form');
            }}
          >
            Add a lane
          </button>
        </div>
      )}
    </>
  );
}

/** Steps that stand in another procedure, to read. */
function Used(props: { readonly node: Json }) {
  const { line } = useDrawn();
  const doc = line.draft.value.value;
  const id = textOf(props.node, 'use');
  const procedures = valueAt(doc, '/procedures');
  for (const [i, procedure] of (isList(procedures) ? procedures : []).entries()) {
    const block = [...nodesUnder(doc, `/procedures/${i}`)].find(
      ({ node }) => textOf(node, 'id') === id && (kindOf(node) === 'block' || kindOf(node) === 'lanes'),
    );
    if (block === undefined) continue;
    const steps = [...nodesUnder(doc, block.path)].filter(({ node }) => kindOf(node) === 'step');
    return (
      <div class="used">
        <p class="small">
          {plural(steps.length, 'step')} written in{' '}
          <a href={`#/workshop/${line.draft.id}/procedures/${i}`}>
            {textOf(procedure, 'title') || 'another procedure'}
          </a>
        </p>
        <ol class="small soft">
          {steps.map(({ path, node }) => (
            <li key={path}>{`${crewWords(doc, textOf(node, 'by'))} ${stepWords(node)}`.trim()}</li>
          ))}
        </ol>
      </div>
    );
  }
  return <p class="small note warn">No block of this deck is named {id === '' ? 'so far' : id}.</p>;
}
