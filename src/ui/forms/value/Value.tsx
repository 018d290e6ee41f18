import type { ValueShown } from '../../../model/form.ts';
import { Text } from '../../parts/Text.tsx';
import { Answer } from '../answer/Answer.tsx';
import { InStep } from '../answer/InStep.tsx';
import { Scene } from '../answer/Scene.tsx';
import { AnswerVerdict } from '../answer/Verdict.tsx';
import type { QuestionProps, VerdictProps } from '../contract.ts';

export function ValueQuestion(props: QuestionProps<ValueShown>) {
  const { shown } = props;
  return (
    <>
      <InStep {...shown} />
      <Scene lines={shown.scene} />
      <h2 class="asked">
        <Text text={shown.ask} />
      </h2>
      <Answer {...props} />
    </>
  );
}

export function ValueVerdict(props: VerdictProps<ValueShown>) {
  return (
    <AnswerVerdict {...props}>
      <InStep {...props.shown} before={[]} />
    </AnswerVerdict>
  );
}
