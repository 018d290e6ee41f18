import type { Choice, NumberField, Shown } from '../../../model/form.ts';
import type { QuestionProps } from '../contract.ts';
import { Choices } from './Choices.tsx';
import { Numbers } from './Numbers.tsx';

type Answerable = Shown & {
  readonly ask: string;
  readonly choices: readonly Choice[];
  readonly fields: readonly NumberField[];
};

/** The part of a question that takes its answer: a choice, or numbers. */
export function Answer(props: QuestionProps<Answerable>) {
  const { shown, draft, disabled, onDraft } = props;
  return shown.choices.length > 0 ? (
    <Choices
      label={shown.ask}
      choices={shown.choices}
      chosen={draft.choice}
      disabled={disabled}
      onChosen={(choice) => onDraft({ ...draft, choice })}
    />
  ) : (
    <Numbers
      fields={shown.fields}
      typed={draft.typed ?? []}
      disabled={disabled}
      onTyped={(typed) => onDraft({ ...draft, typed })}
    />
  );
}
