import type { AnswerDetail, LimitShown, ScenarioShown } from '../../../model/form.ts';
import { Text } from '../../parts/Text.tsx';
import type { VerdictProps } from '../contract.ts';
import { RunwayWind } from '../scenario/RunwayWind.tsx';
import { Scene } from './Scene.tsx';

/** The right answer large, the given one beside it, how it is worked out, and why. */
export function AnswerVerdict(props: VerdictProps<LimitShown | ScenarioShown>) {
  const { shown, told } = props;
  const detail = told.marked.detail as AnswerDetail;
  const right = !told.marked.flawed;
  return (
    <>
      {shown.form === 'scenario' && (
        <p>
          <Text text={shown.situation} />
        </p>
      )}
      {shown.form === 'scenario' && shown.picture !== null && <RunwayWind {...shown.picture} />}
      <h2 class="asked">
        <Text text={shown.ask} />
      </h2>
      <Scene lines={shown.scene} />
      <p class="right-answer">
        <span aria-hidden="true">✓ </span>
        <Text text={detail.right} />
      </p>
      {!right && detail.given !== '' && (
        <p class="given-answer">
          <span aria-hidden="true">✗ </span>
          <span class="hidden-visually">You gave </span>
          <s>{detail.given}</s>
          {detail.off !== undefined && <span>, {detail.off}</span>}
        </p>
      )}
      {detail.slip !== undefined && (
        <p class="note bad">
          <Text text={detail.slip} />
        </p>
      )}
      {detail.working.length > 0 && (
        <ul class="working small number">
          {detail.working.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      )}
      {detail.why !== undefined && (
        <p>
          <Text text={detail.why} />
        </p>
      )}
      {detail.usualSlip !== undefined && (
        <p>
          <span class="soft">Usual slip: </span>
          <Text text={detail.usualSlip} />
        </p>
      )}
      {detail.source !== undefined && <p class="small soft">{detail.source}</p>}
    </>
  );
}
