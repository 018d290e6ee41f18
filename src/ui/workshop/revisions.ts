import { valueAt } from '../../draft/change.ts';
import { canonicalJson, type Json } from '../../lib/canonical-json.ts';
import type { StoredDeck } from '../../model/ports.ts';
import type { DraftModel } from './model/draft.ts';

type Begun = Pick<DraftModel, 'value' | 'base' | 'made'>;

/** Of the deck that a draft will be, or began from; newest first. */
export const revisionsOf = (decks: readonly StoredDeck[], { value, base }: Begun): readonly StoredDeck[] => {
  const id = valueAt(value.value, '/id');
  const begun = decks.find(({ ref }) => ref === base.value);
  return decks.filter((one) => one.id === id || one.id === begun?.id).sort((a, b) => b.installed - a.installed);
};

/** The last that came while the draft was written, from elsewhere or from the draft itself; null: none did. */
export const installedSince = (decks: readonly StoredDeck[], draft: Begun): StoredDeck | null => {
  const [last] = revisionsOf(decks, draft);
  return last === undefined || last.ref === draft.base.value || last.installed <= draft.made ? null : last;
};

/** Says the draft the same, whoever signed either? */
export const isSame = (stored: StoredDeck, value: Json): boolean => {
  const [before, now] = [JSON.parse(stored.text) as Json, value].map((one) =>
    canonicalJson({ ...(one as object), signatures: null }),
  );
  return before === now;
};

/** How the address of the page that compares names a revision: the end of its ref, which holds no slash. */
export const markOf = ({ ref }: StoredDeck): string => ref.slice(ref.lastIndexOf('@') + 1);
