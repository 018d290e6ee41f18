import { useState } from 'preact/hooks';
import type { Suspicion } from '../../log/clock.ts';
import type { Learner } from '../models/learner.ts';

const WORDS: Readonly<Record<Suspicion, string>> = {
  'before-last': 'that is before your last answer',
  'before-build': 'that is before this app was made',
  'long-after': 'that is more than a year after your last answer',
};

/** Asked when the device's date cannot be right, or the dates of earlier answers cannot. */
export function ClockQuestion(props: { readonly learner: Learner }) {
  const { learner } = props;
  const [wrong, setWrong] = useState(false);
  const [busy, setBusy] = useState(false);
  const suspicion = learner.clock.suspicion.value;
  if (suspicion === null) return null;
  const date = new Intl.DateTimeFormat('en-GB', { dateStyle: 'full', timeStyle: 'short' }).format(learner.device.now());
  const right = async () => {
    setBusy(true);
    // Where it cannot be stored `learner.problem` says so, and the question stays.
    await import('../models/clock-doubt.ts')
      .then(({ clockIsRight }) => clockIsRight(learner, suspicion))
      .catch(() => undefined);
    setBusy(false);
  };
  return (
    <div class="note warn stack" role="alert">
      <p>
        This device says {date}: {WORDS[suspicion]}. Is that date right?
      </p>
      {wrong && (
        <p>
          Set the date in the settings of this device, then come back. You can practise meanwhile: your answers count,
          but as if no time had passed.
        </p>
      )}
      <div class="row even">
        <button type="button" disabled={busy || !learner.writing.value} onClick={() => void right()}>
          {wrong ? 'It is right now' : 'It is right'}
        </button>
        {!wrong && (
          <button type="button" disabled={busy} onClick={() => setWrong(true)}>
            It is wrong
          </button>
        )}
      </div>
    </div>
  );
}
