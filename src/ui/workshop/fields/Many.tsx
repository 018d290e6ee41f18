import type { ComponentChildren } from 'preact';
import { useContext, useRef, useState } from 'preact/hooks';
import { put } from '../../../draft/change.ts';
import { isList, isMembers } from '../../../lib/json.ts';
import { below, FindingsContext, useDraft, useOf } from './editing.ts';
import { FieldList } from './FieldList.tsx';
import { focusAdd, focusAt, focusKey } from './focus.ts';
import { Group } from './Labelled.tsx';
import { addTo, moveIn, removeFrom } from './making.ts';
import { type FieldProps, Formula, NumberBox, Words } from './Plain.tsx';
import { Reference } from './Refer.tsx';
import { useSay } from './Saying.tsx';
import { Shaped } from './Shaped.tsx';
import type { Kind, Single, Spec, Things } from './spec.ts';

/** Up, down and away. At an end a button stays where it is, so that the keyboard does not lose its place. */
export function Handles(props: {
  readonly path: string;
  readonly index: number;
  readonly length: number;
  /** The element's own key. */
  readonly member: string | number;
  /** "Case 2" */
  readonly name: string;
  readonly required: boolean;
  readonly onMoved?: (from: number, to: number | null) => void;
}) {
  const { path, index, length, member, name, required, onMoved } = props;
  const draft = useDraft();
  const say = useSay();
  const move = (by: 1 | -1, button: HTMLElement) => {
    const to = index + by;
    if (to < 0 || to >= length) return say(`${name} stays where it is: ${index + 1} of ${length}.`);
    moveIn(draft, path, index, by, `${name} moved`);
    onMoved?.(index, to);
    say(`${name} moved: ${to + 1} of ${length}.`);
    // What is moved in the page loses the focus.
    requestAnimationFrame(() => button.focus());
  };
  return (
    <span class="row handles">
      {length > 1 && (
        <>
          <button
            type="button"
            aria-label={`${name}: up`}
            aria-disabled={index === 0}
            onClick={(event) => move(-1, event.currentTarget)}
          >
            ↑
          </button>
          <button
            type="button"
            aria-label={`${name}: down`}
            aria-disabled={index === length - 1}
            onClick={(event) => move(1, event.currentTarget)}
          >
            ↓
          </button>
        </>
      )}
      <button
        type="button"
        data-remove={below(path, member)}
        onClick={() => {
          removeFrom(draft, path, member, required, `${name} removed`);
          onMoved?.(index, null);
          say(`${name} removed: ${length - 1} left.`);
          focusAdd(path);
        }}
      >
        Remove<span class="hidden-visually"> {name}</span>
      </button>
    </span>
  );
}

export function AddButton(props: { readonly path: string; readonly kind: Kind; readonly label: string }) {
  const { path, kind, label } = props;
  const draft = useDraft();
  return (
    <button
      type="button"
      data-add={path}
      onClick={() => (kind.is === 'record' && kind.name ? focusKey : focusAt)(addTo(draft, path, kind, label))}
    >
      {label}
    </button>
  );
}

/** Which of several have come to be since this was drawn first: they are unfolded. */
export const useFresh = (length: number): ((index: number) => boolean) => {
  const before = useRef(length);
  const had = before.current;
  before.current = length;
  return (index) => length > had && index >= had;
};

export const useLength = (path: string): number =>
  useOf((draft) => {
    const there = draft.at(path);
    return isList(there) ? there.length : isMembers(there) ? Object.keys(there).length : 0;
  }, path);

/** A key for each element that stays with it when it is moved: what is unfolded stays so. */
export const useKeys = (length: number) => {
  const keys = useRef<number[]>([]);
  const next = useRef(0);
  const [, redraw] = useState(0);
  while (keys.current.length < length) keys.current.push(next.current++);
  keys.current.length = length;
  const moved = (from: number, to: number | null) => {
    const [key] = keys.current.splice(from, 1);
    if (to !== null && key !== undefined) keys.current.splice(to, 0, key);
    // Their number stays what it was, so that nothing else says that they are to be drawn in another order.
    redraw((times) => times + 1);
  };
  return { keys: keys.current, moved };
};

const singleSpec = (label: string): Spec => ({ label, required: true, kind: { is: 'words' } });

