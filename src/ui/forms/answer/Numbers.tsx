import { useRef } from 'preact/hooks';
import { type ReadCode, readNumber } from '../../../forms/limit/read-number.ts';
import type { NumberField } from '../../../model/form.ts';
import { fieldToFill } from './field-to-fill.ts';

interface Props {
  readonly fields: readonly NumberField[];
  readonly typed: readonly string[];
  readonly disabled: boolean;
  readonly onTyped: (typed: readonly string[]) => void;
}

const HELP: Readonly<Record<ReadCode, string>> = {
  empty: '',
  'not-a-number': 'This is no number. Type digits, one decimal point or comma, and a minus if it needs one.',
  marks: 'Points and commas do not fit together. Use one, as the decimal mark.',
  unit: 'The unit stands beside the field. Type the number alone.',
  range: 'Beyond what there is: a direction ends at 360, a runway at 36.',
};

/** Numbers, as many as are asked: the unit beside, the reading echoed below before it is marked. */
export function Numbers(props: Props) {
  const { fields, typed, disabled } = props;
  const form = useRef<HTMLFormElement>(null);
  const put = (i: number, text: string) => props.onTyped(fields.map((_, j) => (i === j ? text : (typed[j] ?? ''))));
  return (
    <form
      class="stack"
      ref={form}
      onSubmit={(event) => {
        event.preventDefault();
        // It never answers: how sure the learner is has not been said yet.
        const open = fieldToFill(fields, typed);
        if (open !== null) form.current?.querySelector<HTMLElement>(`#field-${open}`)?.focus();
        // The keys of a phone go down, and the three answers come into sight.
        else if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
      }}
    >
      {/* By place: fields neither move nor vanish, and two may be named alike. */}
      {fields.map((field, i) => (
        <Field
          key={i}
          id={`field-${i}`}
          field={field}
          alone={fields.length === 1}
          last={i === fields.length - 1}
          text={typed[i] ?? ''}
          disabled={disabled}
          onText={(text) => put(i, text)}
        />
      ))}
      <button type="submit" class="hidden-visually" tabIndex={-1} aria-hidden="true">
        Done
      </button>
    </form>
  );
}

function Field(props: {
  readonly id: string;
  readonly field: NumberField;
  readonly alone: boolean;
  readonly last: boolean;
  readonly text: string;
  readonly disabled: boolean;
  readonly onText: (text: string) => void;
}) {
  const { id, field, alone, text, disabled, onText } = props;
  const { unit, show, sense, reference, signed } = field;
  const read = readNumber(text, unit, show);
  const unread = !read.ok && read.code !== 'empty';
  const negative = /^\s*[-\u2212]/.test(text);
  const before = show === 'flight-level' || unit === 'FL' ? 'FL' : show === 'mach' || unit === 'Mach' ? 'M' : '';
  const behind = [before !== '' || show === 'runway' ? '' : unit, reference ?? '']
    .filter((part) => part !== '')
    .join(' ');
  return (
    <div>
      <label for={id}>
        <span class={alone ? 'hidden-visually' : ''}>{field.label} </span>
        {sense !== undefined && <span class="soft">{sense}</span>}
      </label>
      <div class="number-field">
        {before !== '' && <span>{before}</span>}
        <input
          id={id}
          class="number"
          inputMode="decimal"
          autoComplete="off"
          enterKeyHint={props.last ? 'done' : 'next'}
          value={text}
          disabled={disabled}
          aria-invalid={unread}
          aria-describedby={`${id}-unit ${id}-read`}
          onInput={(event) => onText(event.currentTarget.value)}
        />
        <span id={`${id}-unit`} class="unit">
          {behind}
        </span>
        {signed === true && (
          <button
            type="button"
            aria-label="Minus"
            aria-pressed={negative}
            disabled={disabled}
            // The field keeps the focus, so that the keys of a phone stay up.
            onMouseDown={(event) => event.preventDefault()}
            onClick={() => onText(negative ? text.replace(/^\s*[-\u2212]/, '') : `\u2212${text}`)}
          >
            ±
          </button>
        )}
      </div>
      <p id={`${id}-read`} class={`echo small ${unread ? 'unread' : 'soft'}`} aria-live="polite">
        {read.ok ? `= ${read.echo}` : HELP[read.code]}
      </p>
    </div>
  );
}
