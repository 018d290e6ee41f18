import { useState } from 'preact/hooks';
import type { Learner } from '../../models/learner.ts';
import { type KeptKey, keepKey } from '../../models/trust.ts';

const SHORT = 12;

/** No key yet: one is made, with a file by which it can be carried over, or brought from another device. */
export function NewKey(props: { readonly learner: Learner; readonly onKey: (key: KeptKey) => void }) {
  const { learner } = props;
  const [passphrase, setPassphrase] = useState('');
  const [busy, setBusy] = useState(false);
  const [failed, setFailed] = useState('');
  const work = async (make: () => Promise<KeptKey>) => {
    setBusy(true);
    setFailed('');
    try {
      const key = await make();
      await keepKey(learner.store, key);
      props.onKey(key);
    } catch (error) {
      setFailed(error instanceof Error ? error.message : String(error));
      setBusy(false);
    }
  };
  const made = async (): Promise<KeptKey> => {
    const { key, file } = await (await learner.device.signing()).makeKey(passphrase);
    const name = `recency-key-${key.fingerprint.letters.slice(0, 4)}.txt`;
    if (!(await learner.device.save(name, file)))
      throw new Error('The file was not saved, so no key was made. Without it the key would be lost with this device.');
    return { ...key, name: '' };
  };
  const taken = async (file: File): Promise<KeptKey> => {
    const key = await (await learner.device.signing()).takeKey(await file.text(), passphrase);
    return { ...key, name: '' };
  };
  return (
    <>
      <p>
        A signature proves that the deck is as you made it, and that the next version comes from the same hand. It needs
        a key, which stays on this device. A file with the key, locked by a passphrase, lets you sign on another one,
        and when this one is lost.
      </p>
      <label class="field">
        Passphrase of the key file, at least {SHORT} characters
        <input
          type="password"
          autocomplete="new-password"
          value={passphrase}
          onInput={(event) => setPassphrase(event.currentTarget.value)}
        />
      </label>
      <div class="row">
        <button type="button" disabled={busy || [...passphrase].length < SHORT} onClick={() => void work(made)}>
          Make a key and save its file
        </button>
        <label class="button">
          Bring a key file
          <input
            type="file"
            class="hidden-visually"
            accept=".txt,.jwk,.json,text/plain"
            disabled={busy}
            onChange={(event) => {
              const file = event.currentTarget.files?.[0];
              event.currentTarget.value = '';
              if (file !== undefined) void work(() => taken(file));
            }}
          />
        </label>
      </div>
      <p class="small soft">Nobody can bring back a forgotten passphrase.</p>
      {failed !== '' && (
        <p class="note bad" role="alert">
          {failed}
        </p>
      )}
    </>
  );
}
