/** What a verdict tells of an answer, form by form. */
import type { SlipLine } from './form-asked.ts';
import type { PacedDetail } from './form-paced.ts';
import type { Marks } from './item.ts';

/** Verdict on one chip of a run, for the margin. */
export interface ChipFinding {
  readonly id: string;
  readonly text: string;
  readonly state: 'right' | 'moved' | 'misplaced' | 'omitted' | 'stranger' | 'left-out';
  /** 1-based number the learner gave, if any. */
  readonly given?: number;
  /** Texts of steps it must come after / before (direct neighbours in the order only). */
  readonly after: readonly string[];
  readonly before: readonly string[];
  /** Authored extras now shown: who, cue, wait, number, reason, usual slip, source line. */
  readonly by?: string;
  readonly cue?: string;
  readonly wait?: string;
  readonly value?: string;
  readonly together?: boolean;
  readonly why?: string;
  readonly slip?: string;
  readonly source?: string;
  readonly note?: string;
}
export interface RunDetail {
  readonly form: 'run';
  /** In a right order, strangers last. */
  readonly chips: readonly ChipFinding[];
  readonly violated: number;
  readonly pairs: number;
  /** 0..1, (1 + Kendall's tau) / 2 on a chain. */
  readonly score: number;
  readonly moves: number;
  /** A named slip that was made: the order that was right once. */
  readonly slip?: string;
}
/** Of one step out of several, or of a cue. */
export interface NextDetail {
  readonly form: 'next' | 'before' | 'cue';
  /** The right one, with all that was hidden. */
  readonly right: ChipFinding;
  /** What was chosen instead; absent where the answer is right, or Don't know. */
  readonly wrong?: ChipFinding;
}
/** Of a number or a choice. */
export interface AnswerDetail {
  readonly form: 'limit' | 'scenario' | 'value' | 'rule';
  /** Right answer in trade form, with unit: "at least 250 ft AAL". */
  readonly right: string;
  /** What was given, in trade form; '' for Don't know. */
  readonly given: string;
  /** "1 kt above the limit, on the unsafe side" … */
  readonly off?: string;
  /** What else counts as right: "Counted right: 150 kt to 160 kt.", "Either is right." */
  readonly counted?: string;
  /** A named slip that was made. */
  readonly slip?: string;
  /** How it is worked out: computed values and the rule that holds, one line each. */
  readonly working: readonly string[];
  readonly why?: string;
  readonly usualSlip?: string;
  readonly source?: string;
  /** The answer as angles of the nose against the horizon, °, one or two, where it is drawn so. */
  readonly pitch?: readonly number[];
  /** What holds at another time, a line each: "From 1 December 2026: at least 300 ft". */
  readonly dated?: readonly string[];
}
/** Of words that are said, and of who says them. */
export interface WordsDetail {
  readonly form: 'callout' | 'list';
  /** The step with all that was hidden; its text are the right words. */
  readonly right: ChipFinding;
  /** As given; '' for Don't know. */
  readonly given: string;
  readonly wordsRight: boolean;
  /** Who was named, where that was asked. */
  readonly seat?: { readonly given: string; readonly right: string; readonly isRight: boolean };
  /** "Spelled otherwise: \u2026", which words are missing, extra, or another callout of the deck that it is. */
  readonly note?: string;
}
/** One row that was dealt, or one of two variants. */
export interface DealtRow {
  readonly id: string;
  readonly text: string;
  /** As given, and as it is right; given is '' for Don't know. */
  readonly given: string;
  readonly right: string;
  readonly isRight: boolean;
  readonly off?: string;
  /** Of what was not known alone. */
  readonly why?: string;
  readonly usualSlip?: string;
  readonly source?: string;
  /** A named slip that was made, what holds at another time, the author's note: a line each. */
  readonly notes?: readonly string[];
}
/** Of rows that were dealt: of a crew, or of two variants. */
export interface DealtDetail {
  readonly form: 'crew' | 'difference';
  readonly rows: readonly DealtRow[];
  /** Of all of them: "The two are exchanged." */
  readonly note?: string;
  readonly why?: string;
  readonly usualSlip?: string;
  readonly source?: string;
}
export interface SlipDetail {
  readonly form: 'slip';
  readonly lines: readonly (SlipLine & {
    /**
     * found, passed over, accused though right, or let go rightly; of what is left out the other lines that wait for it
     * are let go rightly.
     */
    readonly state: 'found' | 'overlooked' | 'accused' | 'right';
    /** "Comes too early: after \u2026", "PM does this", "at least 80 kt". */
    readonly note?: string;
  })[];
  /** The run as it is right: it closes the question. */
  readonly run: readonly ChipFinding[];
  /** So many lines were named that what was found does not count. */
  readonly tooMany?: true;
}
export type Detail = RunDetail | NextDetail | AnswerDetail | WordsDetail | DealtDetail | SlipDetail | PacedDetail;

export interface Marked {
  readonly marks: Marks;
  /** Chance that a guess does as well, 0..1: of a faultless run the whole, else a step's share. */
  readonly g: number;
  readonly flawed: boolean;
  readonly detail: Detail;
}
