import { olderFirst } from '../../deck/amend.ts';
import { valueAt } from '../../draft/change.ts';
import { canonicalJson, type Json } from '../../lib/canonical-json.ts';
import type { StoredDeck } from '../../model/ports.ts';
import type { DraftModel } from './model/draft.ts';

type Begun = Pick<DraftModel, 'value' | 'base' | 'made' | 'side'>;

/** Where a draft keeps what it was when it was handed over. */
const HANDED = 'handed-over';

export interface Handed {
  /** `<deck id>@<16 hex of content id>`, as of a stored revision. */
  readonly ref: string;
  readonly version: string;
  /** It went no further than this device: to be practised here, if it was taken in. */
  readonly here?: true;
}

const isHanded = (one: unknown): one is Handed =>
  typeof one === 'object' &&
  one !== null &&
  typeof (one as Handed).ref === 'string' &&
  typeof (one as Handed).version === 'string';

/** What the draft was each time it was handed over, the first first. */
export const handedOver = ({ side }: Pick<Begun, 'side'>): readonly Handed[] => {
  const kept = side.value[HANDED];
  return Array.isArray(kept) ? kept.filter(isHanded) : [];
};

/** Once it is installed here, the draft goes on from it. */
export const rememberHanded = (draft: Pick<DraftModel, 'side' | 'putSide'>, one: Handed): void => {
  const before = handedOver(draft);
  const same = before.find(({ ref }) => ref === one.ref);
  // What left this device once stays out.
  const kept = same !== undefined && same.here === undefined ? same : one;
  draft.putSide(HANDED, [...before.filter((other) => other !== same), kept]);
};

/**
 * Whether a draft is what was handed over, in words.
 * @param ref as the draft is now
 */
export const handedWords = (
  handed: readonly Handed[],
  decks: readonly Pick<StoredDeck, 'ref' | 'version'>[],
  ref: string,
): string => {
  const same = handed.find((one) => one.ref === ref);
  if (same !== undefined && same.here === undefined) return `As it was handed over as version ${same.version}.`;
  const installed = decks.find((one) => one.ref === ref);
  const last = handed.filter(({ here }) => here === undefined).at(-1);
  return [
    'A draft: ',
    installed === undefined ? '' : `as version ${installed.version} on this device; `,
    last === undefined ? 'not handed over yet.' : `changed since version ${last.version} was handed over.`,
  ].join('');
};

/** Refs of what a draft goes on from: what it began from, and what it was when it was handed over. */
const ownRefs = (draft: Pick<Begun, 'base' | 'side'>): ReadonlySet<string | null> =>
  new Set([draft.base.value, ...handedOver(draft).map(({ ref }) => ref)]);

/** The newest revision here that the draft goes on from; null: it was begun from none that is here. */
export const begunFrom = (decks: readonly StoredDeck[], draft: Pick<Begun, 'base' | 'side'>): StoredDeck | null => {
  const own = ownRefs(draft);
  return (
    decks
      .filter(({ ref }) => own.has(ref))
      .sort(olderFirst)
      .at(-1) ?? null
  );
};

/** Of the deck that a draft will be, or began from; newest first. */
export const revisionsOf = (
  decks: readonly StoredDeck[],
  draft: Pick<Begun, 'value' | 'base'>,
): readonly StoredDeck[] => {
  const id = valueAt(draft.value.value, '/id');
  const begun = decks.find(({ ref }) => ref === draft.base.value);
  return decks.filter((one) => one.id === id || one.id === begun?.id).sort((a, b) => b.installed - a.installed);
};

/** The last that came while the draft was written, but for what the draft itself was; null: none did. */
export const installedSince = (decks: readonly StoredDeck[], draft: Begun): StoredDeck | null => {
  const [last] = revisionsOf(decks, draft);
  return last === undefined || ownRefs(draft).has(last.ref) || last.installed <= draft.made ? null : last;
};

/** The newest revision of the draft's deck here, where the draft neither goes on from it nor says the same; else null. */
export const missedBy = (decks: readonly StoredDeck[], draft: Begun): StoredDeck | null => {
  const value = draft.value.value;
  const id = valueAt(value, '/id');
  const newest = decks
    .filter((one) => one.id === id)
    .sort(olderFirst)
    .at(-1);
  return newest === undefined || ownRefs(draft).has(newest.ref) || isSame(newest, value) ? null : newest;
};

/** Where a draft keeps the ref of the revision that its author put it above, knowing that it was not begun from it. */
const ABOVE = 'put-above';

export const isPutAbove = ({ side }: Pick<Begun, 'side'>, { ref }: StoredDeck): boolean => side.value[ABOVE] === ref;
export const putAbove = (draft: Pick<DraftModel, 'putSide'>, one: StoredDeck | null): void =>
  draft.putSide(ABOVE, one?.ref);

/** Says the draft the same, whoever signed either? */
export const isSame = (stored: StoredDeck, value: Json): boolean => {
  const [before, now] = [JSON.parse(stored.text) as Json, value].map((one) =>
    canonicalJson({ ...(one as object), signatures: null }),
  );
  return before === now;
};

/**
 * Says the draft the same but for the note for the learner, which a new draft begins without? Whoever signed it signed
 * the note as well.
 */
export const lacksNoteAlone = (stored: StoredDeck, value: Json): boolean => {
  const { amendment } = JSON.parse(stored.text) as { readonly amendment?: Json };
  if (amendment === undefined || valueAt(value, '/amendment') !== undefined) return false;
  return isSame(stored, { ...(value as object), amendment });
};

/** How the address of the page that compares names a revision: the end of its ref, which holds no slash. */
export const markOf = ({ ref }: StoredDeck): string => ref.slice(ref.lastIndexOf('@') + 1);
