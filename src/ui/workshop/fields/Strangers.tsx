import { put } from '../../../draft/change.ts';
import { isMembers } from '../../../lib/json.ts';
import { useDraft, useOf } from './editing.ts';
import { Group } from './Labelled.tsx';
import { AddButton, Handles, useKeys, useLength } from './Many.tsx';
import { type FieldProps, Words } from './Plain.tsx';
import type { Spec } from './spec.ts';

const TEXT: Spec = { label: 'What does not belong', required: true, kind: { is: 'words' } };
const NOTE: Spec = { label: 'Why not', kind: { is: 'words' } };

function NoteOfText(props: { readonly path: string }) {
  const { path } = props;
  const draft = useDraft();
  // Written as words alone until there is a reason.
  return (
    <div class="field">
      <label for={`note:${path}`}>{NOTE.label}</label>
      <input
        id={`note:${path}`}
        type="text"
        autocomplete="off"
        data-path={`${path}/note`}
        value=""
        onInput={(event) => {
          const text = draft.at(path);
          const next = { text: text ?? '', note: event.currentTarget.value };
          draft.change(NOTE.label, [put(draft.value.peek(), path, next)], 'typing');
        }}
      />
    </div>
  );
}

/** Steps that do not belong: words, with the reason if there is one. */
export function Strangers(props: FieldProps) {
  const { spec, path } = props;
  const length = useLength(path);
  const { keys, moved } = useKeys(length);
  return (
    <Group
      spec={spec}
      path={path}
      end={
        <div class="row">
          <AddButton path={path} kind={spec.kind} label="Add a step that does not belong" />
        </div>
      }
    >
      {keys.map((key, i) => (
        <div class="one" key={key}>
          <Stranger path={`${path}/${i}`} />
          <Handles
            path={path}
            index={i}
            length={length}
            member={i}
            name={`Step ${i + 1} that does not belong`}
            required={false}
            onMoved={moved}
          />
        </div>
      ))}
    </Group>
  );
}

function Stranger({ path }: { readonly path: string }) {
  const reasoned = useOf((draft) => isMembers(draft.at(path)), path);
  return (
    <div class="stack">
      <Words spec={TEXT} path={reasoned ? `${path}/text` : path} />
      <ReasonBox path={path} reasoned={reasoned} />
    </div>
  );
}

function ReasonBox(props: { readonly path: string; readonly reasoned: boolean }) {
  return props.reasoned ? <Words spec={NOTE} path={`${props.path}/note`} /> : <NoteOfText path={props.path} />;
}
