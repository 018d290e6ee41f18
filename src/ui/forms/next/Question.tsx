import type { NextShown } from '../../../model/form.ts';
import { Choices } from '../answer/Choices.tsx';
import { Scene } from '../answer/Scene.tsx';
import type { QuestionProps } from '../contract.ts';
import { Done } from '../run/Done.tsx';

/** The last steps done, and below them what may come next. */
export function NextQuestion(props: QuestionProps<NextShown>) {
  const { shown, draft, disabled, onDraft } = props;
  return (
    <>
      <h2 class="asked">{shown.title}</h2>
      <Scene lines={shown.scene} />
      {shown.before.length > 0 && (
        <ul class="run">
          <Done texts={shown.before} />
        </ul>
      )}
      <p>
        <strong>{shown.ask}</strong>
      </p>
      <Choices
        label={shown.ask}
        choices={shown.choices}
        chosen={draft.choice}
        disabled={disabled}
        onChosen={(choice) => onDraft({ ...draft, choice })}
      />
    </>
  );
}
