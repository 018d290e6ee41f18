import { useState } from 'preact/hooks';
import type { Told } from '../../drill/types.ts';
import type { PacedDetail } from '../../model/form.ts';
import { isGood } from '../forms/paced/lane.ts';
import { pacedUi } from '../forms/paced/ui.ts';
import type { Learner } from '../models/learner.ts';
import { Unsaved } from '../parts/Notices.tsx';
import { Sheet } from '../parts/Sheet.tsx';
import { plural } from '../words.ts';

/** The verdicts of a run, and whether it counts. */
export function PacedEnd(props: {
  readonly learner: Learner;
  readonly told: Told;
  readonly deck: string;
  readonly invented: boolean;
  readonly onAgain: () => void;
}) {
  const { learner, told, deck, invented } = props;
  const [isVoid, setVoid] = useState(false);
  const [busy, setBusy] = useState(false);
  const { Verdict } = pacedUi;
  const { steps, decision, rule } = told.marked.detail as PacedDetail;
  const own = steps.filter(({ timing }) => timing !== 'played');
  const right = own.filter(isGood).length;
  const nothing = Object.keys(told.marked.marks).length === 0;
  const takeBack = async () => {
    if (told.entry === null) return;
    setBusy(true);
    await learner.append({ k: 'void', of: told.entry, why: 'mis-tap' }).then(
      () => setVoid(true),
      // `learner.problem` says so.
      () => undefined,
    );
    setBusy(false);
  };
  return (
    <Sheet
      title="How it went"
      top={
        <header class="top">
          <span>{told.shown.form === 'paced' && told.shown.stretch === 0 ? 'Untimed' : 'In time'}</span>
          {invented && <span class="mark">Invented</span>}
        </header>
      }
      bar={
        <div class="bar">
          <button type="button" class="main wide" onClick={props.onAgain}>
            Once more
          </button>
          <a class="button wide" href={`#/deck/${encodeURIComponent(deck)}`}>
            Done
          </a>
        </div>
      }
    >
      <Unsaved learner={learner} />
      {nothing ? (
        <p class="note">None of your steps came up: there is nothing to mark, and nothing is stored.</p>
      ) : (
        <p>
          {decision !== undefined && (
            <>
              <strong>Stop or go: {decision.given === decision.right ? 'right' : 'wrong'}.</strong>{' '}
            </>
          )}
          {rule !== undefined && (
            <>
              <strong>
                The wind: {rule.given === rule.right ? 'right' : rule.given === '' ? 'not known' : 'wrong'}.
              </strong>{' '}
            </>
          )}
          <strong>
            {right} of {plural(own.length, 'step')}
          </strong>{' '}
          at the right moment.
        </p>
      )}
      <Verdict shown={told.shown} told={told} />
      {told.entry !== null &&
        (isVoid ? (
          <p class="note" role="status">
            This run does not count.
          </p>
        ) : (
          <div class="after">
            <button type="button" class="plain" disabled={busy} onClick={() => void takeBack()}>
              Do not count this run
            </button>
          </div>
        ))}
    </Sheet>
  );
}
