import { useMemo } from 'preact/hooks';
import { readValue } from '../../../deck/read.ts';
import { PrintDeck } from '../../print/PrintDeck.tsx';
import type { PageProps } from '../PageOf.tsx';

/** The draft on paper, for whoever checks it with a pencil. */
export function Print({ learner, draft, live }: PageProps) {
  const value = draft.value.value;
  const deck = useMemo(() => readValue(value).deck, [value]);
  const isBroken = live.found.value.findings.some(({ severity }) => severity === 'error');
  if (deck === undefined || isBroken)
    return <p class="note">Something in the draft must be mended before it can be printed: the contents mark it.</p>;
  return (
    <>
      <p class="note">A draft: not handed over yet.</p>
      <PrintDeck learner={learner} deck={deck} />
    </>
  );
}
