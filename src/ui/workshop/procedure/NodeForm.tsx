import { kindOf } from '../../../draft/nodes.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import { BlockForm, StepForm, UseForm } from '../forms/ProcedureForms.tsx';
import type { DraftModel } from '../model/draft.ts';

/** What a step or block says, in a form. */
export function NodeForm(props: { readonly draft: DraftModel; readonly path: string; readonly node: Json }) {
  const { node, ...rest } = props;
  const kind = kindOf(node);
  if (kind === 'odd')
    return <p class="note bad small">This is neither step nor block. Remove it, or take the change back.</p>;
  const Form = kind === 'step' ? StepForm : kind === 'use' ? UseForm : BlockForm;
  return (
    <div class="node-form">
      <Form key={rest.path} {...rest} />
    </div>
  );
}
