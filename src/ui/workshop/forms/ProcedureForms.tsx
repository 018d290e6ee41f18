import { Field } from '../fields/Field.tsx';
import type { Fields } from '../fields/spec.ts';
import { Form, type FormProps, ObjectForm } from './Form.tsx';
import { BLOCK, PROCEDURE, STEP, USE } from './procedure-fields.ts';

interface NodeProps extends FormProps {
  /** Where it holds is chosen beside the form. */
  readonly held?: true;
}

const fieldsOf = <F extends Fields>(fields: F, { held }: NodeProps): Fields =>
  held === true && fields.if !== undefined
    ? { ...fields, if: { label: fields.if.label, kind: { is: 'elsewhere' } } }
    : fields;

export function StepForm(props: NodeProps) {
  return <ObjectForm {...props} fields={fieldsOf(STEP, props)} more="More about this step" />;
}

export function BlockForm(props: NodeProps) {
  return <ObjectForm {...props} fields={fieldsOf(BLOCK, props)} more="More about this block" />;
}

export function UseForm(props: NodeProps) {
  return <ObjectForm {...props} fields={fieldsOf(USE, props)} more="More" />;
}

/** Title and what else is said of a procedure as a whole. */
export function ProcedureHead(props: FormProps) {
  return <ObjectForm {...props} fields={PROCEDURE} more="More about this procedure" />;
}

/** @param props.path of the procedure */
export function StrangersForm(props: FormProps) {
  const { draft, path } = props;
  return (
    <Form draft={draft}>
      <Field
        spec={{
          label: 'Steps that do not belong',
          help: 'They are shown among the others and must be left out. Steps of neighbouring procedures are taken by themselves.',
          kind: { is: 'strangers' },
        }}
        path={`${path}/strangers`}
      />
    </Form>
  );
}
