import { put } from '../../../draft/change.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import { isList, isMembers, type Members } from '../../../lib/json.ts';
import { objectsAt } from './choices.ts';
import { below, useAt, useDraft } from './editing.ts';
import { Group } from './Labelled.tsx';
import type { FieldProps } from './Plain.tsx';
import { useChoices } from './Refer.tsx';

const wantedOf = (value: Json | undefined): readonly string[] =>
  isList(value) ? value.map(String) : value === undefined ? [] : [String(value)];

const isNot = (value: Json | undefined): value is { readonly not: Members } => isMembers(value) && isMembers(value.not);

/** To which variants a thing is confined. */
export function WhenField(props: FieldProps) {
  const { spec, path } = props;
  const value = useAt(path);
  const draft = useDraft();
  const write = (next: Json | undefined) => draft.change(spec.label, [put(draft.value.peek(), path, next)]);
  return (
    <Group spec={spec} path={path}>
      <Axes path={path} value={value} write={write} />
    </Group>
  );
}

function Axes(props: {
  readonly path: string;
  readonly value: Json | undefined;
  readonly write: (next: Json | undefined) => void;
}) {
  const { path, value, write } = props;
  const axes = useChoices(
    (doc) => objectsAt(doc, '/variants').map((axis) => [String(axis.id), JSON.stringify([axis.label, axis.options])]),
    'axes',
  );
  const not = isNot(value);
  const toggle = (on: boolean) => write(on ? { not: value ?? {} } : not ? (value.not as Json) : value);
  // Not of a not is written one within the other.
  if (not && isNot(value.not))
    return (
      <>
        <NotBox path={path} on onToggle={toggle} />
        <Axes
          path={`${path}/not`}
          value={value.not as Json}
          write={(next) => write(next === undefined ? undefined : { not: next })}
        />
      </>
    );
  const wanted: Members = not ? value.not : isMembers(value) ? value : {};
  const put = (axis: string, option: string, on: boolean) => {
    const now = wantedOf(wanted[axis]).filter((one) => one !== option);
    const list = on ? [...now, option] : now;
    const { [axis]: _before, ...rest } = wanted;
    const next: Members =
      list.length === 0 ? rest : { ...wanted, [axis]: list.length === 1 ? (list[0] as string) : list };
    if (Object.keys(next).length === 0) return write(not ? { not: {} } : undefined);
    write((not ? { not: next } : next) as Json);
  };
  const known = new Set(axes.map(([id]) => id));
  const strange = Object.keys(wanted).filter((axis) => !known.has(axis));
  return (
    <>
      {axes.map(([id, text]) => {
        const [label, options] = JSON.parse(text) as [string, Record<string, string> | null];
        return (
          <Axis
            key={id}
            path={path}
            not={not}
            axis={id}
            label={label}
            options={options ?? {}}
            wanted={wanted}
            put={put}
          />
        );
      })}
      {strange.map((axis) => (
        <Axis
          key={axis}
          path={path}
          not={not}
          axis={axis}
          label={`${axis} (not known)`}
          options={{}}
          wanted={wanted}
          put={put}
        />
      ))}
      <NotBox path={path} on={not} onToggle={toggle} />
    </>
  );
}

function NotBox(props: { readonly path: string; readonly on: boolean; readonly onToggle: (on: boolean) => void }) {
  return (
    <label class="pick">
      <input
        type="checkbox"
        data-kind={props.path}
        checked={props.on}
        onChange={(event) => props.onToggle(event.currentTarget.checked)}
      />
      All but these
    </label>
  );
}

function Axis(props: {
  readonly path: string;
  readonly not: boolean;
  readonly axis: string;
  readonly label: string;
  readonly options: Readonly<Record<string, string>>;
  readonly wanted: Members;
  readonly put: (axis: string, option: string, on: boolean) => void;
}) {
  const { path, not, axis, label, options, wanted, put } = props;
  const ticked = wantedOf(wanted[axis]);
  const place = below(not ? `${path}/not` : path, axis);
  const strange = ticked.filter((one) => options[one] === undefined);
  return (
    <fieldset class="ticks" data-group={place}>
      <legend class="small">{label}</legend>
      {[...Object.entries(options), ...strange.map((one) => [one, `${one} (not known)`] as const)].map(
        ([option, words]) => (
          <label key={option}>
            <input
              type="checkbox"
              data-path={place}
              value={option}
              checked={ticked.includes(option)}
              onChange={(event) => put(axis, option, event.currentTarget.checked)}
            />
            {words}
          </label>
        ),
      )}
    </fieldset>
  );
}
