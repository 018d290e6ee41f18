import type { NextDetail, NextShown } from '../../../model/form.ts';
import { Text } from '../../parts/Text.tsx';
import { Scene } from '../answer/Scene.tsx';
import type { VerdictProps } from '../contract.ts';
import { Done } from '../run/Done.tsx';
import { Place, Step } from '../run/Told.tsx';

/** What was chosen, and why it does not come next; then the step that does, with all that was hidden. */
export function NextVerdict(props: VerdictProps<NextShown>) {
  const { shown, told } = props;
  const { right, wrong } = told.marked.detail as NextDetail;
  const isRight = told.given !== null && wrong === undefined;
  return (
    <>
      <h2 class="asked">{shown.title}</h2>
      <Scene lines={shown.scene} />
      {wrong !== undefined && (
        <p class="given-answer">
          <span aria-hidden="true">✗ </span>
          You chose{' '}
          <s>
            <Text text={wrong.text} />
          </s>
          {wrong.state === 'stranger' && ': does not belong'}
          <Place chip={wrong} />
          {wrong.note !== undefined && (
            <>
              . <Text text={wrong.note} />
            </>
          )}
        </p>
      )}
      <p class="small soft">
        {isRight ? 'Right' : shown.before.length > 0 ? 'What comes next is' : 'What comes first is'}
      </p>
      {shown.before.length > 0 && (
        <ul class="run">
          <Done texts={shown.before} />
        </ul>
      )}
      <ul class="walk walk-told">
        <li>
          <span class="who number">{right.by ?? (isRight ? '✓' : '')}</span>
          <Step chip={right} open={!isRight} />
        </li>
      </ul>
    </>
  );
}
