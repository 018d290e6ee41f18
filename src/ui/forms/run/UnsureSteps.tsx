import type { RunShown } from '../../../model/form.ts';
import { Text } from '../../parts/Text.tsx';
import type { UnsureProps } from '../contract.ts';

/** The steps as they were numbered: which of them are not sure? */
export function UnsureSteps(props: UnsureProps<RunShown>) {
  const { shown, draft, value, onChange } = props;
  return (
    <fieldset>
      <legend class="small soft">Tick them, or skip this with “All of them”.</legend>
      {(draft.order ?? []).map((id, i) => {
        const chip = shown.chips.find((one) => one.id === id);
        if (chip === undefined) return null;
        return (
          <label class="pick" key={id}>
            <input
              type="checkbox"
              checked={value.includes(id)}
              onChange={(event) =>
                onChange(event.currentTarget.checked ? [...value, id] : value.filter((one) => one !== id))
              }
            />
            <span>
              <span class="number soft">{i + 1}. </span>
              <Text text={chip.text} />
            </span>
          </label>
        );
      })}
    </fieldset>
  );
}
