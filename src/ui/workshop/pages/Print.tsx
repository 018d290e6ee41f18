import { useEffect, useMemo, useState } from 'preact/hooks';
import { readValue } from '../../../deck/read.ts';
import type { Deck } from '../../../model/deck.ts';
import type { Learner } from '../../models/learner.ts';
import { PrintDeck } from '../../print/PrintDeck.tsx';
import type { DraftModel } from '../model/draft.ts';
import type { PageProps } from '../PageOf.tsx';
import { handedOver, handedWords } from '../revisions.ts';

/** The draft on paper, for whoever checks it with a pencil. */
export function Print({ learner, draft, live }: PageProps) {
  const value = draft.value.value;
  const deck = useMemo(() => readValue(value).deck, [value]);
  const state = useHanded(learner, draft, deck);
  const isBroken = live.found.value.findings.some(({ severity }) => severity === 'error');
  if (deck === undefined || isBroken)
    return <p class="note">Something in the draft must be mended before it can be printed: the contents mark it.</p>;
  return (
    <>
      <p class="note">{state}</p>
      <PrintDeck learner={learner} deck={deck} />
    </>
  );
}

/** Whether it is what was handed over, in words; '' until that is known. */
const useHanded = (learner: Learner, draft: DraftModel, deck: Deck | undefined): string => {
  const [ref, setRef] = useState<string | null>(null);
  useEffect(() => {
    setRef(null);
    if (deck === undefined) return;
    let left = false;
    learner.device.contentId(JSON.stringify(deck)).then(
      (id) => left || setRef(`${deck.id}@${id.slice(0, 16)}`),
      () => left || setRef(''),
    );
    return () => {
      left = true;
    };
  }, [learner, deck]);
  const handed = handedOver(draft);
  return ref === null ? '' : handedWords(handed, learner.decks.value, ref);
};
