import { useState } from 'preact/hooks';
import { useAt, useDraft } from './editing.ts';
import { FormulaHelp } from './FormulaHelp.tsx';
import { Found, Help, Labelled, useDescribed } from './Labelled.tsx';
import { Names } from './Names.tsx';
import { notRead, readTyped } from './read-typed.ts';
import type { Choices, Spec } from './spec.ts';

export interface FieldProps {
  readonly spec: Spec;
  readonly path: string;
}

/** Before words are typed, and when the box is left. */
export type OnWords = (when: 'begin' | 'end') => void;

const shown = (value: unknown): string =>
  value === undefined || value === null ? '' : typeof value === 'string' ? value : JSON.stringify(value);

/** Writes a text: an optional one that was emptied is no longer there. */
const usePutText = (path: string, spec: Spec) => {
  const draft = useDraft();
  return (text: string) => draft.put(path, text === '' && spec.required !== true ? undefined : text, spec.label);
};

export function Words(
  props: FieldProps & {
    readonly long?: boolean;
    readonly filled?: boolean;
    readonly onWords?: OnWords;
  },
) {
  const { spec, path, long, filled, onWords } = props;
  const value = useAt(path);
  const putText = usePutText(path, spec);
  const put = (text: string) => {
    onWords?.('begin');
    putText(text);
  };
  const described = useDescribed(path, spec.help !== undefined);
  const common = {
    ...described,
    value: shown(value),
    onBlur: () => onWords?.('end'),
  };
  return (
    <Labelled spec={spec} path={path} note={filled && <Names spec={spec} path={path} />}>
      {long ? (
        <textarea {...common} rows={2} onInput={(event) => put(event.currentTarget.value)} />
      ) : (
        <input {...common} type="text" autocomplete="off" onInput={(event) => put(event.currentTarget.value)} />
      )}
    </Labelled>
  );
}

export function Formula(props: FieldProps) {
  const { spec, path } = props;
  const value = useAt(path);
  const put = usePutText(path, spec);
  const described = useDescribed(path, spec.help !== undefined);
  return (
    <Labelled spec={spec} path={path} note={<FormulaHelp spec={spec} path={path} />}>
      <textarea
        {...described}
        class="formula"
        rows={1}
        spellcheck={false}
        autocapitalize="off"
        autocomplete="off"
        value={shown(value)}
        onInput={(event) => put(event.currentTarget.value)}
      />
    </Labelled>
  );
}

/** A number; what is typed and is none stays as it is. */
export function NumberBox(props: FieldProps & { readonly bare?: boolean }) {
  const { spec, path, bare } = props;
  const value = useAt(path);
  const put = usePutText(path, spec);
  const draft = useDraft();
  const [typed, setTyped] = useState<string | null>(null);
  const described = useDescribed(path, spec.help !== undefined);
  const text = typed !== null && (readTyped(typed) ?? typed) === (value ?? '') ? typed : shown(value);
  const unread = typeof value === 'string' && value !== '' ? notRead(value) : null;
  const input = (
    <input
      {...described}
      {...(unread !== null && { 'aria-invalid': true as const })}
      {...(bare && { 'aria-label': spec.label })}
      class="number"
      type="text"
      inputMode="text"
      autocomplete="off"
      value={text}
      onInput={(event) => {
        const next = event.currentTarget.value;
        const number = readTyped(next);
        setTyped(next);
        if (number === null) put(next);
        else draft.put(path, number, spec.label);
      }}
      onBlur={() => setTyped(null)}
    />
  );
  const note = unread !== null && <p class="note bad small">{unread}</p>;
  if (bare)
    return (
      <span class="field">
        {input}
        {note}
        <Found path={path} />
      </span>
    );
  return (
    <Labelled spec={spec} path={path} note={note}>
      {input}
    </Labelled>
  );
}

export function DateBox(props: FieldProps) {
  const { spec, path } = props;
  const value = shown(useAt(path));
  const put = usePutText(path, spec);
  const described = useDescribed(path, spec.help !== undefined);
  const common = {
    ...described,
    value,
    onInput: (event: { currentTarget: HTMLInputElement }) => put(event.currentTarget.value),
  };
  return (
    <Labelled spec={spec} path={path}>
      {/* What is no date would vanish from a box for dates. */}
      {value === '' || /^\d{4}-\d\d-\d\d$/.test(value) ? (
        <input {...common} type="date" />
      ) : (
        <input {...common} type="text" />
      )}
    </Labelled>
  );
}

/** One of few: what is not among them is shown beside them. */
export function Choice(props: FieldProps & { readonly of: Choices }) {
  const { spec, path, of } = props;
  const value = shown(useAt(path));
  const put = usePutText(path, spec);
  const described = useDescribed(path, spec.help !== undefined);
  const known = of.some(([one]) => one === value);
  return (
    <Labelled spec={spec} path={path}>
      <select {...described} value={value} onChange={(event) => put(event.currentTarget.value)}>
        {(spec.required !== true || value === '') && <option value="">{spec.required ? 'Choose' : '–'}</option>}
        {of.map(([one, label]) => (
          <option key={one} value={one}>
            {label}
          </option>
        ))}
        {!known && value !== '' && <option value={value}>{value} (not known)</option>}
      </select>
    </Labelled>
  );
}

export function Yes(props: FieldProps & { readonly inherits?: string | undefined }) {
  const { spec, path, inherits } = props;
  const value = useAt(path);
  const draft = useDraft();
  const described = useDescribed(path, spec.help !== undefined);
  if (inherits !== undefined)
    return (
      <Labelled spec={spec} path={path}>
        <select
          {...described}
          value={shown(value)}
          onChange={(event) => {
            const next = event.currentTarget.value;
            draft.put(path, next === '' ? undefined : next === 'true', spec.label);
          }}
        >
          <option value="">{inherits}</option>
          <option value="true">Yes</option>
          <option value="false">No</option>
        </select>
      </Labelled>
    );
  return (
    <div class="field">
      <label class="pick">
        <input
          {...described}
          type="checkbox"
          checked={value === true}
          onChange={(event) => draft.put(path, event.currentTarget.checked ? true : undefined, spec.label)}
        />
        {spec.label}
      </label>
      <Help path={path} spec={spec} />
      <Found path={path} />
    </div>
  );
}
