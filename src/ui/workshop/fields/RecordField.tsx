import { useRef, useState } from 'preact/hooks';
import { valueAt } from '../../../draft/change.ts';
import { mint } from '../../../draft/mint.ts';
import { namesIn } from '../../../draft/mint-name.ts';
import { rename } from '../../../draft/rename.ts';
import { isMembers } from '../../../lib/json.ts';
import { afterPress } from './after-press.ts';
import { below, domId, useDraft, useOf } from './editing.ts';
import { Group } from './Labelled.tsx';
import { AddButton, Folded, Handles, useFresh, useKeys } from './Many.tsx';
import { nameFault } from './naming.ts';
import { type FieldProps, Formula, type OnWords, Words } from './Plain.tsx';
import { Shaped } from './Shaped.tsx';
import type { Kept, Spec } from './spec.ts';

/** Choices of a condition may be written like a name, and so may events. */
const formOf = (kind: Kept) => (kind.name ? 'name' : kind.free ? 'crew' : 'id');

/** The key of a member: what formulas and references call it. */
function KeyBox(props: {
  readonly path: string;
  readonly member: string;
  readonly kind: Kept;
  readonly label: string;
}) {
  const { path, member, kind, label } = props;
  const draft = useDraft();
  const [typed, setTyped] = useState<string | null>(null);
  const place = below(path, member);
  const fault = (to: string): string | null => {
    if (to === member) return null;
    const doc = draft.value.peek();
    const there = valueAt(doc, path);
    const beside = isMembers(there) ? Object.keys(there) : [];
    return nameFault(to, formOf(kind), kind.name ? [...namesIn(doc, path), ...beside] : beside);
  };
  const now = typed === null ? null : fault(typed.trim());
  const box = (
    <input
      type="text"
      class="formula"
      id={domId(place, 'key')}
      {...(!kind.name && { 'aria-label': label })}
      {...(now !== null && { 'aria-invalid': true as const })}
      data-key={place}
      spellcheck={false}
      autocapitalize="off"
      autocomplete="off"
      value={typed ?? member}
      onInput={(event) => setTyped(event.currentTarget.value)}
      onChange={(event) => {
        const to = event.currentTarget.value.trim();
        afterPress(() => {
          if (fault(to) !== null || draft.at(place) === undefined) return;
          draft.change('Name in the file', rename(draft.value.peek(), place, to));
          setTyped(null);
        });
      }}
    />
  );
  const said = now !== null && (
    <p class="note bad small" role="status">
      {now}
    </p>
  );
  if (kind.name)
    return (
      <div class="field">
        <label for={domId(place, 'key')}>{label}</label>
        {box}
        {said}
      </div>
    );
  // Seldom looked at: it is made of the words.
  return (
    <details class="id">
      <summary class="small">
        {kind.free ? 'Name in formulas' : 'Name in the file'}: <code>{member}</code>
      </summary>
      <div class="field">
        {box}
        {said}
      </div>
    </details>
  );
}

/** Words of an option; the first ones give its key. */
function OptionWords(props: {
  readonly path: string;
  readonly member: string;
  readonly kind: Kept;
  readonly spec: Spec;
}) {
  const { path, member, kind, spec } = props;
  const draft = useDraft();
  const wordless = useRef(false);
  const place = below(path, member);
  const isPlain = new RegExp(`^${kind.plain}-?\\d*$`).test(member);
  const nameIt = () => {
    const words = draft.at(place);
    if (!wordless.current || typeof words !== 'string' || words === '') return;
    wordless.current = false;
    if (!isPlain) return;
    const beside = draft.at(path);
    const taken = new Set(isMembers(beside) ? Object.keys(beside).filter((key) => key !== member) : []);
    draft.change('Name in the file', rename(draft.value.peek(), place, mint(words, taken, kind.plain)));
  };
  const onWords: OnWords = (when) => {
    if (when === 'begin') wordless.current ||= draft.at(place) === '';
    else afterPress(nameIt);
  };
  return <Words spec={spec} path={place} {...(!kind.name && { onWords })} />;
}

/** Named things in an order: options, drawn values, what is worked out. */
export function RecordField(props: FieldProps & { readonly kind: Kept }) {
  const { spec, path, kind } = props;
  const text = useOf((draft) => {
    const there = draft.at(path);
    return JSON.stringify(isMembers(there) ? Object.keys(there) : []);
  }, path);
  const members = JSON.parse(text) as string[];
  const { keys, moved } = useKeys(members.length);
  const fresh = useFresh(members.length);
  const keyBox = (member: string, i: number) => (
    <KeyBox
      path={path}
      member={member}
      kind={kind}
      // Where each is folded into a part with its number, the number would be said twice.
      label={'single' in kind.each ? `${kind.key} ${i + 1}` : kind.key}
    />
  );
  return (
    <Group
      spec={spec}
      path={path}
      end={
        <div class="row">
          <AddButton path={path} kind={kind} label={kind.add} />
        </div>
      }
    >
      {members.map((member, i) => {
        const name = `${kind.one} ${i + 1}`;
        const place = below(path, member);
        return (
          <div class="one member" key={keys[i]}>
            {!('single' in kind.each) ? (
              <Folded path={place} name={name} title={<code>{member}</code>} fresh={fresh(i) || members.length === 1}>
                <div class="stack">
                  {keyBox(member, i)}
                  <Shaped shape={kind.each} path={place} />
                </div>
              </Folded>
            ) : kind.each.single === 'formula' ? (
              <>
                {keyBox(member, i)}
                <Formula spec={{ label: kind.each.label, required: true, kind: { is: 'formula' } }} path={place} />
              </>
            ) : (
              <>
                <OptionWords
                  path={path}
                  member={member}
                  kind={kind}
                  spec={{ label: kind.each.label, required: true, kind: { is: 'words' } }}
                />
                {keyBox(member, i)}
              </>
            )}
            <Handles
              path={path}
              index={i}
              length={members.length}
              member={member}
              name={name}
              required={spec.required === true}
              onMoved={moved}
            />
          </div>
        );
      })}
    </Group>
  );
}
