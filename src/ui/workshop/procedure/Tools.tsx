import { apply, keysOf, valueAt } from '../../../draft/change.ts';
import { dissolve, keptBy, nameBlock, splitLane } from '../../../draft/lanes.ts';
import { removeLettingGo } from '../../../draft/letting-go.ts';
import {
  kindOf,
  type Place,
  pathOf,
  placeAcross,
  placeBeside,
  placeInside,
  placeOf,
  placeOutside,
  removeNode,
  textOf,
} from '../../../draft/nodes.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import { isList } from '../../../lib/json.ts';
import { Group } from './Group.tsx';
import { addBeside, type LineModel, spanOf } from './line-model.ts';
import { OnlyIf } from './OnlyIf.tsx';

interface ToolsProps {
  readonly line: LineModel;
  readonly path: string;
  readonly node: Json;
}

/** What can be done with the step or block that is open. */
export function Tools(props: ToolsProps) {
  const { line, path, node } = props;
  const block = kindOf(node) === 'block' || kindOf(node) === 'lanes';
  const marked = spanOf(line, path);
  return (
    <div class="tools">
      <Moves line={line} path={path} />
      {!matchMedia('(pointer: coarse)').matches && (
        <p class="small soft">On the step itself Alt+↑ and Alt+↓ move it. Escape leads back to it.</p>
      )}
      <div class="row">
        <button type="button" onClick={() => addBeside(line, path, 'before')}>
          Step before
        </button>
        <button type="button" onClick={() => addBeside(line, path, 'after')}>
          Step after
        </button>
        <button type="button" onClick={() => remove(line, path)}>
          Remove{block ? ' with its steps' : ''}
        </button>
      </div>
      {block && <OfBlock {...props} />}
      <Group line={line} path={path} />
      {marked !== null && <OnlyIf key={`${path} ${marked.span.to}`} line={line} path={path} span={marked.span} />}
    </div>
  );
}

const remove = (line: LineModel, path: string): void => {
  const place = placeOf(path);
  const doc = line.draft.value.peek();
  const list = place === null ? undefined : valueAt(doc, place.list);
  if (place === null || !isList(list)) return;
  // The one that comes into its place, or the last one left; where the whole list goes, nothing.
  const next = list[place.index + 1] ?? list[place.index - 1];
  // Found before what waited for it is changed: then it is another object.
  const left = apply(doc, removeNode(doc, path));
  const to = next === undefined ? null : pathOf(left, line.procedure, next);
  const { changes, letGo } = removeLettingGo(doc, path);
  const freed =
    letGo === 1 ? '1 step no longer waits for it or answers it' : `${letGo} steps no longer wait for it or answer it`;
  const words = letGo === 0 ? 'Removed' : `Removed. ${freed}`;
  line.act(words, changes, to, 'words', `${words}.`);
  line.show(null);
};

/** At an end a button stays where it is, so that the keyboard does not lose its place. */
function Moves(props: { readonly line: LineModel; readonly path: string }) {
  const { line, path } = props;
  const doc = line.draft.value.value;
  const move = (tool: string, words: string, to: Place | null, always = false) =>
    (to !== null || always) && (
      <button
        key={tool}
        type="button"
        data-tool={tool}
        aria-disabled={to === null}
        onClick={() => line.move(path, to, { tool })}
      >
        {words}
      </button>
    );
  return (
    <div class="row">
      {move('up', '▲ Earlier', placeBeside(doc, path, 'up'), true)}
      {move('down', '▼ Later', placeBeside(doc, path, 'down'), true)}
      {move('in-up', 'Into the block above', placeInside(doc, path, 'up'))}
      {move('in-down', 'Into the block below', placeInside(doc, path, 'down'))}
      {move('out-up', 'Out, before the block', placeOutside(path, 'up'))}
      {move('out-down', 'Out, behind the block', placeOutside(path, 'down'))}
      {move('lane-up', 'To the lane before', placeAcross(doc, path, 'up'))}
      {move('lane-down', 'To the lane behind', placeAcross(doc, path, 'down'))}
      <SplitLane line={line} path={path} />
    </div>
  );
}

function SplitLane(props: { readonly line: LineModel; readonly path: string }) {
  const { line, path } = props;
  const place = placeOf(path);
  if (place === null || place.index === 0 || keysOf(place.list).at(-2) !== 'lanes') return null;
  const split = () => {
    const node = line.draft.at(path);
    if (node !== undefined) line.act('Lane split', splitLane(line.draft.value.peek(), path), { node });
  };
  return (
    <button type="button" onClick={split}>
      From here a lane of its own
    </button>
  );
}

const KEPT = {
  named: 'It cannot be opened up: another procedure takes this block, or a step needs it.',
  condition: 'It cannot be opened up: its condition and that of a step in it cannot be made one.',
} as const;

function OfBlock(props: ToolsProps) {
  const { line, path, node } = props;
  const { draft, procedure } = line;
  const kept = keptBy(draft.value.value, path);
  const title = textOf(draft.at(procedure), 'title');
  const open = () => {
    line.act('Block opened up', dissolve(draft.value.peek(), path), path);
  };
  return (
    <>
      <div class="row">
        <button type="button" disabled={kept !== null} onClick={open}>
          Open the block up
        </button>
        {textOf(node, 'id') === '' && (
          <button
            type="button"
            onClick={() => line.act('Block named', nameBlock(draft.value.peek(), path, `${title} block`), path)}
          >
            Name it for other procedures
          </button>
        )}
      </div>
      {kept !== null && <p class="small soft">{KEPT[kept]}</p>}
    </>
  );
}
