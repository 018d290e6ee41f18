import { signal } from '@preact/signals';
import { compareVersions } from '../../deck/version.ts';
import { isoOfDay } from '../../lib/date-words.ts';
import type { Deck } from '../../model/deck.ts';
import type { StoredDeck } from '../../model/ports.ts';
import type { DemoDeck } from '../device.ts';
import { joined } from './joined.ts';
import type { Learner } from './learner.ts';
import { judge, NO_TRUST, rememberSigners, signersOf, type Trust, TrustProblem } from './trust.ts';

export interface Told {
  readonly severity: 'error' | 'warning' | 'hint';
  /** Line and column for unreadable text, else the JSON Pointer. */
  readonly where: string;
  readonly text: string;
}

/** A deck on its way in: nothing of what is installed changes before `accept`. */
export type Incoming =
  | { readonly step: 'none' }
  | { readonly step: 'checking'; readonly name: string }
  | {
      readonly step: 'refused';
      readonly name: string;
      readonly findings: readonly Told[] /** As in `TrustProblem`. */;
      readonly own?: boolean;
    }
  | {
      readonly step: 'ask';
      readonly name: string;
      /** Where it came from, when it came by a link. */
      readonly from: string | null;
      readonly text: string;
      readonly deck: Deck;
      readonly contentId: string;
      readonly findings: readonly Told[];
      /** The revision practised now. */
      readonly before: StoredDeck | null;
      readonly same: boolean;
      readonly older: boolean;
      /** Who signed it, and how that fits what is known here. */
      readonly trust: Trust;
      /** It came with the app. */
      readonly shipped: boolean;
    }
  /** Not a deck: what an instructor set. `src/ui/assign` reads it. */
  | { readonly step: 'assignment'; readonly name: string; readonly text: string }
  /** What a trainee reports. The class table opens it. */
  | { readonly step: 'report'; readonly name: string; readonly text: string }
  /** What a device saved of practice. Not read here: it may be larger than any deck. */
  | { readonly step: 'copy'; readonly name: string; readonly file: Blob }
  | { readonly step: 'failed'; readonly name: string; readonly why: string };

/** Module state: the file picker, the link page and the demo list all lead to the same screen. */
export const incoming = signal<Incoming>({ step: 'none' });

/** What is being checked; a deck that comes after it takes its place. */
let running: AbortController | null = null;

/** @returns a signal that gives up whatever was begun before */
const begin = (name: string): AbortSignal => {
  running?.abort();
  running = new AbortController();
  incoming.value = { step: 'checking', name };
  return running.signal;
};

/** Gives up a check under way. What is installed is as it was. */
export const stopChecking = (): void => {
  running?.abort();
  running = null;
  incoming.value = { step: 'none' };
};

/** Says why something that came is not even looked at. */
export const refuse = (name: string, why: string): void => {
  stopChecking();
  incoming.value = { step: 'failed', name, why };
};

/** More than the checker takes; files beyond are not even read. */
const MOST_BYTES = 8_000_000;
/** Bytes in which the first line of a saved copy ends. */
const HEAD = 1000;

export const takeFile = async (learner: Learner, file: File): Promise<void> => {
  const stop = begin(file.name);
  const text = await (file.size > MOST_BYTES ? file.slice(0, HEAD) : file).text();
  if (stop.aborted) return;
  if (isCopy(text, file.name)) incoming.value = { step: 'copy', name: file.name, file };
  else if (file.size > MOST_BYTES)
    refuse(
      file.name,
      `This file has ${Math.round(file.size / 1e6)} MB. A deck has at most 2 MB: is it the right file?`,
    );
  else await takeText(learner, text, file.name);
};

export const takeDemo = async (learner: Learner, demo: DemoDeck): Promise<void> => {
  const stop = begin(demo.title);
  try {
    const text = await learner.device.demoText(demo);
    if (!stop.aborted) await takeText(learner, text, demo.title, null, demo.contentId);
  } catch {
    if (!stop.aborted)
      incoming.value = { step: 'failed', name: demo.title, why: 'The deck could not be loaded. Are you online?' };
  }
};

/**
 * @param from where it came from, when it came by a link
 * @param shipped content id of a deck that came with the app: the tests of every build hold it to the checker, which
 * takes seconds on a small phone, so the same deck is not checked again
 */
