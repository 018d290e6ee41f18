/**
 * What the app asks of the device: decks, practice log, checkpoint, drill state, settings of this device. Types only;
 * src/store keeps them in IndexedDB, src/journal outside it, and the composition root puts both together.
 */
import type { Nature } from './deck.ts';
import type { Entry, NewEntry, UnknownEntry } from './entry.ts';

/** A line of the log once read: a newer version of the app may have written kinds that this one does not know. */
export type AnyEntry = Entry | UnknownEntry;

/** One revision of a deck. Revisions are never deleted: entries cite them. */
export interface StoredDeck {
  /** `<deck id>@<first 16 hex of content id>`, what log entries cite. */
  readonly ref: string;
  readonly id: string;
  readonly version: string;
  readonly title: string;
  readonly nature: Nature;
  /** SHA-256 of the canonical JSON, 64 hex. */
  readonly contentId: string;
  /** The authored file. */
  readonly text: string;
  /** UTC ms at which this revision first came to this device. */
  readonly installed: number;
  /** Practised now. At most one revision of an id is. */
  readonly active: boolean;
}

export type NewDeck = Omit<StoredDeck, 'ref' | 'installed' | 'active'>;

/** A deck that is being written: kept at every change, never asked, never in the practice log. */
export interface StoredDraft {
  /** Its own, given by this device; the deck's id may change while it is written. */
  readonly id: string;
  /** Rises by one with each change: two tabs never overwrite each other unseen. */
  readonly seq: number;
  /** UTC ms. */
  readonly made: number;
  readonly changed: number;
  /** JSON in the shape of a deck, perhaps not yet a right one. */
  readonly value: unknown;
  /** What can be taken back, and done again; src/draft knows its shape. */
  readonly history: unknown;
  /** What goes with the draft and not into the deck, such as a revision sheet half done. */
  readonly side: Readonly<Record<string, unknown>>;
  /** The revision that it began from. */
  readonly base: string | null;
}

/** @returns of `put`: `there`, what is stored where another tab was faster, and nothing was written */
export interface Drafts {
  /** Latest first. Those that the database has lost come back from their second copy. */
  list(): Promise<StoredDraft[]>;
  get(id: string): Promise<StoredDraft | null>;
  /** Written strictly. @param before `seq` that it was changed from, 0 for a new one. @throws StoreProblem */
  put(draft: StoredDraft, before: number): Promise<'kept' | { readonly there: StoredDraft | null }>;
  /** For good, with its second copy. @throws StoreProblem: it is still there then */
  remove(id: string): Promise<void>;
}

/** A second place for drafts, outside the database. */
export interface DraftCopies {
  put(draft: StoredDraft): Promise<void>;
  remove(id: string): Promise<void>;
  /** Those that are whole. */
  list(): Promise<StoredDraft[]>;
}

/**
 * What was found at the start. `new`: nothing was ever kept here, as far as can be known. `there`: as it was left.
 * `recovered`: the browser had lost the database; decks and entries came back from the journal. `lost`: it had, and
 * nothing could be brought back. For the last two `note` says so to the learner and must be shown.
 */
export interface Opened {
  readonly status: 'new' | 'there' | 'recovered' | 'lost';
  /** Entries in the log now. */
  readonly entries: number;
  readonly note?: string;
}

/**
 * `full`: no room on the device. `closed`: the connection to the database was lost and could not be had again.
 * `newer`: a newer version of the app has changed the database; reload. `other-tab`: another tab writes (see `lock`).
 * `missing`: this browser has no database, or forbids it (some private windows). `unknown`: all else.
 */
export type StoreFault = 'full' | 'closed' | 'newer' | 'other-tab' | 'missing' | 'unknown';

/** Every promise of the store that fails, fails with one of these. */
export interface StoreProblem extends Error {
  readonly name: 'StoreProblem';
  readonly fault: StoreFault;
  /** For the learner: what is the matter and what to do. */
  readonly message: string;
}

/** What a union did. */
export interface MergeReport {
  /** Entries that were not here before. */
  readonly added: number;
  /** Answers among them, and the study days on which these were given. */
  readonly answers: number;
  readonly days: number;
  /** Entries that were here already, byte for byte. */
  readonly doubled: number;
  /** Two different entries under one id (a copied phone): both are kept. */
  readonly clashes: number;
  /** Entries of kinds that this version of the app does not know: kept, not counted. */
  readonly unknown: number;
}

export interface BadLine {
  /** From 1. */
  readonly line: number;
  /** For people. */
  readonly why: string;
}

export interface ImportReport extends MergeReport {
  /** Decks that were not here before. */
  readonly decks: number;
  /** Lines that could not be read; all others were taken in. At most 100; `badLines` counts all. */
  readonly bad: readonly BadLine[];
  readonly badLines: number;
  /** false: the file ends too early; what it held was taken in. */
  readonly complete: boolean;
}

/** Share of the work done, 0..1. */
export type Progress = (done: number) => void;

export interface Resume {
  /** What was put last. */
  readonly value: unknown;
  /** Entries folded into `value`. */
  readonly entries: number;
  /** Entries that this tab's database took in since, in the order of writing; with the clock set back, not in order of time. */
  readonly tail: readonly AnyEntry[];
}

