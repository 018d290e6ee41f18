import type { Choice } from '../../../model/form.ts';
import { Text } from '../../parts/Text.tsx';

/** One of several, as ruled lines. */
export function Choices(props: {
  readonly label: string;
  readonly choices: readonly Choice[];
  readonly chosen: string | undefined;
  readonly disabled: boolean;
  readonly onChosen: (id: string) => void;
}) {
  return (
    <fieldset>
      <legend class="hidden-visually">{props.label}</legend>
      {props.choices.map(({ id, text }) => (
        <label class="pick" key={id}>
          <input
            type="radio"
            name="choice"
            checked={props.chosen === id}
            disabled={props.disabled}
            onChange={() => props.onChosen(id)}
          />
          <span>
            <Text text={text} />
          </span>
        </label>
      ))}
    </fieldset>
  );
}
