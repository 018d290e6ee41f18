import { Beginnings } from '../bench/Beginnings.tsx';
import { Form, type FormProps, ObjectForm } from './Form.tsx';
import { SCENARIO } from './scenario-fields.ts';

/** A situation with drawn numbers, and what is asked of it. */
export function ScenarioForm(props: FormProps) {
  return (
    <>
      <Form draft={props.draft}>
        <Beginnings path={props.path} />
      </Form>
      <ObjectForm {...props} fields={SCENARIO} more="More about this scenario" />
    </>
  );
}
