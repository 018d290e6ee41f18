import { useEffect, useState } from 'preact/hooks';
import type { Learner } from '../models/learner.ts';
import { forgetSigner, type KnownSigner, knownSigners } from '../models/trust.ts';
import { dayWords } from '../words.ts';
import { Fold } from './Later.tsx';
import { KeyLetters } from './Signers.tsx';

/** Whose signatures are known on this device; nothing where nobody's is. */
export function KnownSigners(props: { readonly learner: Learner }) {
  const { store } = props.learner;
  const [known, setKnown] = useState<readonly KnownSigner[]>([]);
  useEffect(() => {
    knownSigners(store).then(setKnown, () => undefined);
  }, [store]);
  if (known.length === 0) return null;
  return (
    <Fold title="Signers you know" said={known.map(({ name }) => name).join(', ')}>
      {() => (
        <>
          <ul class="lines">
            {known.map(({ key, name, letters, since }) => (
              <li key={key}>
                <p>
                  <strong>{name}</strong>
                </p>
                <KeyLetters letters={letters} />
                <p class="small soft">Known here since {dayWords(new Date(since).toISOString().slice(0, 10), 0)}.</p>
                <button
                  type="button"
                  class="plain"
                  onClick={() => void forgetSigner(store, key).then(setKnown, () => undefined)}
                >
                  Forget {name}
                </button>
              </li>
            ))}
          </ul>
          <p class="small soft">Of one whom you forget you are asked again. Decks that are installed stay.</p>
        </>
      )}
    </Fold>
  );
}
