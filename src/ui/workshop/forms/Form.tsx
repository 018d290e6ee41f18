import type { ComponentChildren } from 'preact';
import { useContext, useEffect } from 'preact/hooks';
import { afterPress, watchPresses } from '../fields/after-press.ts';
import { DraftContext, FindingsContext } from '../fields/editing.ts';
import { FieldList } from '../fields/FieldList.tsx';
import { Found } from '../fields/Labelled.tsx';
import type { Fields } from '../fields/spec.ts';
import type { DraftModel } from '../model/draft.ts';

export interface FormProps {
  readonly draft: DraftModel;
  /** Pointer of what the form is of. */
  readonly path: string;
}

/** Places of the fields and groups around a box that the cursor has left. */
const placesLeft = (box: EventTarget | null, to: EventTarget | null): string[] => {
  const left: string[] = [];
  for (let one = box instanceof Element ? box : null; one !== null; one = one.parentElement) {
    if (to instanceof Node && one.contains(to)) break;
    const { path, group } = (one as HTMLElement).dataset;
    const place = path ?? group;
    if (place !== undefined) left.push(place);
  }
  return left;
};

/** Fields of one draft. */
export function Form(props: { readonly draft: DraftModel; readonly children: ComponentChildren }) {
  const findings = useContext(FindingsContext);
  useEffect(watchPresses, []);
  const onFocusOut = ({ target, relatedTarget }: FocusEvent) => {
    // A page that has just been drawn takes the cursor to its heading and gives it back.
    if (relatedTarget instanceof HTMLHeadingElement) return;
    const places = placesLeft(target, relatedTarget);
    afterPress(() => places.forEach(findings.left));
  };
  return (
    <DraftContext.Provider value={props.draft}>
      <div class="form stack" onFocusOut={onFocusOut}>
        {props.children}
      </div>
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
