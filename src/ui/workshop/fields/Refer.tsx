import type { Json } from '../../../lib/canonical-json.ts';
import { choicesFor, objectsAt } from './choices.ts';
import { useAt, useDraft, useOf } from './editing.ts';
import { Labelled, useDescribed } from './Labelled.tsx';
import { Choice, type FieldProps, Words } from './Plain.tsx';
import type { Choices, Refer } from './spec.ts';

/** Choices as one text: what is read again and again is drawn anew only when it is another. */
export const useChoices = (read: (doc: Json) => Choices, key: string): Choices =>
  JSON.parse(useOf((draft) => JSON.stringify(read(draft.value.value)), key)) as Choices;

export function Reference(props: FieldProps & { readonly to: Refer; readonly free?: boolean }) {
  const { spec, path, to, free } = props;
  const of = useChoices((doc) => choicesFor(doc, to, path), `${to} ${path}`);
  if (free && of.length === 0) return <Words spec={spec} path={path} />;
  return <Choice spec={spec} path={path} of={of} />;
}

/** A source, and the place in it. */
export function Source(props: FieldProps) {
  const { spec, path } = props;
  const value = useAt(path);
  const draft = useDraft();
  const of = useChoices(
    (doc) => objectsAt(doc, '/sources').map((one) => [String(one.id), String(one.title ?? one.id)]),
    'sources',
  );
  const described = useDescribed(path, spec.help !== undefined);
  const text = typeof value === 'string' ? value : '';
  const cut = text.indexOf('#');
  const [id, place] = cut < 0 ? [text, ''] : [text.slice(0, cut), text.slice(cut + 1)];
  const put = (nextId: string, nextPlace: string) =>
    draft.put(
      path,
      nextId === '' && nextPlace === '' ? undefined : nextPlace === '' ? nextId : `${nextId}#${nextPlace}`,
      spec.label,
    );
  const known = of.some(([one]) => one === id);
  return (
    <Labelled spec={spec} path={path}>
      <div class="source">
        <select {...described} data-part="id" value={id} onChange={(event) => put(event.currentTarget.value, place)}>
          <option value="">{of.length === 0 ? 'The deck has no sources yet' : '–'}</option>
          {of.map(([one, label]) => (
            <option key={one} value={one}>
              {label}
            </option>
          ))}
          {!known && id !== '' && <option value={id}>{id} (not known)</option>}
        </select>
        <input
          type="text"
          aria-label={`${spec.label}: place, such as 3.2.4`}
          placeholder="Place, such as 3.2.4"
          data-path={path}
          data-part="place"
          autocomplete="off"
          value={place}
          onInput={(event) => put(id, event.currentTarget.value)}
        />
      </div>
    </Labelled>
  );
}