function One(props: { readonly path: string; readonly of: Single; readonly label: string }) {
  const { path, of, label } = props;
  const spec = singleSpec(label);
  if (of.is === 'number') return <NumberBox spec={spec} path={path} />;
  if (of.is === 'formula') return <Formula spec={spec} path={path} />;
  if (of.is === 'refer') return <Reference spec={spec} path={path} to={of.to} />;
  return <Words spec={spec} path={path} />;
}

/** A list of single values. */
export function ListField(props: FieldProps & { readonly kind: Extract<Kind, { is: 'list' }> }) {
  const { spec, path, kind } = props;
  const length = useLength(path);
  const { keys, moved } = useKeys(length);
  return (
    <Group
      spec={spec}
      path={path}
      end={
        <div class="row">
          <AddButton path={path} kind={kind} label={kind.add} />
        </div>
      }
    >
      {keys.map((key, i) => (
        <div class="single" key={key}>
          <One path={`${path}/${i}`} of={kind.of} label={`${spec.label} ${i + 1}`} />
          <Handles
            path={path}
            index={i}
            length={length}
            member={i}
            name={`${spec.label} ${i + 1}`}
            required={spec.required === true}
            onMoved={moved}
          />
        </div>
      ))}
    </Group>
  );
}

const TITLES = ['title', 'label', 'ask', 'do', 'say', 'text', 'note', 'if', 'id', 'value'];

/** Words by which an author knows one of several. */
const useTitle = (path: string, title: Things['title']): string =>
  useOf((draft) => {
    if (title !== undefined) return title(draft.value.value, path);
    const one = draft.at(path);
    if (!isMembers(one)) return '';
    const words = TITLES.map((key) => one[key]).find((text) => typeof text === 'string' && text.trim() !== '');
    return String(words ?? '');
  }, path);

/**
 * One of several, folded to a line; unfolded as it comes up when it was just made, stands alone or has something to
 * mend: later it is the author's to fold.
 */
export function Folded(props: {
  readonly path: string;
  readonly name: string;
  readonly title: ComponentChildren;
  readonly fresh: boolean;
  readonly children: ComponentChildren;
}) {
  const { name, path, title, children } = props;
  const findings = useContext(FindingsContext);
  const [open] = useState(props.fresh || findings.within(path));
  return (
    <details class="thing" open={open}>
      <summary>
        <span class="soft">{name}</span> {title}
      </summary>
      {children}
    </details>
  );
}

function Title({ path, words }: { readonly path: string; readonly words: Things['title'] }) {
  return <>{useTitle(path, words)}</>;
}

/** A list of things that have fields of their own. */
export function ThingsField(props: FieldProps & { readonly kind: Things; readonly bare?: boolean }) {
  const { spec, path, kind, bare } = props;
  const length = useLength(path);
  const { keys, moved } = useKeys(length);
  const fresh = useFresh(length);
  const rows = keys.map((key, i) => (
    <div class="one" key={key}>
      <Folded
        path={`${path}/${i}`}
        name={`${kind.one} ${i + 1}`}
        title={<Title path={`${path}/${i}`} words={kind.title} />}
        fresh={fresh(i) || length === 1}
      >
        <Shaped shape={kind.each} path={`${path}/${i}`} />
      </Folded>
      <Handles
        path={path}
        index={i}
        length={length}
        member={i}
        name={`${kind.one} ${i + 1}`}
        required={spec.required === true}
        onMoved={moved}
      />
    </div>
  ));
  const add = <AddButton path={path} kind={kind} label={kind.add} />;
  if (bare)
    return (
      <div class="stack">
        {rows}
        <div class="row">{add}</div>
      </div>
    );
  return (
    <Group spec={spec} path={path} end={<div class="row">{add}</div>}>
      {rows}
    </Group>
  );
}

/** An object that is there or not. */
export function Part(props: FieldProps & { readonly kind: Extract<Kind, { is: 'part' }> }) {
  const { spec, path, kind } = props;
  const draft = useDraft();
  const say = useSay();
  return (
    <Group spec={spec} path={path}>
      <FieldList fields={kind.fields} path={path} />
      {spec.required !== true && (
        <div class="row">
          <button
            type="button"
            data-remove={path}
            onClick={() => {
              draft.change(`${spec.label} removed`, [put(draft.value.peek(), path, undefined)]);
              say(`${spec.label} removed.`);
              focusAdd(path);
            }}
          >
            Remove<span class="hidden-visually"> {spec.label}</span>
          </button>
        </div>
      )}
    </Group>
  );
}
