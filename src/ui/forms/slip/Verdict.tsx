import type { SlipDetail, SlipShown } from '../../../model/form.ts';
import { Text } from '../../parts/Text.tsx';
import { WasAsked } from '../answer/WasAsked.tsx';
import type { VerdictProps } from '../contract.ts';
import { Step } from '../run/Told.tsx';
import { Flown } from './Question.tsx';

type State = SlipDetail['lines'][number]['state'];
/** In the margin beside the line's number. Never by colour alone. */
const SIGNS: Readonly<Record<State, { readonly sign: string; readonly words: string }>> = {
  found: { sign: '✓', words: 'found' },
  overlooked: { sign: '✗', words: 'overlooked' },
  accused: { sign: '✗', words: 'nothing is wrong here' },
  right: { sign: '', words: 'right' },
};

/** The lines as they were flown, what was found and what not in their margin; the run as it should be; what was asked. */
export function SlipVerdict(props: VerdictProps<SlipShown>) {
  const { shown, told } = props;
  const { lines, run, tooMany } = told.marked.detail as SlipDetail;
  return (
    <>
      {tooMany && <p class="note bad">More lines were named than slips can be. What was found does not count.</p>}
      <ul class="run slip">
        {lines.map((line, i) => (
          <Row key={line.id} line={line} number={i + 1} isAsked={told.given !== null} />
        ))}
      </ul>
      <h2>As it should be</h2>
      <ol class="walk walk-told">
        {run.map((chip, i) => (
          <li key={chip.id}>
            <span class="who number">{chip.by ?? i + 1}</span>
            <Step chip={chip} open={chip.state !== 'right'} />
          </li>
        ))}
      </ol>
      <WasAsked {...shown} />
    </>
  );
}

function Row(props: {
  readonly line: SlipDetail['lines'][number];
  readonly number: number;
  /** Don't know: nothing was overlooked. */
  readonly isAsked: boolean;
}) {
  const { line, number, isAsked } = props;
  const { state, note } = line;
  const words = state === 'overlooked' && !isAsked ? 'slip' : SIGNS[state].words;
  return (
    <li class={`run-told ${state === 'found' || state === 'right' ? 'right' : 'wrong'}`}>
      <span class="margin number">
        {number}
        <span class="sign" aria-hidden="true">
          {SIGNS[state].sign}
        </span>
      </span>
      <div>
        <p>
          <Flown line={line} />
        </p>
        {state === 'right' ? (
          <span class="hidden-visually">{words}</span>
        ) : (
          <p class="small">
            <strong>{words}</strong>
            {note !== undefined && (
              <>
                . <Text text={note} />
              </>
            )}
          </p>
        )}
      </div>
    </li>
  );
}
