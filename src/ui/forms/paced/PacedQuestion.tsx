import type { PacedShown } from '../../../model/form.ts';
import type { QuestionProps } from '../contract.ts';

/** What a run was, where it is shown again. It is played on its own screen: no drill puts it. */
export function PacedQuestion(props: QuestionProps<PacedShown>) {
  const { shown } = props;
  return (
    <>
      <h2 class="asked">{shown.title}</h2>
      {shown.scene.map((line) => (
        <p key={line}>{line}</p>
      ))}
    </>
  );
}
