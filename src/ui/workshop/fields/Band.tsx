import { put } from '../../../draft/change.ts';
import { isMembers } from '../../../lib/json.ts';
import { useDraft, useOf } from './editing.ts';
import { Group } from './Labelled.tsx';
import { type FieldProps, NumberBox } from './Plain.tsx';

const OF = { kind: { is: 'number' as const } };

/** How far off is still right: the same both ways, or not. */
export function Band(props: FieldProps) {
  const { spec, path } = props;
  const draft = useDraft();
  const differs = useOf((one) => isMembers(one.at(path)), path);
  const toggle = (on: boolean) => {
    const value = draft.at(path);
    const both = isMembers(value) ? (value.plus ?? '') : (value ?? '');
    const next = on ? { plus: both, minus: both } : both;
    draft.change(spec.label, [put(draft.value.peek(), path, next === '' ? undefined : next)]);
  };
  const box = (
    <label class="pick">
      <input
        type="checkbox"
        data-kind={path}
        checked={differs}
        onChange={(event) => toggle(event.currentTarget.checked)}
      />
      Not the same above and below
    </label>
  );
  if (!differs)
    return (
      <div class="field">
        <NumberBox spec={spec} path={path} />
        {box}
      </div>
    );
  return (
    <Group spec={spec} path={path}>
      <div class="row even">
        <NumberBox spec={{ ...OF, label: 'Above', required: true }} path={`${path}/plus`} />
        <NumberBox spec={{ ...OF, label: 'Below', required: true }} path={`${path}/minus`} />
      </div>
      {box}
    </Group>
  );
}
