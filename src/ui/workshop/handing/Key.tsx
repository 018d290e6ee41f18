import type { TargetedInputEvent } from 'preact';
import { useState } from 'preact/hooks';
import type { Learner } from '../../models/learner.ts';
import { type KeptKey, keepKey } from '../../models/trust.ts';

const SHORT = 12;

/** No key yet: one is made, with a file by which it can be carried over, or brought from another device. */
export function NewKey(props: {
  readonly learner: Learner;
  /** @param said what happened, for people */
  readonly onKey: (key: KeptKey, said: string) => void;
}) {
  const { learner } = props;
  const [passphrase, setPassphrase] = useState('');
  const [again, setAgain] = useState('');
  const [isShown, setShown] = useState(false);
  const [busy, setBusy] = useState(false);
  const [failed, setFailed] = useState('');
  const work = async (make: () => Promise<KeptKey>, said: string) => {
    setBusy(true);
    setFailed('');
    try {
      const key = await make();
      await keepKey(learner.store, key);
      props.onKey(key, said);
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
  const isShort = [...passphrase].length < SHORT;
  // Not while it is still being typed.
  const differs = !isShown && again.length >= passphrase.length && again !== '' && again !== passphrase;
  const typed = {
    id: 'passphrase',
    autocomplete: 'new-password',
    autocapitalize: 'off',
    spellcheck: false,
    value: passphrase,
    onInput: (event: TargetedInputEvent<HTMLInputElement>) => setPassphrase(event.currentTarget.value),
  } as const;
  return (
    <>
      <p>
        A signature proves that the deck is as you made it, and that the next version comes from the same hand. It needs
        a key, which stays on this device. A file with the key, locked by a passphrase, lets you sign on another one,
        and when this one is lost.
      </p>
      <label class="field" for="passphrase">
        Passphrase of the key file, at least {SHORT} characters
        {isShown ? <input type="text" {...typed} /> : <input type="password" {...typed} />}
      </label>
      <label class="pick">
        <input type="checkbox" checked={isShown} onChange={(event) => setShown(event.currentTarget.checked)} />
        Show it
      </label>
      {!isShown && (
        <label class="field">
          The same again, for a new key
          <input
            type="password"
            autocomplete="new-password"
            aria-describedby={differs ? 'key-differs' : undefined}
            value={again}
            onInput={(event) => setAgain(event.currentTarget.value)}
          />
        </label>
      )}
      {differs && (
        <p class="note warn" id="key-differs">
          The two are not the same. Show it to see what is typed.
        </p>
      )}
      <div class="row">
        <button
          type="button"
          disabled={busy || isShort || (!isShown && again !== passphrase)}
          onClick={() => void work(made, 'Your key is made, and its file is saved.')}
        >
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
              if (file !== undefined) void work(() => taken(file), 'Your key is here now.');
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
