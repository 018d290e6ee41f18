import { put } from '../../../draft/change.ts';
import { useDraft, useOf } from './editing.ts';

/** What no box can write: nothing in the file is hidden, and it goes only when it is taken away. */
export function Odd(props: { readonly path: string; readonly said: string }) {
  const { path, said } = props;
  const draft = useDraft();
  const text = useOf((one) => JSON.stringify(one.at(path)) ?? '', path);
  return (
    <div class="note warn stack" data-group={path}>
      <p>
        {said}: <code>{text}</code>
      </p>
      {path !== '' && (
        <div class="row">
          <button
            type="button"
            data-remove={path}
            onClick={() => draft.change('Removed', [put(draft.value.peek(), path, undefined)])}
          >
            Remove<span class="hidden-visually"> {path.split('/').at(-1)}</span>
          </button>
        </div>
      )}
    </div>
  );
}
