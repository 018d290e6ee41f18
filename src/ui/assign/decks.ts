/** The decks of an assignment: which are here, which can be had and from where, and what of them is another one. */
import { compareVersions } from '../../deck/version.ts';
import { isoOfDay } from '../../lib/date-words.ts';
import type { AssignedDeck, Assignment } from '../../model/assignment.ts';
import type { Deck } from '../../model/deck.ts';
import type { StoredDeck } from '../../model/ports.ts';
import type { DemoDeck, Fetched } from '../device.ts';
import { type Judged, takeIn } from '../models/install.ts';
import type { Learner } from '../models/learner.ts';
import { judge, TrustProblem } from '../models/trust.ts';
import { plural } from '../words.ts';

/**
 * here: the revision assigned is practised. rest: it is on the device. app: it comes with the app. host: it can be fetched.
 * came: it was fetched. refused: it was, and must not be taken; or could not be. missing: nobody knows where it is.
 */
export type Where =
  | { readonly is: 'here' }
  | { readonly is: 'rest'; readonly stored: StoredDeck }
  /** `deck` for its words, where it could be had. */
  | { readonly is: 'app'; readonly demo: DemoDeck; readonly deck?: Deck }
  | { readonly is: 'host'; readonly address: string }
  | {
      readonly is: 'came';
      readonly judged: Judged;
      /** The content is what was assigned. */
      readonly exact: boolean;
    }
  /** `retry`: the address, where trying once more may help. */
  | { readonly is: 'refused'; readonly why: string; readonly retry?: string }
  | { readonly is: 'missing' };

export interface DeckLine {
  readonly assigned: AssignedDeck;
  readonly where: Where;
  /** What is practised under this id now, where it is another revision. */
  readonly instead: StoredDeck | null;
  /** In words. */
  readonly says: string;
  /** There is something to choose; `on` unless the trainee says otherwise. */
  readonly on: boolean | null;
  /** Looked at before it is taken: another revision, another signer, one never met. */
  readonly doubtful: boolean;
}

/** @param fetched what the page that fetches brought back, where it was asked */
export const deckLines = async (
  learner: Learner,
  assignment: Assignment,
  fetched: Fetched | null,
): Promise<readonly DeckLine[]> => {
  const demos = await learner.device.demoDecks().catch(() => []);
  const lines: DeckLine[] = [];
  for (const deck of assignment.decks) lines.push(await deckLine(learner, deck, demos, fetched));
  return lines;
};

const deckLine = async (
  learner: Learner,
  assigned: AssignedDeck,
  demos: readonly DemoDeck[],
  fetched: Fetched | null,
): Promise<DeckLine> => {
  const all = learner.decks.value.filter(({ id }) => id === assigned.id);
  const active = all.find((one) => one.active);
  const instead = active === undefined || active.contentId === assigned.contentId ? null : active;
  const where = await whereIs(learner, assigned, all, demos, fetched);
  const isNewer = instead === null || compareVersions(assigned.version, instead.version) >= 0;
  const line = { assigned, where, instead };
  const other = instead === null ? '' : ` Version ${instead.version} is practised now.`;
  const is = `Version ${assigned.version}`;
  switch (where.is) {
    case 'here':
      return { ...line, says: `${is}: here already.`, on: null, doubtful: false };
    case 'rest':
      return { ...line, says: `${is}: here, at rest.${other} It is practised.`, on: isNewer, doubtful: false };
    case 'app':
      return { ...line, says: `${is}: comes with the app.${other}`, on: isNewer, doubtful: false };
    case 'host': {
      const { host } = new URL(where.address);
      return { ...line, says: `${is}: fetched from ${host}.${other}`, on: isNewer, doubtful: false };
    }
    case 'came': {
      const { deck, trust } = where.judged;
      const isOther = trust.changed.length > 0;
      const isNew = trust.signatures.some(({ met }) => met === 'new' || met === 'namesake');
      const says = where.exact
        ? `${is}: fetched, and as assigned.${other}`
        : `Another revision than assigned: version ${deck.version} was fetched, ${assigned.version} is meant.${other} Take it only if your instructor says so.`;
      return { ...line, says, on: where.exact && !isOther && isNewer, doubtful: !where.exact || isOther || isNew };
    }
    case 'refused':
      return { ...line, says: `${is}: not taken. ${where.why}${other}`, on: null, doubtful: true };
    case 'missing':
      return {
        ...line,
        says: `${is}: missing. Ask for the file and open it in Recency.${other}`,
        on: null,
        doubtful: false,
      };
  }
};

const whereIs = async (
  learner: Learner,
  assigned: AssignedDeck,
  all: readonly StoredDeck[],
  demos: readonly DemoDeck[],
  fetched: Fetched | null,
): Promise<Where> => {
  const stored = all.find(({ contentId }) => contentId === assigned.contentId);
  if (stored !== undefined) return stored.active ? { is: 'here' } : { is: 'rest', stored };
  const demo = demos.find(({ contentId }) => contentId === assigned.contentId);
  if (demo !== undefined) {
    const text = await learner.device.demoText(demo).catch(() => null);
    return { is: 'app', demo, ...(text !== null && { deck: JSON.parse(text) as Deck }) };
  }
  const { address } = assigned;
  if (address === undefined) return { is: 'missing' };
  const got = fetched?.decks[address];
  if (got === undefined) return { is: 'host', address };
  return 'why' in got ? { is: 'refused', why: got.why, retry: address } : came(learner, assigned, all, got.text);
};

/** Checked and judged as any deck that comes in. */
const came = async (
  learner: Learner,
  assigned: AssignedDeck,
  all: readonly StoredDeck[],
  text: string,
): Promise<Where> => {
  const { device } = learner;
  try {
    const { deck, findings } = await device.check(text, isoOfDay(learner.today()), new AbortController().signal);
    if (deck === undefined) {
      const faults = findings.filter(({ severity }) => severity === 'error').length;
      return { is: 'refused', why: `What lies at its address is no deck as it stands: ${plural(faults, 'fault')}.` };
    }
    if (deck.id !== assigned.id)
      return { is: 'refused', why: `At its address lies another deck, “${deck.title}”. Tell your instructor.` };
    const contentId = await device.contentId(text);
    const rest = all.filter(({ active }) => !active);
    const trust = await judge(learner, text, contentId, [...rest, ...all.filter(({ active }) => active)]);
    return { is: 'came', judged: { deck, text, contentId, trust }, exact: contentId === assigned.contentId };
  } catch (error) {
    if (error instanceof TrustProblem) return { is: 'refused', why: error.message };
    return { is: 'refused', why: 'It could not be checked on this device. Try again once you are online.' };
  }
};

/**
 * Takes one deck into practice; nothing of it changes where it is here, missing or refused.
 * @throws Error with words for people
 */
export const takeDeck = async (learner: Learner, { where, assigned }: DeckLine): Promise<void> => {
  switch (where.is) {
    case 'rest':
      return learner.setActive(where.stored, true);
    case 'came':
      return void (await takeIn(learner, where.judged));
    case 'app': {
      const text = await learner.device.demoText(where.demo);
      const { id, contentId } = assigned;
      if ((await learner.device.contentId(text)) !== contentId)
        throw new Error('The deck that comes with the app is another one by now. Reload the page.');
      // Each build holds the decks that come with it to the checker.
      const { version, title, nature } = JSON.parse(text) as Deck;
      await learner.install({ id, version, title, nature, contentId, text });
      return;
    }
    case 'here':
    case 'host':
    case 'refused':
    case 'missing':
      return;
  }
};
