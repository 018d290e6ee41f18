import type { ComponentChildren } from 'preact';
import { useContext } from 'preact/hooks';
import { domId, FindingsContext } from './editing.ts';
import type { Spec } from './spec.ts';

/** What an input says of itself to those who do not see the page. */
export interface Described {
  readonly id: string;
  readonly 'aria-describedby'?: string;
  readonly 'aria-invalid'?: true;
  readonly 'data-path': string;
}

/** Findings of the place: is there an error, and the id of their list. */
const useFindings = (path: string) => useContext(FindingsContext).at(path);

export const useDescribed = (path: string, help: boolean): Described => {
  const found = useFindings(path);
  const by = [help ? domId(path, 'help') : '', found.length > 0 ? domId(path, 'found') : ''].filter((id) => id !== '');
  return {
    id: domId(path),
    'data-path': path,
    ...(by.length > 0 && { 'aria-describedby': by.join(' ') }),
    ...(found.some(({ severity }) => severity === 'error') && { 'aria-invalid': true as const }),
  };
};

const MARKS = { error: 'bad', warning: 'warn', hint: '' } as const;

/** What the checker says of this place. */
export function Found({ path }: { readonly path: string }) {
  const found = useFindings(path);
  if (found.length === 0) return null;
  return (
    <ul class="found small" id={domId(path, 'found')}>
      {found.map(({ severity, text }) => (
        <li key={text} class={`note ${MARKS[severity]}`}>
          {text}
        </li>
      ))}
    </ul>
  );
}

export function Help(props: { readonly path: string; readonly spec: Spec }) {
  const { path, spec } = props;
  if (spec.help === undefined) return null;
  return (
    <p class="small soft" id={domId(path, 'help')}>
      {spec.help}
    </p>
  );
}

/** Several of these stand side by side where there is room. */
const SHORT: Readonly<Record<string, string>> = { number: 'narrow', choice: 'short', date: 'short' };

/** A box with its label above, help and findings below. */
export function Labelled(props: {
  readonly spec: Spec;
  readonly path: string;
  readonly children: ComponentChildren;
  readonly note?: ComponentChildren;
}) {
  const { spec, path, children, note } = props;
  return (
    <div class={`field ${SHORT[spec.kind.is] ?? ''}`}>
      <label for={domId(path)}>{spec.label}</label>
      {children}
      <Help path={path} spec={spec} />
      {note}
      <Found path={path} />
    </div>
  );
}

/** Several boxes under one heading. */
export function Group(props: {
  readonly spec: Spec;
  readonly path: string;
  readonly children: ComponentChildren;
  /** Beside the heading. */
  readonly end?: ComponentChildren;
}) {
  const { spec, path, children, end } = props;
  const described = useDescribed(path, spec.help !== undefined);
  return (
    <fieldset
      class="group stack"
      id={described.id}
      tabIndex={-1}
      aria-describedby={described['aria-describedby']}
      data-group={path}
    >
      <legend>{spec.label}</legend>
      <Help path={path} spec={spec} />
      <Found path={path} />
      {children}
      {end}
    </fieldset>
  );
}
