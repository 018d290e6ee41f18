import { put } from '../../../draft/change.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import { isMembers } from '../../../lib/json.ts';
import { domId, useDraft, useOf } from './editing.ts';
import { FieldList } from './FieldList.tsx';
import { Found } from './Labelled.tsx';
import { converted } from './making.ts';
import { type Shape, type Variety, varietyOf } from './spec.ts';

/** Fields of something that can be written in several ways: the way is chosen first. */
export function Shaped(props: { readonly shape: Shape; readonly path: string; readonly more?: string }) {
  const { shape, path, more } = props;
  const draft = useDraft();
  const now = useOf((one) => varietyOf(shape, one.at(path)), path);
  const choose = (to: Variety) => {
    const value = draft.at(path);
    draft.change(`Now: ${to.label}`, [
      put(draft.value.peek(), path, converted(isMembers(value) ? value : {}, to) as Json),
    ]);
  };
  return (
    <div class="stack">
      <Found path={path} />
      {shape.length > 1 && (
        <fieldset class="kinds" data-kind={path}>
          <legend>What it is</legend>
          {shape.map((one, i) => (
            <label key={one.label}>
              <input
                type="radio"
                name={domId(path, 'kind')}
                value={i}
                checked={one === now}
                onChange={() => choose(one)}
              />
              {one.label}
            </label>
          ))}
        </fieldset>
      )}
      <FieldList key={now.label} fields={now.fields} path={path} {...(more !== undefined && { more })} />
    </div>
  );
}
