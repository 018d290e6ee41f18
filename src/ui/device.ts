import type { ClassDoor } from '../class/types.ts';
import type { Finding } from '../deck/findings.ts';
import type { NoSurvey, Survey, SurveyTask } from '../deck/survey/types.ts';
import type { Rows } from '../draft/paste/types.ts';
import type { Past, PastInput } from '../drill/past.ts';
import type { Fit } from '../memory/fit/fit-weights.ts';
import type { Advice, Outlook, OutlookAsk } from '../memory/outlook.ts';
import type { Plan, PlanInput } from '../memory/plan/types.ts';
import type { Outcome } from '../memory/types.ts';
import type { Assignment, ReadAssignment } from '../model/assignment.ts';
import type { Deck } from '../model/deck.ts';
import type { Store } from '../model/ports.ts';
import type { Report } from '../model/report.ts';
import type { Place, SecondDevice } from '../model/second-device.ts';
import type { Fingerprint, SignatureFound, Signer } from '../model/signing.ts';
import type { FactsData } from './models/facts.ts';

/** What screens and models need of the device; the composition root (src/app) brings it, tests may bring another. */
export interface Device {
  readonly build: { readonly version: string /** UTC ms */; readonly at: number };
  /** UTC ms. */
  now(): number;
  /** Minutes east of UTC at that moment, by the device's own zone. */
  off(at: number): number;
  /** 32 random bits. */
  seed(): number;
  /** Monotonic ms, for visible time. */
  elapsed(): number;
  /** Decks that come with the app. */
  demoDecks(): Promise<readonly DemoDeck[]>;
  demoText(deck: DemoDeck): Promise<string>;
  /** The checker, away from this thread. `today` is an ISO date; `stop` gives it up: it throws what `stop` says. */
  check(text: string, today: string, stop: AbortSignal): Promise<Checked>;
  /** Checker and survey of an open draft. @throws where its code cannot be had; `dispose` when the draft is closed */
  workshop(): Promise<WorkshopWorker>;
  /** SHA-256 of the canonical JSON of a deck's text, 64 hex. */
  contentId(text: string): Promise<string>;
  /**
   * Folds the whole log away from this thread; gives a checkpoint value and how many entries it holds.
   * @param how `tell`: answer of which is wanted what it did. `weights`: the learner's own, used unless the log says no
   */
  refold(
    store: Store,
    facts: FactsData,
    how?: { readonly tell?: string; readonly weights?: readonly number[] },
  ): Promise<{ readonly value: unknown; readonly entries: number; readonly outcome: Outcome | null }>;
  /** Goes once through the whole log, away from this thread. */
  lookBack(store: Store, input: Omit<PastInput, 'lines'>): Promise<Past>;
  /** Starts when first asked; `dispose` when done with. @throws where its code cannot be had */
  planner(): Promise<Planner>;
  /** A calendar file of some days (RFC 5545). @throws RangeError where a date, the time or the minutes make no sense */
  calendar(days: CalendarDays): Promise<string>;
  /** The learner's own weights of memory, worked out away from this thread. Throws an AbortError when `stop` gives up. */
  fit(store: Store, facts: FactsData, stop: AbortSignal): Promise<Fit>;
  /**
   * Takes a pasted text or a file apart: lines of a list, or rows of a table. What cannot be read is said in `findings`.
   * @param as what it is, where the author knows better
   */
  readRows(text: string, as?: Rows['kind']): Promise<Rows>;
  /** CSV (RFC 4180) of which no spreadsheet takes a cell for a formula; `readRows` gives the same rows back. */
  writeRows(rows: readonly (readonly string[])[]): Promise<string>;
  /** Hands a text file to the person: shared where the platform can, else saved. False when it was called off. */
  save(name: string, text: string): Promise<boolean>;
  /** Signatures and the keys that make them. @throws where their code cannot be had */
  signing(): Promise<Signing>;
  /** How a deck leaves the device. @throws where its code cannot be had */
  handing(): Promise<Handing>;
  /** Assignments as files and links. @throws where their code cannot be had */
  assigning(): Promise<Assigning>;
  /** The folder that this device exchanges with; one for a page. @throws where its code cannot be had */
  secondDevice(store: Store): Promise<SecondDevice>;
  /** QR code of a text (ISO/IEC 18004): rows of modules, true is dark; without a margin. */
  qrCode(text: string): Promise<readonly (readonly boolean[])[]>;
  /** Reports of trainees, on an instructor's device. @throws where its code cannot be had */
  classDoor(): Promise<ClassDoor>;
  /** The screen stays lit until what is given back is called, where the device can; again after it was out of sight. */
  wakeLock(): () => void;
  /** A buzz of so many ms; of several numbers the second, fourth … are pauses. null where the device has none. */
  readonly vibrate: ((ms: readonly number[]) => void) | null;
  readonly updates: Updates;
}

