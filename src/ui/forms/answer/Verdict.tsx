import type { ComponentChildren } from 'preact';
import type { AnswerDetail, LimitShown, RuleShown, ScenarioShown, ValueShown } from '../../../model/form.ts';
import { Text } from '../../parts/Text.tsx';
import { PitchPicture } from '../../pictures/PitchPicture.tsx';
import { RunwayWindParts } from '../../pictures/RunwayWindParts.tsx';
import type { VerdictProps } from '../contract.ts';
import { WasAsked } from './WasAsked.tsx';

/**
 * The right answer large, the given one, how it is worked out, and why; then what was asked.
 * @param props.children where in a procedure it was asked
 */
export function AnswerVerdict(
  props: VerdictProps<LimitShown | ScenarioShown | ValueShown | RuleShown> & { readonly children?: ComponentChildren },
) {
  const { shown, told } = props;
  const detail = told.marked.detail as AnswerDetail;
  const right = told.given !== null && !told.marked.flawed;
  return (
    <>
      <div>
        {/* A tick beside the answer to a wrong one would read as "you were right". */}
        <p class="small soft">{right ? 'Right' : 'The answer is'}</p>
        <p class="right-answer">
          {right && <span aria-hidden="true">✓ </span>}
          <Text text={detail.right} />
        </p>
        {right && detail.given !== '' && !detail.right.endsWith(detail.given) && (
          <p class="small soft">
            You gave <Text text={detail.given} />
          </p>
        )}
        {detail.counted !== undefined && (
          <p class="small soft">
            <Text text={detail.counted} />
          </p>
        )}
      </div>
      {!right && detail.given !== '' && (
        <p class="given-answer">
          <span aria-hidden="true">✗ </span>
          You gave{' '}
          <s>
            <Text text={detail.given} />
          </s>
          {detail.off !== undefined && `: ${detail.off}`}
        </p>
      )}
      {detail.pitch !== undefined && <PitchPicture degrees={detail.pitch} words={detail.right} />}
      {detail.slip !== undefined && (
        <p class="note bad">
          <Text text={detail.slip} />
        </p>
      )}
      {(detail.dated ?? []).map((line) => (
        <p class="note" key={line}>
          <Text text={line} />
        </p>
      ))}
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
      <WasAsked ask={shown.ask} scene={shown.scene}>
        {props.children}
        {'situation' in shown && shown.situation !== '' && (
          <p>
            <Text text={shown.situation} />
          </p>
        )}
        {'picture' in shown && shown.picture !== null && <RunwayWindParts {...shown.picture} />}
      </WasAsked>
    </>
  );
}
