/** The class as it lies on the instructor's device: reports, what the instructor adds to them, and how long they stay. */
import type { IsoDate } from '../model/deck.ts';
import type { Leavable, ReceivedReport, Report, ReportPlan, ReportQuery, ReportSlip } from '../model/report.ts';

/** What tells whose report is the newest, without its items. */
export interface Head {
  /** SHA-256 of the file's text, 64 hex. */
  readonly hash: string;
  /** Thumbprint of the device's key, base64url. */
  readonly key: string;
  readonly trainee: string;
  readonly n: number;
  readonly made: IsoDate;
  /** UTC ms by the clock of this device: from then on it is kept. */
  readonly taken: number;
  /** Of its decks; absent in what was taken in by older versions of the app. */
  readonly flown?: readonly FlownDeck[];
}

/** What is to be looked up of a deck before a report of it is told in words. */
export type FlownDeck = Pick<PackedDeck, 'id' | 'contentId' | 'variants'>;

/** Items of a deck in columns: numbers lie close together, so that a class of hundreds is read at once. */
export interface PackedDeck {
  readonly id: string;
  readonly version: string;
  readonly title: string;
  readonly contentId: string;
  readonly variants: readonly string[];
  readonly notAsked: number;
  readonly queries?: readonly ReportQuery[];
  readonly slips?: readonly ReportSlip[];
  readonly slipsLeftOut?: number;
  /** Item keys, one a line: trainees who fly the same have the same text. */
  readonly keys: string;
  /** NaN: null in the report. */
  readonly now: Float64Array;
  readonly day: Float64Array;
  /** Days from 1 January 1970 on which items are checked before the rest, −1: with it; absent where all are. */
  readonly check?: Int32Array;
  /** Four a key. */
  readonly verdicts: Uint32Array;
  readonly voids: Uint32Array;
  /** −1: left out. */
  readonly sureWrong: Int32Array;
  /** Days from 1 January 1970; −1: never answered, −2: left out. */
  readonly last: Int32Array;
}

/** A report as it is kept; `unpack` gives it back as it came. */
export interface Packed extends Head {
  /** Of the report; absent: 1. */
  readonly v?: Report['v'];
  readonly app: string;
  readonly checkDate: IsoDate | null;
  readonly planned: number;
  readonly plan?: ReportPlan;
  readonly assignment?: { readonly id: string; readonly n: number };
  readonly decks: readonly PackedDeck[];
  readonly days?: readonly IsoDate[];
  readonly minutes?: number;
  readonly answers: number;
  readonly leftOut: readonly Leavable[];
}

/** What the instructor adds to a device. */
export interface TraineeRecord {
  readonly key: string;
  /** Fingerprint of the key in letters: "ABCD EFGH IJKL MNOP". */
  readonly letters: string;
  /** Key of the device whose owner this one's is, too; null: a trainee of its own. Never a chain. */
  readonly joined: string | null;
  readonly note: string;
  /** Queries of the trainee that the instructor has answered, by `queryId`, and on which day. */
  readonly answered?: Readonly<Record<string, IsoDate>>;
}

export interface ExpectedDeck {
  readonly id: string;
  /** 64 hex; null: whichever revision is the newest here. */
  readonly contentId: string | null;
  readonly title: string;
}

export interface ClassSettings {
  readonly title: string;
  /** Reports are kept so many days from when they were taken in. */
  readonly keepDays: number;
  /** Of whom nothing came for so many days, that is said. */
  readonly silentDays: number;
  /** Empty: reports on any deck are taken. */
  readonly decks: readonly ExpectedDeck[];
  /** Pseudonyms. */
  readonly expected: readonly string[];
}

export const DEFAULT_SETTINGS: ClassSettings = { title: '', keepDays: 180, silentDays: 7, decks: [], expected: [] };

/** All but the items of reports. */
export interface ClassRecords {
  readonly heads: readonly Head[];
  readonly trainees: readonly TraineeRecord[];
  readonly settings: ClassSettings;
}

/** Records on this device alone. Every promise that fails, fails with a StoreProblem. */
export interface ClassStore {
  read(): Promise<ClassRecords>;
  /** Those of the hashes that are there. */
  reports(hashes: readonly string[]): Promise<ReadonlyMap<string, Packed>>;
  /** @param letters fingerprint of the key. @param at UTC ms */
  take(report: ReceivedReport, letters: string, at: number): Promise<'taken' | 'twice'>;
  putNote(key: string, note: string): Promise<void>;
  /** @param query of `queryId`. @param on null: it is open again, on whichever of the devices it was answered */
  putAnswered(keys: readonly string[], query: string, on: IsoDate | null): Promise<void>;
  /** Both devices, with all that are joined to either, are one trainee's from now on. */
  join(key: string, to: string): Promise<void>;
  /** The device is a trainee's own again. */
  part(key: string): Promise<void>;
  /** All reports and notes of these devices, for good. */
  remove(keys: readonly string[]): Promise<void>;
  /** Reports taken in before that moment, for good; a trainee without any goes with the note. @returns how many */
  expire(before: number): Promise<number>;
  putSettings(settings: ClassSettings): Promise<void>;
  /** Everything. */
  clear(): Promise<void>;
  close(): void;
}

/** A file that was opened, and what became of it. */
export interface FileResult {
  readonly name: string;
  readonly outcome: 'taken' | 'twice' | 'refused';
  /** For people. */
  readonly words: string;
}

/** What the device does for the class. */
export interface ClassDoor {
  /** @throws StoreProblem */
  store(): Promise<ClassStore>;
  /** @throws Error whose message says to people why the file is no report */
  open(text: string): Promise<ReceivedReport>;
  /** Fingerprint of a key in letters. */
  letters(key: string): string;
  /** Address of the app without its fragment, ending with a slash: accounts and activities are named by it. */
  readonly home: string;
}
