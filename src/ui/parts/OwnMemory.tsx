import { useEffect, useState } from 'preact/hooks';
import { OWN_MEMORY, type OwnWeights, wantsOwn } from '../../memory/own-weights.ts';
import type { Learner } from '../models/learner.ts';
import { lastFit, ownMemoryWords } from '../models/own-memory.ts';
import { Fold } from './Later.tsx';

/** Which weights of memory are in use and why, with the way back to the usual ones. */
export function OwnMemory(props: { readonly learner: Learner }) {
  const { learner } = props;
  const { store, device } = learner;
  const { settings, predicted, model } = learner.memory.value;
  const [last, setLast] = useState<OwnWeights | null>();
  const [busy, setBusy] = useState(false);
  const [failed, setFailed] = useState('');
  // Read again when others came into use.
  useEffect(() => {
    void lastFit(store).then(setLast);
  }, [store, model]);
  const wanted = wantsOwn(settings);
  const choose = async (value: boolean) => {
    setBusy(true);
    setFailed('');
    try {
      await learner.set(OWN_MEMORY, value);
    } catch (error) {
      setFailed(error instanceof Error ? error.message : String(error));
    }
    setBusy(false);
  };
  const year = new Date(learner.today() * 86_400_000).getUTCFullYear();
  const lines =
    last === undefined ? [] : ownMemoryWords(last, predicted, wanted, year, device.off(last?.at ?? device.now()));
  return (
    <Fold title="Your own memory" said={lines[0]}>
      {() => (
        <>
          <p>
            How fast things fade is first taken from what is usual. From enough answers of your own the app works out
            values for you, and uses them where they predict better.
          </p>
          <div role="status" class="stack">
            {lines.map((line) => (
              <p key={line}>{line}</p>
            ))}
          </div>
          <label class="pick">
            <input
              type="checkbox"
              checked={wanted}
              disabled={busy || !learner.writing.value}
              onChange={(event) => void choose(event.currentTarget.checked)}
            />
            Use my own values where they predict better
          </label>
          {failed !== '' && (
            <p class="note bad" role="alert">
              {failed}
            </p>
          )}
        </>
      )}
    </Fold>
  );
}
