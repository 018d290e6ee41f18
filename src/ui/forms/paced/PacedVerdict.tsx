import type { PacedDetail, PacedShown } from '../../../model/form.ts';
import { Text } from '../../parts/Text.tsx';
import type { VerdictProps } from '../contract.ts';
import { Step } from '../run/Told.tsx';
import { clock, isGood, verdictWords, whenWords } from './lane.ts';
import { TimeLine, TimeTable } from './TimeLine.tsx';

/** So many steps stand open, with why and source: more would be a page of six screens. */
const MOST_OPEN = 3;

/** The learner's steps along the time, what went wrong with all that belongs to it, and the run as it is done. */
export function PacedVerdict(props: VerdictProps<PacedShown>) {
  const { shown, told } = props;
  const detail = told.marked.detail as PacedDetail;
  const untimed = shown.stretch === 0;
  const own = detail.steps.filter(({ timing }) => timing !== 'played').sort((a, b) => a.cueAt - b.cueAt);
  const wrong = own.filter((step) => !isGood(step));
  const { decision, rule, extra, never } = detail;
  return (
    <>
      <h2 class="asked">{shown.title}</h2>
      {decision !== undefined && (
        <p class={`note ${decision.given === decision.right ? 'is-right' : 'is-wrong'}`}>
          {decision.given === decision.right ? 'Right' : 'Wrong'}: an engine failed at {Math.floor(decision.speed)} kt,{' '}
          {decision.right === 'stop' ? 'below' : 'beyond'} V1: the take-off is{' '}
          {decision.right === 'stop' ? 'stopped' : 'continued'}.{' '}
          {decision.given === undefined
            ? 'You said neither.'
            : `You said: ${decision.given === 'stop' ? 'stop' : 'go on'}.`}
        </p>
      )}
      {own.length > 0 && (
        <>
          {!untimed && (
            <>
              <TimeLine detail={detail} own={own} />
              <p class="small soft">
                Box: in time. Stroke: its cue. Dot: done in time. Cross: not as it should be.
                {own.some(({ timing }) => timing === 'missing') && ' Broken box: not done.'}
              </p>
            </>
          )}
          <TimeTable own={own} untimed={untimed} />
        </>
      )}
      {extra.length > 0 && (
        <>
          <h2>Done, but not yours or not now</h2>
          <ul class="lines">
            {extra.map(({ text, at }) => (
              <li key={`${text} ${at}`}>
                <Text text={text} /> {!untimed && <span class="small soft">at {clock(at)}</span>}
              </li>
            ))}
          </ul>
        </>
      )}
      {rule !== undefined && (
        <>
          <h2>What the wind asked for</h2>
          <p>
            <strong>{rule.right}</strong>
            {rule.given === ''
              ? ' You did not know.'
              : rule.given !== rule.right && ` Wrong, you chose: ${rule.given}.`}
          </p>
          {rule.working.map((line) => (
            <p key={line} class="small">
              {line}
            </p>
          ))}
          {rule.why !== undefined && (
            <p class="small">
              <Text text={rule.why} />
            </p>
          )}
          {rule.source !== undefined && <p class="small soft">{rule.source}</p>}
        </>
      )}
      {wrong.length > 0 && (
        <>
          <h2>To look at again</h2>
          <ul class="lines walk-told">
            {wrong.map((step) => (
              <li key={step.id}>
                <Step chip={step} open={wrong.length <= MOST_OPEN} />
                <p class="small">
                  <strong>{verdictWords(step, untimed)}</strong>
                  {whenWords(step, untimed) !== '' && `: ${whenWords(step, untimed)}`}
                  {step.behind.length > 0 && `. First comes ${step.behind.map(quoted).join(' and ')}`}
                </p>
              </li>
            ))}
          </ul>
        </>
      )}
      <h2>As it was played</h2>
      <ol class="walk walk-told">
        {detail.steps.map((step) => (
          <li key={step.id}>
            <span class="who number">{step.by ?? (untimed ? '' : clock(step.doneAt ?? step.cueAt))}</span>
            <div>
              <Step chip={step} open={false} />
              {step.timing === 'missing' && <p class="small soft">Not done</p>}
            </div>
          </li>
        ))}
      </ol>
      {never.length > 0 && (
        <p class="small soft">Did not come up in this run, and counts for nothing: {never.join('; ')}.</p>
      )}
    </>
  );
}

const quoted = (text: string): string => `“${text.replace(/[“”]/g, '')}”`;
