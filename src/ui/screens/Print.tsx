import { useMemo } from 'preact/hooks';
import type { Deck } from '../../model/deck.ts';
import type { Learner } from '../models/learner.ts';
import { Sheet } from '../parts/Sheet.tsx';
import { PrintDeck } from '../print/PrintDeck.tsx';

/** An installed deck on paper, practised or at rest. */
export function Print(props: { readonly learner: Learner; readonly deck: string }) {
  const { learner } = props;
  const all = learner.decks.value.filter(({ id }) => id === props.deck);
  const stored = all.find(({ active }) => active) ?? all.at(-1);
  const deck = useMemo(() => (stored === undefined ? null : (JSON.parse(stored.text) as Deck)), [stored]);
  return (
    <Sheet
      title="Print"
      top={
        <header class="top">
          <a class="button plain" href={`#/deck/${encodeURIComponent(props.deck)}`}>
            Back
          </a>
        </header>
      }
    >
      {deck === null ? <p>This deck is not on this device.</p> : <PrintDeck learner={learner} deck={deck} />}
    </Sheet>
  );
}
