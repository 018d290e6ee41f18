import { useState } from 'preact/hooks';
import { put } from '../../../draft/change.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import { isMembers, type Members } from '../../../lib/json.ts';
import { objectsAt } from './choices.ts';
import { below, useAt, useDraft } from './editing.ts';
import { Group } from './Labelled.tsx';
import type { FieldProps } from './Plain.tsx';
import { useChoices } from './Refer.tsx';
import { readTyped } from './read-typed.ts';

/** Under which conditions a case holds. */
export function Given(props: FieldProps) {
  const { spec, path } = props;
  const value = useAt(path);
  const draft = useDraft();
  const conditions = useChoices(
    (doc) => objectsAt(doc, '/conditions').map((one) => [String(one.id), JSON.stringify(one)]),
    'conditions',
  );
  const given: Members = isMembers(value) ? value : {};
  const write = (name: string, next: Json | undefined, typing?: 'typing') => {
    const { [name]: _before, ...rest } = given;
    const all = next === undefined ? rest : { ...given, [name]: next };
    const after = Object.keys(all).length === 0 ? undefined : (all as Json);
    draft.change(spec.label, [put(draft.value.peek(), path, after)], typing);
  };
  const known = new Set(conditions.map(([id]) => id));
  const strange = Object.keys(given).filter((name) => !known.has(name));
  return (
    <Group spec={spec} path={path}>
      {conditions.map(([id, text]) => (
        <Wanted
          key={id}
          place={below(path, id)}
          condition={JSON.parse(text) as Members}
          wanted={given[id]}
          write={(next, typing) => write(id, next, typing)}
        />
      ))}
      {strange.map((name) => (
        <Wanted
          key={name}
          place={below(path, name)}
          condition={{ id: name, label: `${name} (not known)`, options: {} }}
          wanted={given[name]}
          write={(next, typing) => write(name, next, typing)}
        />
      ))}
    </Group>
  );
}

function Wanted(props: {
  readonly place: string;
  readonly condition: Members;
  readonly wanted: Json | undefined;
  readonly write: (next: Json | undefined, typing?: 'typing') => void;
}) {
  const { place, condition, wanted, write } = props;
  const label = String(condition.label ?? condition.id);
  if (isMembers(wanted) || 'unit' in condition)
    return (
      <fieldset class="field" data-group={place}>
        <legend>
          {label}
          {typeof condition.unit === 'string' && `, ${condition.unit}`}
        </legend>
        <div class="row even">
          {(['from', 'to'] as const).map((end) => (
            <Edge
              key={end}
              label={end === 'from' ? 'From' : 'Below'}
              place={`${place}/${end}`}
              value={isMembers(wanted) ? wanted[end] : undefined}
              write={(next) => {
                const { [end]: _before, ...rest } = isMembers(wanted) ? wanted : {};
                const all = next === undefined ? rest : { ...rest, [end]: next };
                write(Object.keys(all).length === 0 ? undefined : (all as Json), 'typing');
              }}
            />
          ))}
        </div>
      </fieldset>
    );
  const yesNo = 'yes' in condition;
  const options: readonly (readonly [string, string])[] = yesNo
    ? [
        ['true', String(condition.yes)],
        ['false', String(condition.no)],
      ]
    : Object.entries(isMembers(condition.options) ? condition.options : {}).map(([id, words]) => [id, String(words)]);
  const now = wanted === undefined ? '' : String(wanted);
  return (
    <label class="field">
      {label}
      <select
        data-path={place}
        value={now}
        onChange={(event) => {
          const next = event.currentTarget.value;
          write(next === '' ? undefined : yesNo ? next === 'true' : next);
        }}
      >
        <option value="">Any</option>
        {options.map(([id, words]) => (
          <option key={id} value={id}>
            {words}
          </option>
        ))}
        {now !== '' && !options.some(([id]) => id === now) && <option value={now}>{now} (not known)</option>}
      </select>
    </label>
  );
}

function Edge(props: {
  readonly label: string;
  readonly place: string;
  readonly value: Json | undefined;
  readonly write: (next: Json | undefined) => void;
}) {
  const { label, place, value, write } = props;
  const [typed, setTyped] = useState<string | null>(null);
  const plain = value === undefined ? '' : String(value);
  const text = typed !== null && (readTyped(typed) ?? typed) === (value ?? '') ? typed : plain;
  return (
    <label class="field">
      {label}
      <input
        class="number"
        type="text"
        autocomplete="off"
        data-path={place}
        value={text}
        {...(typeof value === 'string' && { 'aria-invalid': true as const })}
        onInput={(event) => {
          const next = event.currentTarget.value;
          setTyped(next);
          write(next === '' ? undefined : (readTyped(next) ?? next));
        }}
        onBlur={() => setTyped(null)}
      />
    </label>
  );
}
