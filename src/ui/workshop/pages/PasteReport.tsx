import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import { idsIn } from '../../../draft/blank.ts';
import { type Choices, choicesFor, hasShape, propose } from '../../../draft/paste/propose.ts';
import { summary } from '../../../draft/paste/report.ts';
import type { Known, Read, Reading, Rows } from '../../../draft/paste/types.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import type { Node } from '../../../model/deck.ts';
import { stepText } from '../../../subjects/procedure/words.ts';
import { PasteLine } from './PasteLine.tsx';

/**
 * What was read, row by row, and what would become of the steps that are there; each to be put right before it is taken.
 * @param props.nodes of the procedure as it is; null: a new one
 */
export function PasteReport(props: {
  readonly read: Read;
  readonly kind: Rows['kind'];
  readonly doc: Json;
  readonly nodes: readonly Node[] | null;
  readonly known: Known;
  readonly onKind: (kind: Rows['kind']) => void;
  readonly onBack: () => void;
  readonly onTake: (nodes: readonly Node[], title: string) => void;
}) {
  const { read, kind, doc, nodes, known } = props;
  const [readings, setReadings] = useState(read.readings);
  const status = useRef<HTMLParagraphElement>(null);
  // What was pressed to get here is gone. Read in the other way, the choice of the way keeps the cursor.
  useEffect(() => {
    if (!document.activeElement?.matches('input[type=radio]')) status.current?.focus({ preventScroll: true });
  }, []);
  const hasLanes = readings.some(({ skip, lane }) => skip === null && lane !== null);
  const [choices, setChoices] = useState<Choices>(choicesFor(read.readings, nodes ?? []));
  const [title, setTitle] = useState(read.title ?? '');
  const [open, setOpen] = useState<number | null>(null);
  const proposal = useMemo(
    () => propose(readings, nodes ?? [], idsIn(doc), known, choices),
    [readings, nodes, doc, known, choices],
  );
  const choose = (part: Partial<Choices>) => setChoices({ ...choices, ...part });
  const correct = (index: number, next: Reading) => setReadings(readings.map((one, i) => (i === index ? next : one)));
  const taken = proposal.lines.filter(({ fate }) => fate !== null).length;
  const hint = hintOf(taken, proposal.isSame && nodes !== null, nodes === null && title.trim() === '');
  return (
    <>
      <p role="status" tabIndex={-1} ref={status}>
        {summary(proposal, nodes !== null)}
      </p>
      {read.notes.map((note) => (
        <p key={note} class="note warn">
          {note}
        </p>
      ))}
      <Pick
        legend="Read as"
        value={kind}
        options={{ list: 'A list: a line is a step', table: 'A table: a row is a step, columns say what' }}
        onPick={props.onKind}
      />
      {kind === 'table' && hasLanes && (
        <Pick
          legend="Columns side by side"
          value={choices.order}
          options={{
            columns: 'Each pilot works down the own column; rows of two columns have no order',
            rows: 'Row by row: only what stands in one row has no order',
          }}
          onPick={(order) => choose({ order })}
        />
      )}
      {nodes !== null && hasShape(nodes) && (
        <Pick
          legend="Blocks and lanes"
          value={choices.shape}
          options={{
            procedure: 'Those of the procedure stay; new steps are put beside their neighbours',
            list: 'Those of the list take their place; blocks with conditions are dissolved',
          }}
          onPick={(shape) => choose({ shape })}
        />
      )}
      {nodes === null && (
        <label class="field">
          Title of the new procedure
          <input type="text" value={title} onInput={(event) => setTitle(event.currentTarget.value)} />
        </label>
      )}
      <ol class="lines" aria-label="Rows">
        {proposal.lines.map((line, i) => (
          <PasteLine
            key={i}
            line={line}
            known={known}
            isOpen={open === i}
            isApart={choices.apart.has(i)}
            isNew={nodes === null}
            onOpen={() => setOpen(open === i ? null : i)}
            onReading={(next) => correct(i, next)}
            onApart={() => choose({ apart: toggled(choices.apart, i) })}
          />
        ))}
      </ol>
      {proposal.gone.length > 0 && (
        <fieldset>
          <legend>
            <h2>No longer in the list</h2>
          </legend>
          <p class="small">These steps are removed, with what was learned of them. Tick those that stay.</p>
          {proposal.gone.map(({ step, namedBy }) => (
            <label class="pick" key={step.id}>
              <input
                type="checkbox"
                checked={choices.keep.has(step.id)}
                onChange={() => choose({ keep: toggled(choices.keep, step.id) })}
              />
              <span>
                {step.by !== undefined && <strong>{step.by} </strong>}
                {stepText(step)}
                {namedBy.length > 0 && !choices.keep.has(step.id) && (
                  <span class="soft small"> · still named by {namedBy.join(', ')}</span>
                )}
              </span>
            </label>
          ))}
        </fieldset>
      )}
      {hint !== '' && <p class="small soft">{hint}</p>}
      <div class="row even">
        <button type="button" onClick={props.onBack}>
          Back to the text
        </button>
        <button
          type="button"
          class="main"
          disabled={hint !== ''}
          onClick={() => props.onTake(proposal.nodes, title.trim())}
        >
          Take these steps
        </button>
      </div>
    </>
  );
}

const toggled = <T,>(set: ReadonlySet<T>, one: T): Set<T> => {
  const next = new Set(set);
  if (!next.delete(one)) next.add(one);
  return next;
};

const hintOf = (taken: number, isSame: boolean, hasNoTitle: boolean): string => {
  if (taken === 0) return 'No row is taken.';
  if (isSame) return 'Nothing would change.';
  return hasNoTitle ? 'Give the procedure a title.' : '';
};

function Pick<T extends string>(props: {
  readonly legend: string;
  readonly value: T;
  readonly options: Readonly<Record<T, string>>;
  readonly onPick: (value: T) => void;
}) {
  return (
    <fieldset>
      <legend>
        <h2>{props.legend}</h2>
      </legend>
      {(Object.entries(props.options) as [T, string][]).map(([value, words]) => (
        <label class="pick" key={value}>
          <input
            type="radio"
            name={props.legend}
            checked={props.value === value}
            onChange={() => props.onPick(value)}
          />
          {words}
        </label>
      ))}
    </fieldset>
  );
}