export interface Handing {
  /** Saves a file where the browser saves files. */
  download(name: string, text: string): void;
  /** Can other apps be given it? */
  canShare(): boolean;
  /** @returns false when it was called off */
  share(name: string, text: string): Promise<boolean>;
  /**
   * Puts it in a folder of the app's own server, never over another file.
   * @throws with words for people where it cannot
   */
  drop(place: Place, name: string, text: string): Promise<'put' | 'same' | 'other'>;
  /** To the clipboard. */
  copy(text: string): Promise<void>;
  /** Address that opens the app with the deck that lies at an https address. */
  linkTo(deck: string): string;
}

export interface Assigning {
  /** 128 random bits, base64url. */
  newId(): string;
  /** The file's text. */
  write(assignment: Assignment): string;
  read(text: string): ReadAssignment;
  /** The same of one that is being made. */
  check(value: unknown): ReadAssignment;
  /** Address that opens the app with it. */
  link(assignment: Assignment): Promise<string>;
  /**
   * Leaves this page for the one that may fetch from elsewhere; that one fetches and comes back with the assignment.
   * @throws where the browser lets nothing be kept on the way
   */
  fetchDecks(ask: FetchAsk): void;
  /** What it brought for this assignment, once; null where it was not there. */
  takeFetched(text: string): Fetched | null;
}

export interface FetchAsk {
  /** Of the assignment's file. */
  readonly text: string;
  readonly addresses: readonly string[];
  /** What the trainee ticked until then, by line. */
  readonly choices: Readonly<Record<string, boolean>>;
}

export interface Fetched {
  readonly choices: FetchAsk['choices'];
  /** By address: the text, not looked at, or words why there is none. */
  readonly decks: Readonly<Record<string, { readonly text: string } | { readonly why: string }>>;
}

/** Each call fails with an Error whose message is for people. */
export interface Signing {
  /** All signatures of a deck, in its order. @param deck the file's text, or what it says */
  verify(deck: string | object): Promise<readonly SignatureFound[]>;
  /** A new key, and the text of a file by which another device can have it, under the passphrase. */
  makeKey(passphrase: string): Promise<{ readonly key: OwnKey; readonly file: string }>;
  /** The key of such a file. */
  takeKey(file: string, passphrase: string): Promise<OwnKey>;
  /** The deck with this signature; older ones that no longer fit it are left out. */
  sign<D extends { readonly signatures?: readonly string[] }>(deck: D, key: OwnKey, signer: Signer): Promise<D>;
  /** A new key, which names this device in progress reports and never leaves it. */
  makeDeviceKey(): Promise<OwnKey>;
  /** The text of a report's file. */
  signReport(report: Report, key: OwnKey): Promise<string>;
}

/** A key of this device; it can be kept in the device's record, and not read out. */
export interface OwnKey {
  readonly privateKey: CryptoKey;
  /** Public key, base64url. */
  readonly x: string;
  /** As `SignatureFound` names it. */
  readonly key: string;
  readonly fingerprint: Fingerprint;
}

/** Checks a draft while it is written, away from this thread. */
export interface WorkshopWorker {
  /**
   * @param text the draft as JSON
   * @param today ISO calendar date
   * @param tell of what is found, at once and, where draws are still to be tried (`more`), again; not of an older draft
   */
  check(text: string, today: string, tell: (findings: readonly Finding[], more: boolean) => void): Promise<void>;
  /** @returns null where a later survey took its place */
  survey(text: string, task: SurveyTask): Promise<Survey | NoSurvey | null>;
  dispose(): void;
}

/** Works out plans away from this thread. Each call throws what its signal says, and a RangeError for senseless input. */
export interface Planner {
  plan(input: PlanInput, options?: PlannerOptions): Promise<Plan | null>;
  outlook(ask: OutlookAsk, options?: PlannerOptions): Promise<Outlook | null>;
  /** @param minutes a day, those of the plan */
  advice(ask: Pick<OutlookAsk, 'input' | 'plan'>, minutes: number, options?: PlannerOptions): Promise<Advice | null>;
  dispose(): void;
}

export interface PlannerOptions {
  readonly signal?: AbortSignal;
  /** Share done, 0..1. */
  readonly onProgress?: (done: number) => void;
}

export interface CalendarDays {
  /** ISO dates. */
  readonly days: readonly string[];
  /** Local time, "HH:MM". */
  readonly time: string;
  readonly minutes: number;
  readonly summary: string;
  readonly description: string;
  /** The same each time for the same learner and course: a later file then replaces the days of an earlier one. */
  readonly of: string;
  /** UTC ms. */
  readonly made: number;
}

export interface DemoDeck {
  readonly file: string;
  readonly id: string;
  readonly version: string;
  readonly title: string;
  /** Of the deck that the build held to the checker. */
  readonly contentId: string;
}

export interface Checked {
  /** Absent where a finding is an error. */
  readonly deck?: Deck;
  readonly findings: readonly Finding[];
}

/** Of src/app/update.ts, what screens use. */
export interface Updates {
  subscribe(
    listener: (state: { readonly waiting: boolean; readonly offlineReady: boolean; readonly stale: boolean }) => void,
  ): () => void;
  setBusy(busy: boolean): void;
  accept(): Promise<'reloading' | 'busy-here' | 'busy-elsewhere' | 'none'>;
  reload(): void;
}
