import { type ReadCode, readNumber } from '../../../forms/limit/read-number.ts';
import type { NumberField } from '../../../model/form.ts';

interface Props {
  readonly fields: readonly NumberField[];
  readonly typed: readonly string[];
  readonly disabled: boolean;
  readonly onTyped: (typed: readonly string[]) => void;
  readonly onSubmit: () => void;
}

const HELP: Readonly<Record<ReadCode, string>> = {
  empty: '',
  'not-a-number': 'This is no number. Digits, one decimal point or comma, and a minus are read.',
  marks: 'Points and commas do not fit together. One of them is the decimal mark.',
  unit: 'The unit stands beside the field: the number alone is enough.',
  range: 'Beyond what there is: a direction ends at 360, a runway at 36.',
};

/** Numbers, as many as are asked: the unit beside, the reading echoed below before it is marked. */
export function Numbers(props: Props) {
  const { fields, typed, disabled } = props;
  const put = (i: number, text: string) => props.onTyped(fields.map((_, j) => (i === j ? text : (typed[j] ?? ''))));
  return (
    <form
      class="stack"
      onSubmit={(event) => {
        event.preventDefault();
        props.onSubmit();
      }}
    >
      {fields.map((field, i) => {
        const text = typed[i] ?? '';
        const read = readNumber(text, field.unit, field.show);
        const negative = /^\s*[-\u2212]/.test(text);
        const id = `field-${i}`;
        const before =
          field.show === 'flight-level' || field.unit === 'FL'
            ? 'FL'
            : field.show === 'mach' || field.unit === 'Mach'
              ? 'M'
              : '';
        const unit = before !== '' || field.show === 'runway' ? '' : field.unit;
        return (
          <div key={field.label}>
            <label for={id} class={fields.length > 1 ? '' : 'hidden-visually'}>
              {field.label}
            </label>
            <div class="number-field">
              {field.sense !== undefined && <span class="soft">{field.sense}</span>}
              {before !== '' && <span>{before}</span>}
              <input
                id={id}
                class="number"
                inputMode="decimal"
                autoComplete="off"
                enterKeyHint="done"
                value={text}
                disabled={disabled}
                aria-describedby={`${id}-read`}
                onInput={(event) => put(i, event.currentTarget.value)}
              />
              <span>
                {unit} {field.reference}
              </span>
              {field.show === undefined && (
                <button
                  type="button"
                  aria-label={negative ? 'Make it positive' : 'Make it negative'}
                  aria-pressed={negative}
                  disabled={disabled}
                  onClick={() => put(i, negative ? text.replace(/^\s*[-\u2212]/, '') : `-${text}`)}
                >
                  ±
                </button>
              )}
            </div>
            <p id={`${id}-read`} class="echo small soft" aria-live="polite">
              {text.trim() === '' ? '' : read.ok ? `= ${read.echo}` : HELP[read.code]}
            </p>
          </div>
        );
      })}
      <button type="submit" class="hidden-visually" tabIndex={-1} aria-hidden="true">
        Done
      </button>
    </form>
  );
}
