import type { Ref } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import type { Deck } from '../../../model/deck.ts';
import type { Role, SignatureFound } from '../../../model/signing.ts';
import type { Learner } from '../../models/learner.ts';
import { type KeptKey, keepKey, keptKey, listed } from '../../models/trust.ts';
import { KeyLetters } from '../../parts/Signers.tsx';
import { calendarDate } from '../calendar.ts';
import type { DraftModel } from '../model/draft.ts';
import { focusSoon } from './focus.ts';
import { NewKey } from './Key.tsx';
import { signingName } from './ready.ts';

/** Who signed the draft so far, and signing it with the key of this device. */
export function Sign(props: {
  readonly learner: Learner;
  readonly draft: DraftModel;
  readonly deck: Deck;
  readonly found: readonly SignatureFound[];
  /** Why it is not known whether they fit; null where it is. */
  readonly unchecked: string | null;
  /** Why it cannot be signed now. */
  readonly hindered: boolean;
  /** Of `refusedFor`. */
  readonly refused: readonly string[];
  /** The cursor is led here by what says that it must be signed. */
  readonly heading: Ref<HTMLHeadingElement>;
}) {
  const { learner, draft, deck, found } = props;
  const [key, setKey] = useState<KeptKey | null | undefined>(undefined);
  const [name, setName] = useState<string | null>(null);
  const [another, setAnother] = useState(false);
  const [failed, setFailed] = useState('');
  const [said, setSaid] = useState('');
  const status = useRef<HTMLParagraphElement>(null);
  /** The button is gone, or rests until the checker has looked: the cursor goes to what is told. */
  const tell = (words: string) => {
    setSaid(words);
    focusSoon(status);
  };
  useEffect(() => {
    keptKey(learner.store).then(setKey, () => setKey(null));
  }, [learner]);
  if (key === undefined) return null;
  // Never who made the deck: another person may have, and nobody may sign in a name that is not theirs.
  const wanted = name ?? signingName(key, found);
  const sign = async (role: Role) => {
    if (key === null) return;
    setFailed('');
    setSaid('');
    try {
      const date = calendarDate(learner.device);
      const signed = await (await learner.device.signing()).sign(deck, key, { role, name: wanted, date });
      draft.put('/signatures', [...(signed.signatures ?? [])], 'Signed');
      tell(`Signed as ${role}.`);
      if (key.name !== wanted) {
        const kept = { ...key, name: wanted };
        setKey(kept);
        // Not kept, the name is typed again.
        await keepKey(learner.store, kept).catch(() => undefined);
      }
    } catch (error) {
      setFailed(error instanceof Error ? error.message : String(error));
    }
  };
  return (
    <section class="stack rule">
      <h2 tabIndex={-1} ref={props.heading}>
        Signatures
      </h2>
      {props.unchecked !== null && (
        <div class="note bad stack" role="alert">
          <p>{props.unchecked}</p>
          {found.length > 0 && (
            <button type="button" onClick={() => draft.put('/signatures', undefined, 'Signatures left out')}>
              Leave the signatures out
            </button>
          )}
        </div>
      )}
      {found.length === 0 && props.unchecked === null ? (
        <p>Nobody has signed it yet. Unsigned, it says so to everybody who takes it in.</p>
      ) : null}
      {props.refused.length > 0 && (
        <p class="note warn">
          The version before it is signed by {listed(props.refused)}: devices that hold it <strong>refuse</strong> this
          one as long as nobody signs it.
        </p>
      )}
      {found.length > 0 && (
        <ul class="lines">
          {found.map((one) => (
            <li key={`${one.key} ${one.role}`}>
              <p>
                {one.role === 'author' ? 'Author' : 'Checker'}: <strong>{one.name}</strong>{' '}
                <code class="number">{one.fingerprint.letters}</code>
              </p>
              {one.valid === false && (
                <p class="note warn">
                  The deck was changed after this was signed: it no longer counts and will be left out. Sign it again.
                </p>
              )}
            </li>
          ))}
        </ul>
      )}
      {key === null || another ? (
        <>
          <NewKey
            learner={learner}
            onKey={(made, words) => {
              tell(words);
              setKey(made);
              setName(null);
              setAnother(false);
            }}
          />
          {key !== null && (
            <>
              <p class="note warn">
                It takes the place of the key that is here, which then comes back from its own file alone.
              </p>
              <button type="button" onClick={() => setAnother(false)}>
                Keep the key that is here
              </button>
            </>
          )}
        </>
      ) : (
        <>
          <p>
            Your public key, for others to know you by: it is no secret. Read it to those who take your decks, by
            another way than the deck goes.
          </p>
          <KeyLetters {...key.fingerprint} />
          <label class="field">
            Your name, as everybody will read it
            <input
              value={wanted}
              maxLength={80}
              autocomplete="name"
              aria-describedby={wanted.trim() === '' ? 'name-wanted' : undefined}
              onInput={(event) => setName(event.currentTarget.value)}
            />
          </label>
          {wanted.trim() === '' && (
            <p class="small soft" id="name-wanted">
              Write your own name before you sign.
            </p>
          )}
          <div class="row">
            {(['author', 'checker'] as const).map((role) => (
              <button
                key={role}
                type="button"
                disabled={props.hindered || wanted.trim() === ''}
                onClick={() => void sign(role)}
              >
                Sign as {role}
              </button>
            ))}
          </div>
          <button type="button" class="plain" onClick={() => setAnother(true)}>
            Use another key
          </button>
          <p class="small soft">
            A second person checks the deck against its sources on a device of their own, and signs there: hand them the
            file, they open it in their Workshop. Both signatures hold as long as nothing is changed.
          </p>
        </>
      )}
      <p role="status" tabIndex={-1} ref={status}>
        {said}
      </p>
      {failed !== '' && (
        <p class="note bad" role="alert">
          {failed}
        </p>
      )}
    </section>
  );
}
