import type { CueShown } from '../../../model/form.ts';
import { About, Pick, PickVerdict } from '../answer/Pick.tsx';
import type { QuestionProps, VerdictProps } from '../contract.ts';

export function CueQuestion(props: QuestionProps<CueShown>) {
  return (
    <Pick {...props}>
      <About text={props.shown.about} />
    </Pick>
  );
}

/** The step opens with its cue: that is the answer, either way. */
export function CueVerdict(props: VerdictProps<CueShown>) {
  const { shown } = props;
  return (
    <PickVerdict
      {...props}
      about={shown.about}
      open
      right={shown.way === 'trigger' ? 'What it waits for' : 'It calls for'}
    />
  );
}