export interface Store {
  readonly opened: Opened;
  /** Writer id of this database: 64 random bits in base 32. New after a recovery and after an import into an empty log. */
  readonly writer: string;
  readonly decks: {
    /** All revisions, in the order of their installing; `active` tells which are practised. */
    list(): Promise<StoredDeck[]>;
    /** Makes this revision the active one of its id. Putting one that is there is no error. */
    put(deck: NewDeck): Promise<StoredDeck>;
    /** `false` takes a deck out of practice; `true` makes it the active revision of its id. */
    setActive(ref: string, active: boolean): Promise<void>;
  };
  readonly drafts: Drafts;
  readonly log: {
    /**
     * Gives the entry its id, `v` and `app`, and writes it in one strict transaction.
     * @returns once it is safely stored ("complete"); the journal follows by itself
     * @throws StoreProblem: the entry is then kept in `unsaved`
     */
    append(entry: NewEntry): Promise<Entry>;
    /** Entries that could not be written, oldest first. They are gone when the page is. */
    readonly unsaved: readonly NewEntry[];
    /** Writes what is in `unsaved`. @throws StoreProblem when it still cannot be written */
    retry(): Promise<Entry[]>;
    /** Entries in the log. */
    count(): Promise<number>;
    /** UTC ms of the latest entry, as its device said; null when there is none. */
    lastAt(): Promise<number | null>;
    /**
     * All lines, some hundred at a time, those not sealed yet first; `readLine` of src/log reads them.
     * @param onChunk waited for; where it gives false no more are read
     */
    all(onChunk: (lines: readonly string[]) => unknown): Promise<void>;
    /** Union by id. When something is added the checkpoint is void: fold anew. Lines that cannot be read throw a RangeError. */
    merge(lines: readonly string[], onProgress?: Progress): Promise<MergeReport>;
  };
  /** The fold of the whole log at some entry: one record for all decks. */
  readonly checkpoint: {
    /**
     * The last checkpoint and what was appended after it, in one read. Null where there is none, and after a merge that
     * added something: then fold everything anew (`log.all`). A void's refold of the tail starts from here too.
     */
    get(): Promise<Resume | null>;
    /**
     * @param checkpoint `entries`: how many are folded in, of whatever kind, that is `Resume.entries` + tail + those
     *   appended since. A value that a merge has overtaken, or that holds entries not yet stored, is silently not kept.
     */
    put(checkpoint: { readonly value: unknown; readonly entries: number }): Promise<void>;
  };
  /** The drill under way: one record. The app knows its shape. */
  readonly drill: {
    get(): Promise<unknown>;
    /** Never waits and never fails: of several in a row the last is written. */
    put(session: unknown): void;
    clear(): Promise<void>;
  };
  /** Of this device alone, never exported: theme and such. Structured-cloneable values; undefined when never put. */
  readonly device: {
    get(key: string): Promise<unknown>;
    put(key: string, value: unknown): Promise<void>;
  };
  /** Everything as one text file (JSON lines): header, decks, entries, end. */
  exportAll(onProgress?: Progress): Promise<string>;
  /** Union with what is here; twice is once. @throws StoreProblem, or RangeError where the text is no such file at all */
  importAll(text: string, onProgress?: Progress): Promise<ImportReport>;
  /** Asks the browser never to clear the data by itself. */
  persist(): Promise<'granted' | 'denied' | 'unsupported'>;
  persisted(): Promise<boolean>;
  /** Whether answers are kept a second time outside the database; `none`: a saved copy matters the more. */
  journal(): Promise<'opfs' | 'none'>;
  /** Another tab wrote to the log, the decks or the drill. @returns how to stop */
  changed(listener: () => void): () => void;
  readonly lock: {
    /** `held`: this tab writes. `other`: another does, this one reads. `unsupported`: the browser cannot tell; it writes. */
    readonly state: 'held' | 'other' | 'unsupported';
    /** "Continue here": this tab writes from now on, the other is told. Read log, checkpoint and drill again after it. */
    takeOver(): Promise<void>;
    /** Another tab took over. @returns how to stop */
    onLost(listener: () => void): () => void;
  };
  /**
   * Seals old days of the log into segments and brings journal and database level. Call at leisure: once the first
   * screen stands, and after a drill.
   */
  tidy(): Promise<void>;
  close(): Promise<void>;
}

/** A second place for entries and decks, outside the database. Held by the tab that holds the lock. */
export interface Journal {
  readonly kind: 'opfs' | 'none';
  /** Appended and flushed at once; failures are kept to itself and made good by `replace` at the next `tidy`. */
  append(lines: readonly string[]): void;
  deck(deck: StoredDeck): void;
  /** What `read` would give, in numbers. */
  count(): Promise<{ readonly entries: number; readonly decks: number; readonly damaged: number }>;
  /** All that is whole in it; torn or damaged lines are left out. */
  read(): Promise<JournalContent>;
  /** Writes it anew. Until that is finished the old content stands. Failures as with `append`. */
  replace(content: Omit<JournalContent, 'damaged'>): Promise<void>;
  /** Resolves when all that was appended before is flushed or has failed. */
  settled(): Promise<void>;
  close(): Promise<void>;
}

export interface JournalContent {
  /** Entry lines, each once, in the order in which they were written. */
  readonly lines: readonly string[];
  /** The last state of each revision. */
  readonly decks: readonly StoredDeck[];
  /** Lines dropped. */
  readonly damaged: number;
}

/** What a saved copy holds. */
export interface SavedCopy {
  readonly decks: readonly StoredDeck[];
  /** Entry lines. */
  readonly lines: readonly string[];
}

export interface ReadCopy extends SavedCopy {
  readonly bad: readonly BadLine[];
  readonly badLines: number;
  readonly complete: boolean;
}

/** The file format of saved copies (src/exchange), loaded only when one is made or read. */
export interface Exchange {
  /** @param at UTC ms */
  writeCopy(copy: SavedCopy, made: { readonly app: string; readonly at: number }): string;
  /** @throws RangeError where the text is no saved copy at all */
  readCopy(text: string, onProgress?: Progress): Promise<ReadCopy>;
}
