import type { ComponentChildren } from 'preact';
import { useEffect } from 'preact/hooks';
import { watchPresses } from '../fields/after-press.ts';
import { DraftContext } from '../fields/editing.ts';
import { FieldList } from '../fields/FieldList.tsx';
import { Found } from '../fields/Labelled.tsx';
import type { Fields } from '../fields/spec.ts';
import type { DraftModel } from '../model/draft.ts';

export interface FormProps {
  readonly draft: DraftModel;
  /** Pointer of what the form is of. */
  readonly path: string;
}

/** Fields of one draft. */
export function Form(props: { readonly draft: DraftModel; readonly children: ComponentChildren }) {
  useEffect(watchPresses, []);
  return (
    <DraftContext.Provider value={props.draft}>
      <div class="form stack">{props.children}</div>
    </DraftContext.Provider>
  );
}

export function ObjectForm(props: FormProps & { readonly fields: Fields; readonly more: string }) {
  const { draft, path, fields, more } = props;
  return (
    <Form draft={draft}>
      <Found path={path} />
      <FieldList fields={fields} path={path} more={more} />
    </Form>
  );
}
