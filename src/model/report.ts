/**
 * A trainee's progress, as it leaves the device: numbers by item, no times of day, no raw log. The file is a compact JWS
 * (RFC 7515; EdDSA, RFC 8037) whose payload is the canonical JSON (RFC 8785) of this; its header carries the public key.
 */
import type { IsoDate } from './deck.ts';
import type { ItemKey } from './item.ts';

/** What a trainee may leave out; what is left out is named in the report. */
export const LEAVABLE = ['sure', 'queries', 'days', 'minutes', 'slips'] as const;
export type Leavable = (typeof LEAVABLE)[number];

export interface ReportItem {
  readonly key: ItemKey;
  /**
   * Recall chance today, and on its check date if nothing more is practised, 0..1, three decimals; null: never asked, and
   * of `day` no check date, or one that is past. Both at least one day after the last answer: of what was answered today
   * the chance is that of tomorrow, for right after a verdict it is 1 whatever was answered.
   */
  readonly now: number | null;
  readonly day: number | null;
  /** Where its procedure is checked before the rest and that is still to come: the date that `day` is for. */
  readonly check?: IsoDate;
  /** Verdicts so far: missed, unsure, sound, fluent. */
  readonly verdicts: readonly [missed: number, unsure: number, sound: number, fluent: number];
  /** Answers that were wrong though the learner was sure; absent where left out (`sure`). */
  readonly sureWrong?: number;
  /** Answers taken back by the learner. */
  readonly voids: number;
  /** Day of the last answer, null where there was none; absent where left out (`days`). */
  readonly last?: IsoDate | null;
}

/** A question that the learner queried, and why. */
export interface ReportQuery {
  readonly items: readonly ItemKey[];
  readonly on: IsoDate;
  /** In their own words; '' where nothing was written. */
  readonly note: string;
}

/** A wrong answer in words, of an item that is asked: by whichever revision, where it means the same. */
export interface ReportSlip {
  readonly key: ItemKey;
  readonly asked: string;
  /** As given; of numbers that are drawn anew each time the slip that explains it. */
  readonly given: string;
  readonly times: number;
}

/** Of items that were answered and are no longer asked: a revision changed them, or they are left out. */
export interface ReportFormer {
  readonly items: number;
  readonly verdicts: ReportItem['verdicts'];
  /** As of an item. */
  readonly sureWrong?: number;
}

export interface ReportDeck {
  readonly id: string;
  readonly version: string;
  readonly title: string;
  /** 64 hex. */
  readonly contentId: string;
  /** Ids of the views flown. */
  readonly variants: readonly string[];
  /** Items asked of this learner, in the deck's order. */
  readonly items: readonly ReportItem[];
  /** Items of the deck that the learner does not have asked: facets left out, procedures not yet opened. */
  readonly notAsked: number;
  /** Absent where left out. */
  readonly queries?: readonly ReportQuery[];
  /** The most often given first; of one item at most three. */
  readonly slips?: readonly ReportSlip[];
  /** Questions answered wrongly that are not among `slips`; absent where there are none, and with them. */
  readonly slipsLeftOut?: number;
  /** Their answers count in `answers`, `days` and `minutes` of the report and in no item; absent where there are none. */
  readonly former?: ReportFormer;
}

/** What the trainee's own app expects of the minutes that are planned. */
export interface ReportPlan {
  /** A day. */
  readonly minutes: number;
  /** Mean recall on the check day over all that is practised, if they are kept, 0..1, three decimals. */
  readonly recall: number;
  /** Least whole minutes a day that would reach 0.95 (`ADVISED`); null where four hours a day would not. */
  readonly needed: number | null;
}

/**
 * Format of reports that are made now. Of 1, which is still read: nothing of `plan`, `former` and `slipsLeftOut`, and
 * recall after answers of the same day as of that very moment.
 */
export const REPORT_FORMAT = 2;

export interface Report {
  readonly recency: 'report';
  readonly v: 1 | typeof REPORT_FORMAT;
  /** Chosen by the trainee, 1 to 40 characters; no name is asked for. */
  readonly trainee: string;
  /** Of this device, rising: of two by one key the greater holds. */
  readonly n: number;
  readonly made: IsoDate;
  readonly app: string;
  readonly checkDate: IsoDate | null;
  /** Minutes a day that are planned. */
  readonly planned: number;
  /** Absent without a check ahead, where no plan was made yet, and where it is about decks that are not in the report. */
  readonly plan?: ReportPlan;
  readonly assignment?: { readonly id: string; readonly n: number };
  readonly decks: readonly ReportDeck[];
  /** Days on which something was answered, rising; absent where left out. */
  readonly days?: readonly IsoDate[];
  /** Visible time of all answers, whole minutes; absent where left out. */
  readonly minutes?: number;
  readonly answers: number;
  readonly leftOut: readonly Leavable[];
  /** Always true: nobody else saw the answers being given. */
  readonly selfRecorded: true;
}

/** A report whose signature was looked at. */
export interface ReceivedReport {
  readonly report: Report;
  /** RFC 7638 thumbprint of the signing key, base64url: names the device. */
  readonly key: string;
  /** SHA-256 of the file's text, 64 hex: twice is once. */
  readonly hash: string;
}
