import type { BeforeShown } from '../../../model/form.ts';
import { About, Pick, PickVerdict } from '../answer/Pick.tsx';
import type { QuestionProps, VerdictProps } from '../contract.ts';

export function BeforeQuestion(props: QuestionProps<BeforeShown>) {
  return (
    <Pick {...props}>
      <About text={props.shown.step} />
    </Pick>
  );
}

export function BeforeVerdict(props: VerdictProps<BeforeShown>) {
  return <PickVerdict {...props} about={props.shown.step} right="Must be done before it" open />;
}
