import { useState } from 'preact/hooks';
import { amendmentOf, answersChanged, datesOf } from '../models/amendment.ts';
import type { Learner } from '../models/learner.ts';
import { Changes } from '../parts/Changes.tsx';
import { Sheet } from '../parts/Sheet.tsx';
import { Text } from '../parts/Text.tsx';
import { go } from '../route.ts';
import { NATURE_WORDS, plural } from '../words.ts';

/** The amendment brief: what a newer revision of a deck changed, from when, and what follows for the next drill. */
export function Amendment(props: { readonly learner: Learner; readonly deck: string }) {
  const { learner } = props;
  const [busy, setBusy] = useState(false);
  const amendment = amendmentOf(learner, props.deck);
  const back = (
    <header class="top">
      <a class="button plain" href={`#/deck/${encodeURIComponent(props.deck)}`}>
        Deck
      </a>
    </header>
  );
  if (amendment === null)
    return (
      <Sheet title="Nothing was amended" top={back}>
        <p>Only one version of this deck is on this device.</p>
      </Sheet>
    );
  const { practised, chosen, base, since, isSeen } = amendment;
  const { changed } = answersChanged(amendment);
  const notes = since.flatMap(({ ref, version, deck }) =>
    deck.amendment === undefined ? [] : [{ ref, version, text: deck.amendment }],
  );
  const acknowledge = async () => {
    setBusy(true);
    try {
      await learner.append({ k: 'deck', deck: chosen.ref, state: 'seen' });
      go({ at: 'brief' }, 'instead');
    } catch {
      // `learner.problem` says so on the Brief, and tries again.
      setBusy(false);
    }
  };
  return (
    <Sheet
      title="What was amended"
      top={back}
      bar={
        <div class="bar">
          {isSeen ? (
            <a class="button wide" href="#/">
              To the Brief
            </a>
          ) : (
            <button
              type="button"
              class="main wide"
              disabled={busy || !learner.writing.value}
              onClick={() => void acknowledge()}
            >
              I have read this
            </button>
          )}
        </div>
      }
    >
      <p>
        <span class="mark">{NATURE_WORDS[chosen.deck.nature]}</span>
      </p>
      <p>
        {chosen.deck.title}, version {base.version} → {chosen.version}
      </p>
      {datesOf(learner, amendment).map((text) => (
        <p class="note warn" key={text}>
          {text}
        </p>
      ))}
      {notes.map(({ ref, version, text }) => (
        <div class="note" key={ref}>
          {notes.length > 1 && <p class="soft small">Version {version}</p>}
          <p>
            <Text text={text} />
          </p>
        </div>
      ))}
      {changed > 0 && (
        <p>
          {plural(changed, 'question')} of yours {changed === 1 ? 'has' : 'have'} another answer:{' '}
          {practised.stored === chosen.stored ? 'first' : 'once in force, first'} to read and first to be asked. All
          others keep what you know of them.
        </p>
      )}
      <Changes before={base.deck} after={chosen.deck} />
      <p class="soft small">If this differs from your current manual, the manual prevails: ask who made the deck.</p>
    </Sheet>
  );
}
