import { useState } from 'preact/hooks';
import type { Progress } from '../../model/ports.ts';
import { takeCopy } from '../models/copies.ts';
import { incoming } from '../models/install.ts';
import type { Learner } from '../models/learner.ts';
import { go } from '../route.ts';
import { Sheet } from './Sheet.tsx';

/** Saving or joining a copy: whether it goes on, how far it has come and what came of it (`told`, to be drawn). */
export const useCopying = () => {
  const [said, setSaid] = useState<readonly string[]>([]);
  const [failed, setFailed] = useState('');
  const [busy, setBusy] = useState(false);
  /** Share of the joining that is done; null: none goes on. */
  const [share, setShare] = useState<number | null>(null);
  const work = async (task: (tell: Progress) => Promise<readonly string[]>) => {
    setBusy(true);
    setFailed('');
    setSaid([]);
    try {
      setSaid(await task(setShare));
    } catch (error) {
      setFailed(error instanceof Error ? error.message : String(error));
    }
    setBusy(false);
    setShare(null);
  };
  const told = (
    <>
      {share !== null && <progress class="wide" aria-label="Joining the copy" value={share} />}
      <div role="status" class="stack">
        {said.map((line) => (
          <p class="note" key={line}>
            {line}
          </p>
        ))}
      </div>
      {failed !== '' && (
        <p class="note bad" role="alert">
          {failed}
        </p>
      )}
    </>
  );
  return { busy, isDone: said.length > 0, work, told };
};

/** A saved copy that came as a deck does: the question whether to take it in, and what came of it. */
export function CopyIn(props: { readonly learner: Learner; readonly name: string; readonly file: Blob }) {
  const { learner, name, file } = props;
  const { busy, isDone, work, told } = useCopying();
  const isReady = learner.practised.value.length > 0;
  const leave = () => {
    incoming.value = { step: 'none' };
    go({ at: isReady ? 'brief' : 'decks' }, 'instead');
  };
  return (
    <Sheet
      title="A saved copy"
      bar={
        <div class="bar">
          {isDone ? (
            <button type="button" class="main wide" onClick={leave}>
              {isReady ? 'To the Brief' : 'To the decks'}
            </button>
          ) : (
            <div class="row even">
              <button type="button" disabled={busy} onClick={leave}>
                Not now
              </button>
              <button
                type="button"
                class="main"
                disabled={busy}
                onClick={() => void work((tell) => takeCopy(learner, file, tell))}
              >
                Take it in
              </button>
            </div>
          )}
        </div>
      }
    >
      <p>{name}</p>
      {!isDone && (
        <p>
          Answers, settings and decks of a device. They are joined to what is here: nothing is lost, and the same copy
          twice counts once.
        </p>
      )}
      {told}
    </Sheet>
  );
}
