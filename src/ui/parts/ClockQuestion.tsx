import { useEffect, useState } from 'preact/hooks';
import type { Suspicion } from '../../log/clock.ts';
import { clockSuspicion } from '../models/clock.ts';
import type { Learner } from '../models/learner.ts';

const WORDS: Readonly<Record<Suspicion, string>> = {
  'before-last': 'that is before your last answer',
  'before-build': 'that is before this app was made',
  'long-after': 'that is more than a year after your last answer',
};

/** Asked when the device's date cannot be right, or the dates of earlier answers cannot. */
export function ClockQuestion(props: { readonly learner: Learner }) {
  const { learner } = props;
  const [suspicion, setSuspicion] = useState<Suspicion | null>(null);
  const [wrong, setWrong] = useState(false);
  const [busy, setBusy] = useState(false);
  useEffect(() => {
    void clockSuspicion(learner).then(setSuspicion);
  }, [learner]);
  if (suspicion === null) return null;
  const date = new Intl.DateTimeFormat('en-GB', { dateStyle: 'full', timeStyle: 'short' }).format(learner.device.now());
  return (
    <div class="note warn stack" role="alert">
      <p>
        This device says {date}: {WORDS[suspicion]}. Is that date right?
      </p>
      {wrong ? (
        <p>Set the date of this device, then open Recency again. Until then no drill counts as a new day.</p>
      ) : (
        <div class="row even">
          <button
            type="button"
            disabled={busy}
            onClick={() => {
              setBusy(true);
              void import('../models/clock-right.ts')
                .then(({ clockIsRight }) => clockIsRight(learner, suspicion))
                .then(
                  () => setSuspicion(null),
                  () => setBusy(false),
                );
            }}
          >
            It is right
          </button>
          <button type="button" disabled={busy} onClick={() => setWrong(true)}>
            It is wrong
          </button>
        </div>
      )}
    </div>
  );
}
