import { useEffect, useLayoutEffect, useMemo, useState } from 'preact/hooks';
import { isList, isMembers } from '../../../lib/json.ts';
import { useSay } from '../fields/Saying.tsx';
import { wantedPlace } from '../findings/focus.ts';
import { ProcedureHead, StrangersForm } from '../forms/ProcedureForms.tsx';
import type { DraftModel } from '../model/draft.ts';
import { Line } from './Line.tsx';
import { createLine } from './line-model.ts';
import { MatrixTable } from './MatrixTable.tsx';
import { NodeForm } from './NodeForm.tsx';
import { OrderQuestions } from './OrderQuestions.tsx';
import { QuickAdd, TakeBlock } from './QuickAdd.tsx';
import { Tools } from './Tools.tsx';

/** The innermost step or block around a place. */
const NODE = /^\/procedures\/\d+(?:\/steps\/\d+|\/lanes\/\d+\/\d+)+/;

/** From here on the form stands beside the line. */
const WIDE = '(min-width: 78rem)';

const useWide = (): boolean => {
  const query = useMemo(() => matchMedia(WIDE), []);
  const [wide, setWide] = useState(query.matches);
  useEffect(() => {
    const change = () => setWide(query.matches);
    query.addEventListener('change', change);
    return () => query.removeEventListener('change', change);
  }, [query]);
  return wide;
};

/** A procedure of a draft: its steps as a line, their forms, what differs between variants, what order must hold. */
export function ProcedurePage(props: { readonly draft: DraftModel; readonly index: number }) {
  const { draft, index } = props;
  const procedure = `/procedures/${index}`;
  const line = useMemo(() => createLine(draft, procedure), [draft, procedure]);
  const wide = useWide();
  const wanted = wantedPlace.value;
  useEffect(() => {
    const node = wanted === null ? undefined : NODE.exec(wanted)?.[0];
    if (node?.startsWith(`${procedure}/`)) line.show(node);
  }, [line, procedure, wanted]);
  const say = useSay();
  const said = line.said.value;
  useLayoutEffect(() => {
    if (said !== '') say(said);
  }, [said, say]);
  const here = draft.at(procedure);
  if (!isMembers(here)) return <p>This procedure is not in the draft any more. Choose another from the contents.</p>;
  const open = line.open.value;
  const node = open === null ? undefined : draft.at(open);
  const empty = !isList(here.steps) || here.steps.length === 0;
  const path = procedure;
  const back = () => {
    if (open !== null) line.focus.value = { path: open, on: 'words' };
  };
  const keys = {
    onKeyDown: (event: KeyboardEvent) => {
      if (event.key === 'Escape' && (event.target as Element).closest('.tools, .node-form') !== null) back();
    },
  };
  return (
    <div class="procedure" {...keys}>
      <div class="stack">
        <Folded
          words="The procedure itself"
          open={empty}
          holds={(at) => at.startsWith(`${path}/`) && !/^(?:steps|strangers)/.test(at.slice(path.length + 1))}
        >
          <ProcedureHead draft={draft} path={path} />
        </Folded>
        <section class="stack" aria-label="Steps">
          <Line line={line} wide={wide} />
          <QuickAdd line={line} />
          <TakeBlock line={line} />
        </section>
        <Folded words="Must the order hold?">
          <OrderQuestions line={line} index={index} />
        </Folded>
        <Folded words="What differs between variants">
          <MatrixTable line={line} index={index} />
        </Folded>
        <Folded words="Steps that do not belong" holds={(at) => at.startsWith(`${path}/strangers`)}>
          <StrangersForm draft={draft} path={path} />
        </Folded>
      </div>
      {wide && (
        <section class="beside" aria-label="The step that is open">
          {open === null || node === undefined ? (
            <p class="soft">Choose a step: its form comes here.</p>
          ) : (
            <>
              <Tools line={line} path={open} node={node} />
              <NodeForm draft={draft} path={open} node={node} />
              <button type="button" class="plain" onClick={back}>
                Back to the line
              </button>
            </>
          )}
        </section>
      )}
    </div>
  );
}

/** A part of the page that is looked at when it is opened. */
function Folded(props: {
  readonly words: string;
  readonly open?: boolean;
  /** Is a place of the draft within? */
  readonly holds?: (pointer: string) => boolean;
  readonly children: preact.ComponentChildren;
}) {
  const [open, setOpen] = useState(props.open === true);
  const wanted = props.holds !== undefined && wantedPlace.value !== null && props.holds(wantedPlace.value);
  useEffect(() => {
    if (wanted) setOpen(true);
  }, [wanted]);
  return (
    <details class="folded" open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{props.words}</summary>
      {open && props.children}
    </details>
  );
}
