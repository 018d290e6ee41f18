import { useState } from 'preact/hooks';
import { put } from '../../../draft/change.ts';
import { rename } from '../../../draft/rename.ts';
import { afterPress } from './after-press.ts';
import { useAt, useDraft } from './editing.ts';
import { Found, useDescribed } from './Labelled.tsx';
import { idFault } from './naming.ts';
import type { FieldProps } from './Plain.tsx';
import type { Id } from './spec.ts';

/** What the file calls a thing: seldom looked at, since what is remembered hangs on it. */
export function IdBox(props: FieldProps & { readonly id: Id }) {
  const { spec, path, id } = props;
  const value = String(useAt(path) ?? '');
  const draft = useDraft();
  const [typed, setTyped] = useState<string | null>(null);
  const described = useDescribed(path, false);
  const fault =
    typed === null || (typed === '' && spec.required !== true)
      ? null
      : idFault(draft.value.peek(), path, typed, id.form);
  return (
    <details class="id">
      <summary>
        {spec.label}: <code>{value === '' ? 'none' : value}</code>
      </summary>
      <div class="field">
        <p class="small note warn" id={`${described.id}:why`}>
          What learners remember of it hangs on this name: with another name it starts afresh. References in this deck
          follow.
        </p>
        <input
          {...described}
          aria-label={spec.label}
          aria-describedby={`${described.id}:why`}
          {...(fault !== null && { 'aria-invalid': true as const })}
          type="text"
          spellcheck={false}
          autocapitalize="off"
          autocomplete="off"
          value={typed ?? value}
          onInput={(event) => setTyped(event.currentTarget.value)}
          onChange={(event) => {
            const to = event.currentTarget.value.trim();
            afterPress(() => {
              const doc = draft.value.peek();
              if (to === '' && spec.required !== true) draft.change(spec.label, [put(doc, path, undefined)]);
              else if (idFault(doc, path, to, id.form) === null)
                draft.change('Name in the file', rename(doc, path, to));
              else return;
              setTyped(null);
            });
          }}
        />
        {fault !== null && (
          <p class="note bad small" role="status">
            {fault}
          </p>
        )}
      </div>
      <Found path={path} />
    </details>
  );
}
