import type { LimitShown } from '../../../model/form.ts';
import { Text } from '../../parts/Text.tsx';
import { Answer } from '../answer/Answer.tsx';
import { Scene } from '../answer/Scene.tsx';
import type { QuestionProps } from '../contract.ts';

export function LimitQuestion(props: QuestionProps<LimitShown>) {
  const { shown } = props;
  return (
    <>
      <h2 class="asked">
        <Text text={shown.ask} />
      </h2>
      <Scene lines={shown.scene} />
      <Answer {...props} />
    </>
  );
}
