import type { Told } from '../../drill/types.ts';
import type { Verdict } from '../../model/item.ts';
import type { DrillModel } from '../models/drill.ts';

const WORST: readonly Verdict[] = ['missed', 'unsure', 'sound', 'fluent'];

/** All was right, and nothing else was done. */
export const isClean = ({ marked }: Told): boolean =>
  !marked.flawed && Object.values(marked.marks).every((mark) => mark === 'right');

/** The verdict in one line: what the answer was, and how sure it was given. */
export function Fate(props: { readonly now: Told }) {
  const { now } = props;
  if (now.voided !== undefined)
    return (
      <p class="note" role="status">
        <strong>Taken back: this answer does not count.</strong>{' '}
        {now.voided === 'mis-tap'
          ? 'It is asked again after a few other questions.'
          : 'Your query is kept, and goes to your instructor with your next progress report.'}
      </p>
    );
  const clean = isClean(now);
  const marks = Object.values(now.marked.marks);
  // Less than half of it is no part to build on.
  const partly = 2 * marks.filter((mark) => mark === 'right').length >= Math.max(1, marks.length);
  const verdicts = Object.values(now.verdicts);
  const worst = WORST.find((one) => verdicts.includes(one));
  const sureButWrong = now.sure === true && !clean;
  return (
    <p class={`note fate ${clean ? 'is-right' : 'is-wrong'}`} role="status">
      <strong>{fateWords(now.sure === null, clean, partly)}</strong>
      {sureButWrong && <span>You were sure: look twice.</span>}
      {clean && now.sure === false && <span>You were not sure: it comes back sooner.</span>}
      {clean && now.sure === true && worst === 'fluent' && <span>And quick.</span>}
    </p>
  );
}

const fateWords = (told: boolean, clean: boolean, partly: boolean): string => {
  if (told) return 'Here is the answer';
  if (clean) return 'Right';
  return partly ? 'Partly right' : 'Wrong';
};

/** Goes on; takes the answer back, queries the question, or stops for today. All of it at the thumb. */
export function VerdictBar(props: { readonly drill: DrillModel; readonly now: Told; readonly onQuery: () => void }) {
  const { drill, now } = props;
  const busy = drill.busy.value;
  const can = now.entry !== null && !busy;
  return (
    <div class="bar verdict-bar">
      <div class="row after">
        {now.voided === undefined && (
          <>
            <button type="button" class="plain" disabled={!can} onClick={() => void drill.misTap()}>
              <span>
                Mis-tap<span class="wordy">: take back</span>
              </span>
            </button>
            <button type="button" class="plain" disabled={!can} onClick={props.onQuery}>
              <span>
                Query<span class="wordy"> this question</span>
              </span>
            </button>
          </>
        )}
        <button type="button" class="plain" disabled={busy} onClick={() => void drill.enough()}>
          <span>
            Enough<span class="wordy"> for today</span>
          </span>
        </button>
      </div>
      <button type="button" class="main wide" disabled={busy} onClick={() => void drill.next()}>
        Next
      </button>
    </div>
  );
}
