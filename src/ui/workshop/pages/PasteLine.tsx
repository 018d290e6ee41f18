import type { Line } from '../../../draft/paste/propose.ts';
import { fateWords, rowWords } from '../../../draft/paste/report.ts';
import type { Fields, Known, Reading } from '../../../draft/paste/types.ts';
import { stepText } from '../../../subjects/procedure/words.ts';

const LEFT_OUT = 'You left it out.';

/** A row of the list: what it was read as and what becomes of it. */
export function PasteLine(props: {
  readonly line: Line;
  readonly known: Known;
  readonly isOpen: boolean;
  /** The author said that it is a new step. */
  readonly isApart: boolean;
  /** There is nothing yet to match it with. */
  readonly isNew: boolean;
  readonly onOpen: () => void;
  readonly onReading: (next: Reading) => void;
  readonly onApart: () => void;
}) {
  const { line, isOpen } = props;
  const { reading, fate, before } = line;
  const { fields, notes } = reading;
  return (
    <li class="stack">
      <div class="row spread">
        <span>
          <span class="soft small">Row {reading.row} </span>
          {fate === null ? (
            <span class="soft">{reading.text}</span>
          ) : (
            <>
              {fields.by !== undefined && <strong>{fields.by} </strong>}
              {rowWords(fields)}
            </>
          )}
        </span>
        <button
          type="button"
          aria-expanded={isOpen}
          aria-label={`${isOpen ? 'Close' : 'Change'} row ${reading.row}${reading.lane === null ? '' : `, ${fields.by}`}`}
          onClick={props.onOpen}
        >
          {isOpen ? 'Close' : 'Change'}
        </button>
      </div>
      {fate !== null && <About fields={fields} />}
      {(fate === null || !props.isNew) && <p class="small soft">{fateWords(line)}</p>}
      {fate === 'reworded' && before !== null && <p class="small">Before: {stepText(before)}</p>}
      {fate !== null &&
        notes.map((note) => (
          <p key={note} class="note warn small">
            {note}
          </p>
        ))}
      {isOpen && <Correction {...props} />}
    </li>
  );
}

const ABOUT = [
  ['cue', 'Cue'],
  ['limit', 'Limit'],
  ['if', 'Condition'],
  ['where', 'Where'],
  ['why', 'Why'],
  ['slip', 'Slip'],
  ['source', 'Source'],
] as const;

function About(props: { readonly fields: Fields }) {
  const { fields } = props;
  const there = ABOUT.filter(([key]) => fields[key] !== undefined);
  if (there.length === 0 && !fields.critical) return null;
  return (
    <dl class="facts small">
      {there.map(([key, words]) => (
        <>
          <dt>{words}</dt>
          <dd>{fields[key]}</dd>
        </>
      ))}
      {fields.critical && (
        <>
          <dt>Critical</dt>
          <dd>yes</dd>
        </>
      )}
    </dl>
  );
}

function Correction(props: Parameters<typeof PasteLine>[0]) {
  const { line, known, onReading } = props;
  const { reading, before } = line;
  const { fields, skip } = reading;
  const change = (part: { readonly [K in keyof Fields]?: Fields[K] | undefined }) => {
    const next = Object.fromEntries(
      Object.entries({ ...fields, ...part }).filter(([, value]) => value !== undefined && value !== ''),
    );
    onReading({ ...reading, fields: next as Fields });
  };
  const take = () => {
    if (skip === null) return onReading({ ...reading, skip: LEFT_OUT });
    const hasWords = fields.do !== undefined || fields.say !== undefined;
    onReading({ ...reading, skip: null, fields: hasWords ? fields : { ...fields, do: reading.text } });
  };
  const crew =
    known.crew.some(({ id }) => id === fields.by) || fields.by === undefined ? [] : [{ id: fields.by, names: [] }];
  return (
    <div class="stack">
      <p class="small soft">As pasted: {reading.text}</p>
      <label class="pick">
        <input type="checkbox" checked={skip === null} onChange={take} />
        Take this row
      </label>
      {(before !== null || props.isApart) && skip === null && (
        <label class="pick">
          <input type="checkbox" checked={!props.isApart} onChange={props.onApart} />
          {before === null ? 'It is a step that is there' : `It is the step “${stepText(before)}”`}
        </label>
      )}
      <label class="field">
        Crew
        <select value={fields.by ?? ''} onChange={(event) => change({ by: event.currentTarget.value })}>
          <option value="">not said</option>
          {[...known.crew, ...crew].map(({ id, names }) => (
            <option key={id} value={id}>
              {names[0] ?? id}
            </option>
          ))}
        </select>
      </label>
      <Typed label="Action" value={fields.do} onValue={(value) => change({ do: value })} />
      <Typed label="Callout" value={fields.say} onValue={(value) => change({ say: value })} />
      <button type="button" class="plain" onClick={() => change({ do: fields.say, say: fields.do })}>
        Swap action and callout
      </button>
      <Typed label="Cue" value={fields.cue} onValue={(value) => change({ cue: value, cueInWords: undefined })} />
    </div>
  );
}

function Typed(props: {
  readonly label: string;
  readonly value: string | undefined;
  readonly onValue: (value: string) => void;
}) {
  return (
    <label class="field">
      {props.label}
      <input type="text" value={props.value ?? ''} onInput={(event) => props.onValue(event.currentTarget.value)} />
    </label>
  );
}