export const takeText = async (
  learner: Learner,
  text: string,
  name: string,
  from: string | null = null,
  shipped?: string,
): Promise<void> => {
  const stop = begin(name);
  if (isCopy(text, name)) {
    incoming.value = { step: 'copy', name, file: new Blob([text]) };
    return;
  }
  if (isAssignment(text, name)) {
    incoming.value = { step: 'assignment', name, text };
    return;
  }
  if (isReport(text, name)) {
    incoming.value = { step: 'report', name, text };
    return;
  }
  const { device } = learner;
  try {
    const today = isoOfDay(learner.today());
    const known = shipped !== undefined && (await device.contentId(text).catch(() => '')) === shipped;
    const { deck, findings } = known
      ? { deck: JSON.parse(text) as Deck, findings: [] }
      : await device.check(text, today, stop);
    if (stop.aborted) return;
    // Whoever checks a deck has these words at hand; most decks need none of them.
    const { messageOf } = findings.length > 0 ? await import('../../deck/messages.ts') : { messageOf: () => '' };
    if (stop.aborted) return;
    const told = findings.map(
      (finding): Told => ({
        severity: finding.severity,
        where:
          finding.line === undefined
            ? finding.path === ''
              ? 'the deck'
              : finding.path
            : `line ${finding.line}, column ${finding.column ?? 1}`,
        text: messageOf(finding),
      }),
    );
    if (deck === undefined) {
      incoming.value = { step: 'refused', name, findings: told };
      return;
    }
    const contentId = await device.contentId(text);
    if (stop.aborted) return;
    const all = learner.decks.value.filter(({ id }) => id === deck.id);
    const before = all.find(({ active }) => active) ?? all.at(-1) ?? null;
    const same =
      before?.contentId === contentId &&
      before.active &&
      (deck.signatures ?? []).every((signature) => signaturesIn(before.text).includes(signature));
    const rest = all.filter((one) => one !== before);
    const trust = same
      ? { ...NO_TRUST, signatures: await signersOf(learner, before) }
      : await judge(learner, text, contentId, before === null ? [] : [...rest, before]);
    if (stop.aborted) return;
    incoming.value = {
      step: 'ask',
      name,
      from,
      text,
      deck,
      contentId,
      findings: told,
      before,
      same,
      trust,
      shipped: known,
      older: before !== null && compareVersions(deck.version, before.version) < 0,
    };
  } catch (error) {
    if (stop.aborted) return;
    if (error instanceof TrustProblem)
      incoming.value = {
        step: 'refused',
        name,
        findings: [{ severity: 'error', where: error.where, text: error.message }],
        own: error.own,
      };
    else incoming.value = { step: 'failed', name, why: error instanceof Error ? error.message : String(error) };
  }
};

/** By what it says of itself, or where too little of it arrived by its name. No deck holds these words unescaped. */
const isAssignment = (text: string, name: string): boolean =>
  /"recency"\s*:\s*"assignment"/.test(text) || /\.assignment\.(json|txt)$/i.test(name);

/** By the head of its signature, `{"alg":` in base64url, which is no JSON; where that is damaged by its name. */
const isReport = (text: string, name: string): boolean => /^\s*eyJhbGciOi/.test(text) || /\.report\.txt$/i.test(name);

/** By its first line, or where that did not arrive by its name. */
const isCopy = (text: string, name: string): boolean =>
  /^\s*\{.*"recency"\s*:\s*"copy"/.test(text.slice(0, HEAD)) || /^recency-copy-.*\.txt$/i.test(name);

/** A report that came in, once: whoever takes it opens it. */
export const takeReport = (): File | null => {
  const now = incoming.value;
  if (now.step !== 'report') return null;
  incoming.value = { step: 'none' };
  return new File([now.text], now.name);
};

const signaturesIn = (text: string): readonly string[] => (JSON.parse(text) as Partial<Deck>).signatures ?? [];

/** A deck that was checked and judged. */
export interface Judged {
  readonly deck: Deck;
  readonly text: string;
  readonly contentId: string;
  readonly trust: Trust;
}

/** @throws StoreProblem */
export const takeIn = async (learner: Learner, came: Judged): Promise<StoredDeck> => {
  const { deck, contentId } = came;
  const { id, version, title, nature } = deck;
  // Of one content: whoever signed it here before has signed it still.
  const twin = learner.decks.value.find((one) => one.id === id && one.contentId === contentId);
  const text = twin === undefined ? came.text : joined(twin.text, came.text);
  const stored = await learner.install({ id, version, title, nature, contentId, text });
  // Not kept, they are asked about once more.
  await rememberSigners(learner.store, came.trust.signatures, learner.device.now()).catch(() => undefined);
  return stored;
};

/** @throws StoreProblem */
export const accept = async (learner: Learner): Promise<StoredDeck | null> => {
  const now = incoming.value;
  if (now.step !== 'ask') return null;
  const stored = await takeIn(learner, now);
  incoming.value = { step: 'none' };
  return stored;
};
