import { insert, put } from '../../../draft/change.ts';
import { useDraft } from './editing.ts';
import { focusAdd, focusAt } from './focus.ts';
import { Found, Group } from './Labelled.tsx';
import { useKeys, useLength } from './Many.tsx';
import { type FieldProps, NumberBox } from './Plain.tsx';
import { useSay } from './Saying.tsx';

const cell = (label: string) => ({ label, required: true as const, kind: { is: 'number' as const } });

/** Rows of a table: what it is read with, and what is read. */
export function Rows(props: FieldProps) {
  const { spec, path } = props;
  const draft = useDraft();
  const say = useSay();
  const length = useLength(path);
  const { keys, moved } = useKeys(length);
  return (
    <Group
      spec={spec}
      path={path}
      end={
        <div class="row">
          <button
            type="button"
            data-add={path}
            onClick={() => {
              const there = draft.at(path);
              const change = Array.isArray(there)
                ? insert(path, there.length, ['', ''])
                : put(draft.value.peek(), path, [['', '']]);
              draft.change('Row added', [change]);
              focusAt(`${path}/${length}/0`);
            }}
          >
            Add a row
          </button>
        </div>
      }
    >
      {length > 0 && (
        <div class="row cells small" aria-hidden="true">
          <span>Read with</span>
          <span>Value</span>
        </div>
      )}
      {keys.map((key, i) => (
        <div key={key} data-group={`${path}/${i}`}>
          <div class="row cells">
            <NumberBox bare spec={cell(`Row ${i + 1}: read with`)} path={`${path}/${i}/0`} />
            <NumberBox bare spec={cell(`Row ${i + 1}: value`)} path={`${path}/${i}/1`} />
            <button
              type="button"
              data-remove={`${path}/${i}`}
              onClick={() => {
                draft.change('Row removed', [put(draft.value.peek(), `${path}/${i}`, undefined)]);
                moved(i, null);
                say(`Row ${i + 1} removed: ${length - 1} left.`);
                focusAdd(path);
              }}
            >
              Remove<span class="hidden-visually"> row {i + 1}</span>
            </button>
          </div>
          <Found path={`${path}/${i}`} />
        </div>
      ))}
    </Group>
  );
}
