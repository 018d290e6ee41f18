import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import { blankProcedure, lengthAt } from '../../../draft/blank.ts';
import { insert, put, valueAt } from '../../../draft/change.ts';
import { knownOf } from '../../../draft/paste/known.ts';
import { recognise } from '../../../draft/paste/recognise.ts';
import { toRows } from '../../../draft/paste/to-rows.ts';
import type { Read, Rows, RowsFinding } from '../../../draft/paste/types.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import type { Node } from '../../../model/deck.ts';
import type { Device } from '../../device.ts';
import { focusSoon } from '../handing/focus.ts';
import type { DraftModel } from '../model/draft.ts';
import { thingTitle } from '../titles.ts';
import { PasteReport } from './PasteReport.tsx';
import { textOf } from './paste-file.ts';

/** What was read of the text, to be looked at before it is taken over. */
interface Reading {
  readonly rows: Rows;
  readonly read: Read;
}

/** UTF-16 units. */
const MOST_KEPT = 500_000;

/**
 * Steps from a list that is pasted or chosen as a file.
 * @param props.procedure its place in the draft; null: the steps become a new one
 * @param props.done called with the place of the procedure that has the steps now
 */
export function Paste(props: {
  readonly draft: DraftModel;
  readonly procedure: number | null;
  readonly device: Pick<Device, 'readRows' | 'writeRows' | 'save'>;
  readonly done: (procedure: number) => void;
}) {
  const { draft, procedure, device } = props;
  const side = `paste/${procedure ?? 'new'}`;
  const kept = draft.side.value[side];
  const [text, setText] = useState(typeof kept === 'string' ? kept : '');
  const type = (next: string) => {
    setText(next);
    // Kept with the draft until its steps are taken; what is too long is refused anyway.
    if (next.length <= MOST_KEPT) draft.putSide(side, next === '' ? undefined : next);
  };
  const [reading, setReading] = useState<Reading | null>(null);
  const [findings, setFindings] = useState<readonly RowsFinding[]>([]);
  const [failed, setFailed] = useState('');
  const alert = useRef<HTMLDivElement>(null);
  const field = useRef<HTMLTextAreaElement>(null);
  const value = draft.value.value;
  const path = `/procedures/${procedure ?? lengthAt(value, '/procedures')}`;
  const nodes = procedure === null ? undefined : valueAt(value, `${path}/steps`);
  const known = useMemo(() => knownOf(value), [value]);
  useEffect(() => {
    if (findings.length > 0 || failed !== '') alert.current?.scrollIntoView({ block: 'nearest' });
  }, [findings, failed]);

  const look = async (from: string, as?: Rows['kind']) => {
    setFailed('');
    try {
      const rows = await device.readRows(from, as);
      setFindings(rows.findings);
      const isWrong = rows.findings.some(({ severity }) => severity === 'error');
      setReading(isWrong ? null : { rows, read: recognise(rows, known) });
      if (!isWrong) scrollTo(0, 0);
    } catch (error) {
      setFailed(error instanceof Error ? error.message : String(error));
    }
  };
  const choose = async (file: File | undefined) => {
    if (file === undefined) return;
    try {
      const next = await textOf(file);
      type(next);
      await look(next);
    } catch (error) {
      setFailed(error instanceof Error ? error.message : String(error));
    }
  };
  const save = async () => {
    setFailed('');
    try {
      const csv = await device.writeRows(toRows(list(nodes)));
      // Spreadsheets know by the byte order mark that it is UTF-8.
      await device.save(`${String(valueAt(value, `${path}/id`) ?? 'steps')}.csv`, `\ufeff${csv}`);
    } catch (error) {
      setFailed(error instanceof Error ? error.message : String(error));
    }
  };
  const take = (steps: readonly Node[], title: string) => {
    const json = steps as unknown as Json;
    const made = { ...(blankProcedure(value, title) as object), steps: json } as Json;
    const isThere = Array.isArray(valueAt(value, '/procedures'));
    draft.change(
      'Steps taken from a list',
      [
        procedure !== null
          ? put(value, `${path}/steps`, json)
          : isThere
            ? insert('/procedures', lengthAt(value, '/procedures'), made)
            : put(value, '/procedures', [made]),
      ],
      { side, value: undefined },
    );
    props.done(procedure ?? lengthAt(value, '/procedures'));
  };

  if (procedure !== null && valueAt(value, path) === undefined)
    return <p class="note bad">There is no such procedure in this draft any more.</p>;
  const problems = (
    <div ref={alert} role="alert">
      {[...findings.map(({ message }) => message), ...(failed === '' ? [] : [failed])].map((message) => (
        <p
          key={message}
          class={`note ${findings.some((one) => one.severity === 'warning' && one.message === message) ? 'warn' : 'bad'}`}
        >
          {message}
        </p>
      ))}
    </div>
  );
  if (reading !== null)
    return (
      <>
        {problems}
        <PasteReport
          // Another reading begins anew.
          key={`${reading.rows.kind} ${text}`}
          read={reading.read}
          kind={reading.rows.kind}
          doc={value}
          nodes={procedure === null ? null : list(nodes)}
          known={known}
          onKind={(kind) => void look(text, kind)}
          onBack={() => {
            setReading(null);
            focusSoon(field);
          }}
          onTake={take}
        />
      </>
    );
  return (
    <>
      <p>
        {procedure === null
          ? 'Each row becomes a step of a new procedure.'
          : `Each row becomes a step of “${thingTitle(valueAt(value, path))}”. Steps that are there already are found again and keep their memory.`}{' '}
        You see what was read, row by row, before anything is taken over.
      </p>
      <label class="field">
        Paste a list, or rows copied from a spreadsheet
        <textarea
          ref={field}
          rows={10}
          value={text}
          spellcheck={false}
          data-path={`paste:${path}`}
          onInput={(event) => type(event.currentTarget.value)}
        />
      </label>
      <label class="field">
        Or choose a file (CSV or text)
        <input
          type="file"
          accept=".csv,.tsv,.txt,text/csv,text/plain,text/tab-separated-values"
          onChange={(event) => void choose(event.currentTarget.files?.[0])}
        />
      </label>
      {problems}
      <button type="button" class="main wide" disabled={text.trim() === ''} onClick={() => void look(text)}>
        Read it
      </button>
      <details>
        <summary class="button plain">What is understood</summary>
        <ul class="lines small">
          <li>PF: Thrust levers — set take-off thrust</li>
          <li>PM calls “One hundred”</li>
          <li>“Checked” (PF)</li>
          <li>At 400 ft: select heading</li>
          <li>
            Tables with headings: crew, action, callout, cue, limit, why, slip, where, condition, critical, source. Or a
            column each for PF and PM.
          </li>
          <li>Numbers, bullets, page heads and page numbers are left out; broken lines are put together.</li>
        </ul>
      </details>
      {procedure !== null && list(nodes).length > 0 && (
        <button type="button" onClick={() => void save()}>
          Save its steps as a CSV file
        </button>
      )}
    </>
  );
}

const list = (nodes: Json | undefined): readonly Node[] => (Array.isArray(nodes) ? (nodes as unknown as Node[]) : []);
