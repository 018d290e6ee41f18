import { DraftContext } from '../fields/editing.ts';
import { Field } from '../fields/Field.tsx';
import { FieldList } from '../fields/FieldList.tsx';
import { Found } from '../fields/Labelled.tsx';
import type { Fields } from '../fields/spec.ts';
import type { DraftModel } from '../model/draft.ts';
import { BLOCK, PROCEDURE, STEP, USE } from './procedure-fields.ts';

export interface FormProps {
  readonly draft: DraftModel;
  /** Pointer of what the form is of. */
  readonly path: string;
}

function Form(props: FormProps & { readonly fields: Fields; readonly more: string }) {
  const { draft, path, fields, more } = props;
  return (
    <DraftContext.Provider value={draft}>
      <div class="form stack">
        <Found path={path} />
        <FieldList fields={fields} path={path} more={more} />
      </div>
    </DraftContext.Provider>
  );
}

export function StepForm(props: FormProps) {
  return <Form {...props} fields={STEP} more="More about this step" />;
}

export function BlockForm(props: FormProps) {
  return <Form {...props} fields={BLOCK} more="More about this block" />;
}

export function UseForm(props: FormProps) {
  return <Form {...props} fields={USE} more="More" />;
}

/** Title and what else is said of a procedure as a whole. */
export function ProcedureHead(props: FormProps) {
  return <Form {...props} fields={PROCEDURE} more="More about this procedure" />;
}

/** @param props.path of the procedure */
export function StrangersForm(props: FormProps) {
  const { draft, path } = props;
  return (
    <DraftContext.Provider value={draft}>
      <Field
        spec={{
          label: 'Steps that do not belong',
          help: 'They are shown among the others and must be left out. Steps of neighbouring procedures are taken by themselves.',
          kind: { is: 'strangers' },
        }}
        path={`${path}/strangers`}
      />
    </DraftContext.Provider>
  );
}
