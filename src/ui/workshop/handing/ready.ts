import { compareDecks } from '../../../deck/compare/compare.ts';
import { type Proposal, proposeVersion } from '../../../deck/compare/rise.ts';
import type { Finding } from '../../../deck/findings.ts';
import { layOut } from '../../../deck/layout.ts';
import { readValue } from '../../../deck/read.ts';
import { valueAt } from '../../../draft/change.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import type { Deck } from '../../../model/deck.ts';
import type { StoredDeck } from '../../../model/ports.ts';
import type { SignatureFound } from '../../../model/signing.ts';
import type { KeptKey } from '../../models/trust.ts';
import { plural } from '../../words.ts';
import type { DraftModel } from '../model/draft.ts';
import { begunFrom, missedBy } from '../revisions.ts';

/**
 * The revision against which the version of a draft must rise: the newest here, where the draft does not go on from it;
 * else the one that it goes on from, or the last of that id here.
 */
export const revisionBefore = (
  decks: readonly StoredDeck[],
  draft: Pick<DraftModel, 'value' | 'base' | 'made' | 'side'>,
): StoredDeck | null => {
  const own = decks.filter((one) => one.id === valueAt(draft.value.value, '/id'));
  return missedBy(decks, draft) ?? begunFrom(decks, draft) ?? own.find(({ active }) => active) ?? own.at(-1) ?? null;
};

/** What a draft changed against a revision. */
interface Changed extends Proposal {
  readonly before: Deck;
  /** An answer is another one. */
  readonly answers: boolean;
}

/** Null where there is nothing to compare with, or it cannot be compared. */
export const proposalFor = (before: StoredDeck | null, deck: Deck): Changed | null => {
  if (before === null) return null;
  try {
    const old = JSON.parse(before.text) as Deck;
    const comparison = compareDecks(old, deck);
    const answers = comparison.differences.some(({ kind }) => kind === 'answer');
    return { ...proposeVersion(old.version, deck.version, comparison), before: old, answers };
  } catch {
    // A draft that the checker refuses: that is said elsewhere.
    return null;
  }
};

/**
 * Why the draft cannot be handed over as it stands; null where it can.
 * @param unticked what it would take the place of though it was not begun from it, unless the author says so
 */
export const hindrance = (
  value: Json,
  found: { readonly findings: readonly Finding[]; readonly checking: boolean },
  proposal: Proposal | null,
  unticked: StoredDeck | null = null,
): string | null => {
  const errors = found.findings.filter(({ severity }) => severity === 'error').length;
  if (errors > 0) return `${plural(errors, 'fault')} must be mended first: the contents mark where.`;
  if (found.checking) return 'The checker is still looking at what was changed last.';
  if (readValue(value).deck === undefined)
    return 'The draft is not yet in the shape of a deck: the contents mark where.';
  if (unticked !== null)
    return `Version ${unticked.version} is newer than what this draft was begun from: say above what is to be done.`;
  return proposal?.problem ?? null;
};

/**
 * Why a signed draft cannot be handed over by this browser: it would go without signatures that may still fit.
 * @param found null where what checks signatures could not be loaded, or failed
 */
export const signaturesHinder = (found: readonly SignatureFound[] | null): string | null => {
  if (found === null)
    return 'The signatures of this draft could not be checked, and it is not handed over without them: the part of the app for it could not be loaded. Go online, then reload this page.';
  if (found.every(({ valid }) => valid !== 'unknown')) return null;
  return 'This browser cannot tell whether the signatures still fit. Update it, or hand the deck over in a newer one; else leave the signatures out.';
};

/** The name that the key of this device last signed with, or by which it signed what the draft goes on from; else ''. */
export const signingName = (key: Pick<KeptKey, 'key' | 'name'> | null, found: readonly SignatureFound[]): string =>
  key === null ? '' : key.name || (found.filter((one) => one.key === key.key).at(-1)?.name ?? '');

/**
 * Who signed what the draft follows, where it would go out without any signature: a device that holds the signed version
 * takes no unsigned one in its place. Empty where it is signed, or nothing before it was.
 * @param found what the draft has of signatures, those among them that no longer fit
 * @param here of the last signed version on this device
 */
export const refusedFor = (
  found: readonly SignatureFound[],
  here: readonly Pick<SignatureFound, 'name'>[],
): readonly string[] =>
  found.some(({ valid }) => valid !== false) ? [] : [...new Set([...here, ...found].map(({ name }) => name))];

/** "merrow-takeoff-1.2.0.deck.json" */
export const fileName = ({ id, version }: Deck): string => `${id.split('/')[1] ?? id}-${version}.deck.json`;

/** The file's text, with those signatures alone that fit the deck as it is now. */
export const fileText = (deck: Deck, found: readonly SignatureFound[]): string => {
  const { signatures = [], ...content } = deck;
  const fitting = signatures.filter((_, i) => found[i]?.valid === true);
  return layOut((fitting.length === 0 ? content : { ...content, signatures: fitting }) as unknown as Json);
};

/** The deck's address as it may stand in a link; words where it may not. */
export const deckAddress = (written: string): { readonly url: string } | { readonly problem: string } => {
  let url: URL;
  try {
    url = new URL(written.trim());
  } catch {
    return { problem: 'Write the whole address, from https:// to the end of the file name.' };
  }
  if (url.protocol !== 'https:')
    return { problem: 'The address must begin with https://: decks are fetched in no other way.' };
  if (url.username !== '' || url.password !== '') return { problem: 'Leave name and password out of the address.' };
  url.hash = '';
  return { url: url.href };
};
