import { keysOf, valueAt } from '../../../draft/change.ts';
import { kindOf, textOf } from '../../../draft/nodes.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import { BlockForm, StepForm, UseForm } from '../forms/ProcedureForms.tsx';
import type { DraftModel } from '../model/draft.ts';
import { AskedHere } from '../parts/AskedHere.tsx';

/** What a step or block says, in a form. */
export function NodeForm(props: { readonly draft: DraftModel; readonly path: string; readonly node: Json }) {
  const { node, ...rest } = props;
  const kind = kindOf(node);
  if (kind === 'odd')
    return <p class="note bad small">This is neither step nor block. Remove it, or take the change back.</p>;
  const Form = kind === 'step' ? StepForm : kind === 'use' ? UseForm : BlockForm;
  return (
    <div class="node-form">
      <AskedHere draft={rest.draft.id} thing={textOf(node, 'id')} />
      <Form key={rest.path} {...rest} held />
      {kind === 'step' && (
        <div class="row">
          <a class="button" href={trialFrom(rest.draft, rest.path, node)}>
            Try this step
          </a>
        </div>
      )}
    </div>
  );
}

/** Where questions with this step are tried, those that begin with it first. */
const trialFrom = (draft: DraftModel, path: string, node: Json): string => {
  const [section, index] = keysOf(path);
  const ids = [draft.at(`/${section}/${index}/id`), valueAt(node, '/id')];
  return `#/workshop/${draft.id}/try/${ids.map((id) => encodeURIComponent(String(id ?? ''))).join('/')}`;
};
