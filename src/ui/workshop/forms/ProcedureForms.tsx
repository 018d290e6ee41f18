import { Field } from '../fields/Field.tsx';
import { Form, type FormProps, ObjectForm } from './Form.tsx';
import { BLOCK, PROCEDURE, STEP, USE } from './procedure-fields.ts';

export function StepForm(props: FormProps) {
  return <ObjectForm {...props} fields={STEP} more="More about this step" />;
}

export function BlockForm(props: FormProps) {
  return <ObjectForm {...props} fields={BLOCK} more="More about this block" />;
}

export function UseForm(props: FormProps) {
  return <ObjectForm {...props} fields={USE} more="More" />;
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
