import type { RuleShown } from '../../../model/form.ts';
import { Text } from '../../parts/Text.tsx';
import { Answer } from '../answer/Answer.tsx';
import { InStep } from '../answer/InStep.tsx';
import { Scene } from '../answer/Scene.tsx';
import { AnswerVerdict } from '../answer/Verdict.tsx';
import type { QuestionProps, VerdictProps } from '../contract.ts';
import { RunwayWind } from '../scenario/RunwayWind.tsx';

export function RuleQuestion(props: QuestionProps<RuleShown>) {
  const { shown } = props;
  return (
    <>
      <InStep {...shown} />
      {shown.situation !== '' && (
        <p>
          <Text text={shown.situation} />
        </p>
      )}
      {shown.picture !== null && <RunwayWind {...shown.picture} />}
      <Scene lines={shown.scene} />
      <h2 class="asked">
        <Text text={shown.ask} />
      </h2>
      <Answer {...props} />
    </>
  );
}

export function RuleVerdict(props: VerdictProps<RuleShown>) {
  return (
    <AnswerVerdict {...props}>
      <InStep {...props.shown} before={[]} />
    </AnswerVerdict>
  );
}
