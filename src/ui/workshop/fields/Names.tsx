import { valueAt } from '../../../draft/change.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import { isMembers } from '../../../lib/json.ts';
import { objectsAt, thingPath } from './choices.ts';
import { domId, useDraft } from './editing.ts';
import type { FieldProps } from './Plain.tsx';
import { useChoices } from './Refer.tsx';
import type { Choices } from './spec.ts';

/** Names that a text may put in braces at a place: values of the day, conditions, and what its scenario draws. */
const namesAt = (doc: Json, path: string): Choices => {
  const own = ['draw', 'let'].flatMap((record) => {
    const there = path.startsWith('/scenarios/') ? valueAt(doc, `${thingPath(path)}/${record}`) : undefined;
    return isMembers(there) ? Object.entries(there) : [];
  });
  const shared = ['/day', '/conditions'].flatMap((list) =>
    objectsAt(doc, list).map((one) => [String(one.id), one] as const),
  );
  return [...own, ...shared].map(([name, one]) => [name, isMembers(one) ? String(one.label ?? name) : name]);
};

/** Puts the name of a value into the text above, where the cursor was. */
export function Names({ spec, path }: FieldProps) {
  const draft = useDraft();
  const names = useChoices((doc) => namesAt(doc, path), `names ${path}`);
  if (names.length === 0) return null;
  const insert = (name: string) => {
    const box = document.getElementById(domId(path));
    const value = draft.at(path);
    const text = typeof value === 'string' ? value : '';
    const typed = box instanceof HTMLTextAreaElement || box instanceof HTMLInputElement;
    const [from, to] = typed
      ? [box.selectionStart ?? text.length, box.selectionEnd ?? text.length]
      : [text.length, text.length];
    const place = `{${name}}`;
    draft.put(path, `${text.slice(0, from)}${place}${text.slice(to)}`, spec.label);
    requestAnimationFrame(() => {
      if (!typed) return;
      box.focus();
      box.setSelectionRange(from + place.length, from + place.length);
    });
  };
  return (
    <details>
      <summary class="small">Put in a value</summary>
      <div class="row">
        {names.map(([name, label]) => (
          <button key={name} type="button" onClick={() => insert(name)} title={label}>
            {`{${name}}`}
          </button>
        ))}
      </div>
    </details>
  );
}
