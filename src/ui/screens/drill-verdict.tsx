import { useState } from 'preact/hooks';
import type { Told } from '../../drill/types.ts';
import type { Verdict } from '../../model/item.ts';
import type { DrillModel } from '../models/drill.ts';
import { QueryForm } from '../parts/QueryForm.tsx';

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
        {now.voided === 'mis-tap'
          ? 'This answer does not count. The question comes back.'
          : 'This answer does not count. Your query is kept for the author, in the saved copy too.'}
      </p>
    );
  const clean = isClean(now);
  const partly = Object.values(now.marked.marks).includes('right');
  const verdicts = Object.values(now.verdicts);
  const worst = WORST.find((one) => verdicts.includes(one));
  const sureButWrong = now.sure === true && !clean;
  return (
    <p class={`note fate ${clean ? 'is-right' : 'is-wrong'}`} role="status">
      <strong>{fateWords(now.sure === null, clean, partly)}</strong>
      {sureButWrong && <span>You were sure: look at this one twice.</span>}
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

/** After the verdict: take the answer back, query the question, or stop for today. */
export function Query(props: { readonly drill: DrillModel; readonly now: Told }) {
  const { drill, now } = props;
  const [asking, setAsking] = useState(false);
  const [note, setNote] = useState('');
  const can = now.entry !== null && now.voided === undefined && !drill.busy.value;
  if (asking && now.voided === undefined)
    return (
      <div class="stack rule">
        <QueryForm
          note={note}
          onNote={setNote}
          disabled={!can}
          onBack={() => setAsking(false)}
          onQuery={() => void drill.query(note)}
        />
      </div>
    );
  return (
    <div class="after rule">
      {now.voided === undefined && (
        <>
          <button type="button" class="plain" disabled={!can} onClick={() => void drill.misTap()}>
            Mis-tap: does not count
          </button>
          <button type="button" class="plain" disabled={!can} onClick={() => setAsking(true)}>
            Query this question
          </button>
        </>
      )}
      <button type="button" class="plain" disabled={drill.busy.value} onClick={() => void drill.enough()}>
        Enough for today
      </button>
    </div>
  );
}
