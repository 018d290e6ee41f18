import { listed, type Met, type SeenSignature, type Trust } from '../models/trust.ts';
import { dayWords } from '../words.ts';

const MET_WORDS: Readonly<Record<Met, string>> = {
  own: 'Signed on this device.',
  known: 'You know this key: a deck signed with it was taken in here before.',
  new: 'You have not met this key before. Ask the signer, by another way than the one the deck came by, to read it to you.',
  namesake:
    'You know another key of somebody by this name. It may be a new key, or another person: ask before you trust it.',
  unchecked: 'This browser cannot check the signature: it proves nothing here. Update the browser.',
};

/** A key in letters to compare, and as it is read out. */
export function KeyLetters(props: { readonly letters: string; readonly spelled?: string }) {
  const { letters, spelled } = props;
  return (
    <>
      <p>
        <code class="number">{letters}</code>
      </p>
      {spelled !== undefined && (
        <details>
          <summary class="button plain">Read it out</summary>
          <p>{spelled}</p>
        </details>
      )}
    </>
  );
}

/** Who signed a deck, with which key, and what is known of them here. */
export function Signers(props: { readonly signatures: readonly SeenSignature[] }) {
  const authors = new Set(props.signatures.filter(({ role }) => role === 'author').map(({ key }) => key));
  return (
    <ul class="lines">
      {props.signatures.map(({ role, name, date, key, fingerprint, met }) => (
        <li key={`${key} ${role}`}>
          <p>
            {role === 'author' ? 'Signed by' : 'Checked and signed by'} <strong>{name}</strong>, {dayWords(date, 0)}
          </p>
          <KeyLetters {...fingerprint} />
          {role === 'checker' && authors.has(key) && (
            <p class="note warn">This is the key of the author too: no second person checked it.</p>
          )}
          <p class={met === 'own' || met === 'known' ? 'small soft' : 'note warn'}>{MET_WORDS[met]}</p>
        </li>
      ))}
    </ul>
  );
}

/** The same for a deck on its way in, or that nobody signed it. */
export function Provenance(props: { readonly trust: Trust; readonly shipped: boolean }) {
  const { signatures, changed, missing } = props.trust;
  return (
    <>
      {changed.length > 0 && (
        <div class="note bad stack">
          <p>
            <strong>Another signer.</strong> The deck on this device is signed by{' '}
            {listed(changed.map((one) => one.name))}, this one is not. Somebody else may have made it under the same
            name.
          </p>
          {changed.map(({ key, name, fingerprint }) => (
            <p key={key}>
              {name}, as known here: <code class="number">{fingerprint.letters}</code>
            </p>
          ))}
        </div>
      )}
      {missing.length > 0 && (
        <p class="note warn">
          {listed(missing.map((one) => one.name))} checked and signed the version that is here, but not this one.
        </p>
      )}
      {signatures.length > 0 && <Signers signatures={signatures} />}
      {signatures.length === 0 && (
        <p class="note">
          {props.shipped
            ? 'It came with the app and is not signed.'
            : 'Not signed: nothing proves who made it, or that it is as they made it.'}
        </p>
      )}
      <p class="note">Install only what your operator lets you copy.</p>
    </>
  );
}
