import type { ScenarioShown } from '../../../model/form.ts';
import { Text } from '../../parts/Text.tsx';
import { Answer } from '../answer/Answer.tsx';
import { Scene } from '../answer/Scene.tsx';
import type { QuestionProps } from '../contract.ts';
import { RunwayWind } from './RunwayWind.tsx';

export function ScenarioQuestion(props: QuestionProps<ScenarioShown>) {
  const { shown } = props;
  return (
    <>
      <p>
        <Text text={shown.situation} />
      </p>
      {shown.picture !== null && <RunwayWind {...shown.picture} />}
      <Scene lines={shown.scene} />
      <h2 class="asked">
        <Text text={shown.ask} />
      </h2>
      <Answer {...props} />
    </>
  );
}
