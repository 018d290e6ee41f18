import { type FormProps, ObjectForm } from './Form.tsx';
import { SCENARIO } from './scenario-fields.ts';

/** A situation with drawn numbers, and what is asked of it. */
export function ScenarioForm(props: FormProps) {
  return <ObjectForm {...props} fields={SCENARIO} more="More about this scenario" />;
}
