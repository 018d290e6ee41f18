import { useState } from 'preact/hooks';
import { valueAt } from '../../../draft/change.ts';
import { idsBeside, rename } from '../../../draft/rename.ts';
import { afterPress } from './after-press.ts';
import { useAt, useDraft } from './editing.ts';
import { Labelled, useDescribed } from './Labelled.tsx';
import type { FieldProps } from './Plain.tsx';

/** Words by which a thing is named elsewhere: once the box is left, what names it follows. */
export function CalledBox({ spec, path }: FieldProps) {
  const value = String(useAt(path) ?? '');
  const draft = useDraft();
  const [typed, setTyped] = useState<string | null>(null);
  const described = useDescribed(path, spec.help !== undefined);
  const taken = (to: string): boolean => {
    const doc = draft.value.peek();
    return to !== '' && valueAt(doc, path) !== to && idsBeside(doc, path).includes(to);
  };
  const fault = typed !== null && taken(typed.trim());
  return (
    <Labelled
      spec={spec}
      path={path}
      note={
        fault && (
          <p class="note bad small" role="status">
            “{typed?.trim()}” is taken. The old name stays until you choose another.
          </p>
        )
      }
    >
      <input
        {...described}
        {...(fault && { 'aria-invalid': true as const })}
        type="text"
        autocomplete="off"
        value={typed ?? value}
        onInput={(event) => setTyped(event.currentTarget.value)}
        onChange={(event) => {
          const to = event.currentTarget.value.trim();
          afterPress(() => {
            if (taken(to)) return;
            draft.change(spec.label, rename(draft.value.peek(), path, to));
            setTyped(null);
          });
        }}
      />
    </Labelled>
  );
}
